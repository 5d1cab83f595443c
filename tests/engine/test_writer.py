"""What is written back reads back as what it was."""

from __future__ import annotations

from math import ulp
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rules.engine.writer import quantity_text
from rules.units import UNITS, parse, unit


@given(st.randoms(use_true_random=True), st.sampled_from(sorted(UNITS)))
def test_a_quantity_reads_back_exactly_in_every_unit(rng: Random, symbol: str) -> None:
    """Also one that no figure in its own unit hits: then it is written in the unit that SI has for it."""
    own = unit(symbol)
    for _ in range(30):
        si = own.to_si(rng.choice((rng.uniform(-200, 300), rng.randint(-99, 999) / 8))) * rng.choice(
            (1, 1 / 3)
        )
        back = parse(quantity_text(si, symbol), own)
        assert back == si or (symbol == "%" and abs(back - si) <= ulp(si)), (si, quantity_text(si, symbol))


@pytest.mark.parametrize(
    ("si", "symbol", "text"),
    [
        (1.35, "m", "1.35 m"), (0.0254 * 43.5, "in", "43.5 in"), (283.15, "degC", "10 degC"),
        (0.125, "%", "12.5 %"), (0.0013, "%", "0.13 %"), (1.3515926675689833, "degC", "1.3515926675689833 K"),
        (3.0, "", "3"), (1e-7, "m", "0.0000001 m"), (1e17, "", "100000000000000000"),
    ],
)  # fmt: skip
def test_a_quantity_is_written_in_figures_that_a_person_would_type(si: float, symbol: str, text: str) -> None:
    assert quantity_text(si, symbol) == text


def test_a_share_that_no_percentage_hits_is_written_as_a_percentage_all_the_same() -> None:
    """A number without a unit would be read as a percentage, and be a hundred times too small."""
    text = quantity_text(0.7359699890685233, "%")
    assert text.startswith("73.596998906852")
    assert text.endswith(" %")
    assert parse(text, unit("%")) == pytest.approx(0.7359699890685233, rel=1e-15)
