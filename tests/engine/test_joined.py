"""Numbers read at once as parts of candidates, where a ramp or a threshold lies at the ends of a range."""

from __future__ import annotations

import pytest

from rules.engine import RuleBase
from rules.engine.fast import Ground
from rules.engine.language import Effect
from rules.engine.ramps import Ramp

FAR = Ramp("grown", ((-20.0, -4200), (0.0, 0), (10.0, 3000), (100.0, -6000)))
"""A ramp over more than the heights that are declared, 1 to 40 m: somebody tries it, no file may hold it."""
NEAR = Ramp("grown", ((-20.0, -4200), (100.0, 6000)))
BELOW = Ramp("grown", ((-20.0, -4200), (10.0, 3000)))
ABOVE = Ramp("grown", ((10.0, 3000), (20.0, 1000), (100.0, -6000)))


@pytest.mark.parametrize("ramp", [FAR, NEAR, BELOW, ABOVE], ids=["far", "near", "below", "above"])
def test_a_ramp_beyond_the_declared_range_stays_what_it_is_at_its_ends(garden: RuleBase, ramp: Ramp) -> None:
    base = garden.without("tall-trees-trouble").with_rule_effect("fruit-wanted", Effect("points", ramp=ramp))
    ground = Ground({"wishes": frozenset(("fruit",))})
    joined = base.joined("tree", ground, ("grown", "bears", "hardy"))
    rest = joined.part({"bears": frozenset(("fruit",)), "hardy": 250.0})
    read = joined.numbers(("grown",))
    for height in (-500.0, -20.0, 0.0, 0.9, 1.0, 1.1, 9.5, 10.0, 25.0, 39.9, 40.0, 40.1, 100.0, 900.0):
        held = min(40.0, max(1.0, height))
        told = joined.points([rest, read([height])])
        assert told == joined.points([rest, joined.part({"grown": held})]), height
        assert told == (ramp.value(held), False), height
