"""The recommendation before the balls and after them, and what moved between the two."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.ladder.rung import trade_name
from rules.units import unit

if TYPE_CHECKING:
    from rules.engine.ledger import Choice
    from rules.engine.lines import Line
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


@dataclass(frozen=True, slots=True)
class Reason:
    """A rule whose say between two pairs is not what it was."""

    rule: str
    moved: int
    """Thousandths of a point toward the pair now picked."""
    line: Line
    """What the rule says now."""
    of_rival: bool
    """Whether it says so of the rival and not of the pair now picked."""


def reasons(found: Change, most: int = 3) -> tuple[Reason, ...]:
    """Return the rules that moved the pick, or its lead where it stayed, weightiest first.

    Read from the two traces alone: the points of each rule for the pair now picked, less those for its
    rival (the former pick, else the runner-up), after less before.
    """
    old, new = found.before.pairing, found.after.pairing
    after = pick(found.after)
    rival = pick(found.before) if found.pick_changed else None
    if rival is None and new is not None and new.runner_up is not None:
        rival = new.runner_up.candidate.id
    if old is None or new is None or after is None or rival is None:
        return ()
    before_lines = [_lines(old, id) for id in (after, rival)]
    after_lines = [_lines(new, id) for id in (after, rival)]
    rules = {rule for lines in (*before_lines, *after_lines) for rule in lines}
    moves = {
        rule: _points(after_lines, rule) - _points(before_lines, rule)
        for rule in rules
        if rule in after_lines[0] or rule in after_lines[1]
    }
    weighty = sorted((rule for rule in moves if moves[rule]), key=lambda rule: (-abs(moves[rule]), rule))
    return tuple(_reason(rule, moves[rule], after_lines) for rule in weighty[:most])


def _reason(rule: str, moved: int, lines: list[dict[str, Line]]) -> Reason:
    """Return a rule with the line that tells why: of the pair that it helps less, where it speaks of both."""
    mine, rivals = (part.get(rule) for part in lines)
    against = rivals is not None and (mine is None or (rivals.points < mine.points <= 0))
    line = rivals if against else mine
    assert line is not None
    return Reason(rule, moved, line, against)


def _lines(choice: Choice, id: str) -> dict[str, Line]:
    """Return the lines of a pair's ledger by their rules; none where the pair was not there."""
    standing = choice.standing(id)
    return {line.rule.id: line for line in standing.lines if line.rule} if standing else {}


def _points(lines: list[dict[str, Line]], rule: str) -> int:
    """Return a rule's points for the first pair less those for the second."""
    mine, rivals = (part[rule].points if rule in part else 0 for part in lines)
    return mine - rivals


def lead(outcome: Outcome) -> int | None:
    """Return the engine's margin between its pick and the runner-up, thousandths of a point."""
    return outcome.pairing.margin if outcome.pairing else None
