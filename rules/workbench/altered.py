"""One of his own clubs, shortened: both ways of counting, and what its head can take.

Of a head of the catalogue the mass is known; where nothing is known of its parts, a head and a shaft of
usual mass stand in, and the scale decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench.build import SETBACK
from rules.bench.shorten import Shortening, shorten
from rules.ladder.bagged import USUAL_SHAFT, own_mass

if TYPE_CHECKING:
    from rules.ladder.rung import Rung


@dataclass(frozen=True, slots=True)
class Alteration:
    """What shortening one of his own clubs does, and what puts it right (SI, points)."""

    name: str
    before: float
    after: float
    told: bool
    """Whether he told its length; else a usual one stands in."""
    sums: Shortening
    """By the exact sum and by the bench rule, with the usual parts."""
    room: float | None
    """What its head can take, kg; None when nobody said."""
    put_back: float
    """What goes back into it, kg."""
    left: float
    """Points it would still read lighter than before; negative."""
    head_mass: float
    """Its head's as catalogued, ports and all, or the usual one that stands in, kg."""
    head_known: bool
    """Whether it is one of the catalogue's."""
    shaft_mass: float
    """The usual shaft mass that stands in, kg."""


def alteration(rung: Rung) -> Alteration | None:
    """Return the work on one of his own clubs; None for a club that is left as it is, or a new one."""
    owned = rung.owned
    if owned is None or not rung.cut:
        return None
    after, before = rung.spec.length, rung.spec.length + rung.cut
    head = own_mass(owned, rung.spec.head)
    sums = shorten(before, after, head, USUAL_SHAFT, setback=SETBACK)
    put_back = min(sums.restore, owned.can_add or 0.0)
    return Alteration(
        name=owned.name,
        before=before,
        after=after,
        told=owned.length is not None,
        sums=sums,
        room=owned.can_add,
        put_back=put_back,
        left=sums.points_change + put_back / sums.mass_per_point,
        head_mass=head,
        head_known=rung.spec.head is not None,
        shaft_mass=USUAL_SHAFT,
    )
