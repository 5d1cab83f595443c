"""The recommendation before the balls and after them, and what moved between the two."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.ladder.rung import trade_name
from rules.units import unit

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.ladder.pairs import Pair
    from rules.ladder.rung import Rung

_FIGURES = (("loft", "deg"), ("length", "in"), ("face_height", "mm"), ("balance", "points"))
"""What is told of a club, with the unit it is told in."""


@dataclass(frozen=True, slots=True)
class Moved:
    """One thing that is not what it was."""

    what: str
    """pick, or a role and a figure: longer.club, longer.loft, shorter.length."""
    before: float | str | None
    """SI, or words; None where there was none."""
    after: float | str | None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """Two runs of the road, and what separates them."""

    before: Outcome
    after: Outcome
    moved: tuple[Moved, ...]

    @property
    def pick_changed(self) -> bool:
        """Whether another pair is picked."""
        return pick(self.before) != pick(self.after)


def pick(outcome: Outcome) -> str | None:
    """Return the id of the pair that was picked; None where none is possible."""
    return outcome.picked.id if outcome.picked else None


def label(outcome: Outcome) -> str | None:
    """Return the pair that was picked in the trade's words, such as 5-wood and 4-hybrid, with lofts."""
    return named(outcome.picked) if outcome.picked else None


def named(pair: Pair) -> str:
    """Return a pair in the trade's words, its lofts in degrees."""
    return " and ".join(_club(rung) for rung in (pair.longer, pair.shorter))


def _club(rung: Rung) -> str:
    degrees = unit("deg").from_si(rung.spec.loft)
    name = trade_name(rung.kind, degrees)
    return f"{name} of {degrees:.4g} degrees" if rung.owned is None else f"{rung.owned.name} ({name})"


def change(before: Outcome, after: Outcome) -> Change:
    """Return what moved from one run of the road to another."""
    found = [] if pick(before) == pick(after) else [Moved("pick", label(before), label(after))]
    if before.picked and after.picked:
        for role in ("longer", "shorter"):
            found += _of_role(role, getattr(before.picked, role), getattr(after.picked, role))
    return Change(before, after, tuple(found))


def _of_role(role: str, before: Rung, after: Rung) -> Iterator[Moved]:
    """Yield what moved of one of the two clubs."""
    if _club(before) != _club(after):
        yield Moved(f"{role}.club", _club(before), _club(after))
    for name, symbol in _FIGURES:
        old, new = getattr(before.spec, name), getattr(after.spec, name)
        if old != new:
            yield Moved(f"{role}.{name}", old, new, symbol)
