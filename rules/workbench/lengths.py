"""The price of each half inch: one rung built longer and shorter, flown and balanced anew each time.

Head, shaft, grip and target stay; the length alone changes. One club's own law of speed holds here, not the
one by which speed falls from club to club of a set.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from rules.bench.build import SETBACK
from rules.bench.problems import BenchProblem, NotShorter
from rules.bench.shorten import shorten
from rules.golf.coefficients import rivals
from rules.golf.flight import fly
from rules.ladder.assembly import impact_mass
from rules.ladder.bagged import USUAL_SHAFT, own_mass
from rules.ladder.flown import flown
from rules.ladder.start import scatter_factor, usual_length
from rules.shelf import on_bench
from rules.units import parse, unit

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.ladder.rung import Flown, Rung, Spec
    from rules.shelf import Shelf

HALF_INCH = parse("0.5 in", "m")
_EACH_WAY = 3
"""Half inches shown either way of the length decided."""


@dataclass(frozen=True, slots=True)
class LengthRow:
    """One length of a rung, and what it costs (SI)."""

    length: float
    chosen: bool
    """Whether it is the length decided."""
    scatter_toe: float
    """One spread of his strikes, heel to toe, m."""
    scatter_high: float
    """One spread of his strikes, low to high, m."""
    flown: Flown
    """By the first law of flight."""
    expected_others: tuple[float, ...]
    """Expected carry by every other law, m."""
    needed: float
    """Mass that the target balance asks for, kg (negative: so much too heavy)."""
    room: float | None
    """What the head's ports hold in all, kg; None where nobody said."""

    @property
    def band(self) -> tuple[float, float]:
        """Expected carry by the law that carries least far, and by the one that carries farthest, m."""
        carries = (self.flown.expected, *self.expected_others)
        return min(carries), max(carries)

    @property
    def holds(self) -> bool | None:
        """Whether the ports hold what is needed; None where nobody said what they hold."""
        return None if self.room is None else -1e-9 <= self.needed <= self.room + 1e-9


def length_table(base: RuleBase, shelf: Shelf, golfer: Golfer, rung: Rung) -> tuple[LengthRow, ...]:
    """Return a rung by half inches, shortest first: three either way of its length, within what is allowed.

    A length at which the bench cannot build from these parts is left out, and so is one longer than his
    own club is now. Expected carry is over the
    golfer's strikes, lies and mishits, by every law of flight: the gap is an honest band.
    """
    low, high = (unit(base.decisions["length"].unit).to_si(x / 1000) for x in base.decisions["length"].limits)
    rows = []
    for step in range(-_EACH_WAY, _EACH_WAY + 1):
        length = rung.spec.length + step * HALF_INCH
        if step and not low - 1e-9 <= length <= high + 1e-9:
            continue
        try:
            rows.append(_row(base, shelf, golfer, rung, length))
        except BenchProblem:
            continue
    return tuple(rows)


def _row(base: RuleBase, shelf: Shelf, golfer: Golfer, rung: Rung, length: float) -> LengthRow:
    """Return one length; raises what the bench raises where it cannot be built."""
    spec, needed, room = _balanced(shelf, rung, length)
    wider = scatter_factor(base, length, usual_length(base, rung.kind, spec.loft))
    others = [partial(fly, density=golfer.density, law=law) for law in rivals()]
    return LengthRow(
        length=length,
        chosen=length == rung.spec.length,
        scatter_toe=golfer.pattern.sd_toe * wider,
        scatter_high=golfer.pattern.sd_high * wider,
        flown=flown(base, golfer, rung.kind, spec),
        expected_others=tuple(flown(base, golfer, rung.kind, spec, other).expected for other in others),
        needed=needed,
        room=room,
    )


def _balanced(shelf: Shelf, rung: Rung, length: float) -> tuple[Spec, float, float | None]:
    """Return the rung at a length with the mass behind the ball, what balance asks for, and the room."""
    spec = replace(rung.spec, length=length)
    if spec.head is None or spec.shaft is None or spec.grip is None:
        return _own(rung, spec)
    built = on_bench.club(spec.head, spec.shaft, spec.grip, length, shelf, spec.tip_extra)
    mass = impact_mass(built, spec.head, spec.balance)
    return replace(spec, impact_mass=mass), built.need(spec.balance), spec.head.capacity


def _own(rung: Rung, spec: Spec) -> tuple[Spec, float, float | None]:
    """Return one of his own clubs at a length: what it wants back to read as it does now.

    It is cut down from what it is and never made longer; a shaft of usual mass stands in.
    """
    owned = rung.owned
    assert owned is not None
    before, was, room = rung.spec.length + rung.cut, own_mass(owned, spec.head), owned.can_add
    if spec.length > before + 1e-9:
        raise NotShorter(before, spec.length)
    needed = shorten(before, min(before, spec.length), was, USUAL_SHAFT, setback=SETBACK).restore
    return replace(spec, impact_mass=was + min(needed, room or 0.0)), needed, room
