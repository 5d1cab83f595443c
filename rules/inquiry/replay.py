"""Replay: what past cases come to under changed rules or another catalogue, and which rules did it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from rules.fitting import brief, fit
from rules.inquiry.roads import decided, differs

if TYPE_CHECKING:
    from rules.engine.ledger import Choice
    from rules.facts.subject import Subject
    from rules.fitting import Brief, House
    from rules.inquiry.roads import Picked

_BLAMED = 4
"""Rules named at most for one change."""


@dataclass(frozen=True, slots=True)
class Blame:
    """One rule's part in a change of the pair."""

    rule: str
    points: int
    """Thousandths by which it moved the pair picked now against the one picked then."""


@dataclass(frozen=True, slots=True)
class Case:
    """One past case under the rules of then and of now."""

    id: str
    before: str | None = None
    """The pair that was picked then; None where none is possible."""
    after: str | None = None
    decisions: Mapping[str, tuple[Picked | None, Picked | None]] = field(default_factory=dict)
    """Parts of the same pair that are decided otherwise, before and after."""
    because: tuple[Blame, ...] = ()
    """Rules that moved the new pair most against the old one; empty where the catalogue alone did it."""
    unreadable: str = ""
    """Why the session could not be read or run; empty where it could."""

    @property
    def changed(self) -> bool:
        """Whether anything is decided otherwise."""
        return not self.unreadable and (self.before != self.after or bool(self.decisions))


def replayed(before: House, after: House, id: str, then: Subject, now: Subject) -> Case:
    """Return what a case comes to under either house; `then` and `now` are the session read by either.

    Overrides are left aside: it tells what the rules pick. Raises the road's own problems.
    """
    first = brief(before, replace(then, overrides={}))
    second = brief(after, replace(now, overrides={}))
    picks = [one.picked.id if one.picked else None for one in (first, second)]
    if picks[0] == picks[1]:
        return Case(id, picks[0], picks[1], _parts(after, first, second))
    because = _because(before, after, then, now, picks)
    return Case(id, picks[0], picks[1], because=because)


def _parts(house: House, first: Brief, second: Brief) -> dict[str, tuple[Picked | None, Picked | None]]:
    """Return the parts of one pair that are decided otherwise."""
    old, new = decided(first), decided(second)
    both = {id: (old.get(id), new.get(id)) for id in dict.fromkeys((*old, *new))}
    return {id: two for id, two in both.items() if differs(house.base, id, *two)}


def _because(
    before: House, after: House, then: Subject, now: Subject, picks: list[str | None]
) -> tuple[Blame, ...]:
    """Return the rules that moved the new pair most against the old one, from the ledgers of both.

    For each rule: what it gives the new pair less the old one now, less the same then.
    """
    choices = [
        fit(house, replace(who, overrides={})).pairing for house, who in ((before, then), (after, now))
    ]
    leads = [_lead(choice, picks[1], picks[0]) for choice in choices]
    if leads[0] is None or leads[1] is None:
        return ()
    moved = Counter(leads[1])
    moved.subtract(leads[0])
    ranked = sorted(
        ((rule, points) for rule, points in moved.items() if points > 0), key=lambda x: (-x[1], x[0])
    )
    return tuple(Blame(rule, points) for rule, points in ranked[:_BLAMED])


def _lead(choice: Choice | None, one: str | None, other: str | None) -> dict[str, int] | None:
    """Return by rule the points of one pair less those of another; None where either is not there."""
    if choice is None or one is None or other is None:
        return None
    standings = [choice.standing(id) for id in (one, other)]
    found: Counter[str] = Counter()
    for sign, standing in zip((1, -1), standings, strict=True):
        if standing is None:
            return None
        for line in standing.lines:
            if line.rule is not None:
                found[line.rule.id] += sign * line.points
    return dict(found)


@dataclass(slots=True)
class Tally:
    """A replay summed up as its cases come in; cases that did not change are only counted."""

    cases: int = 0
    changed: list[Case] = field(default_factory=list)
    unreadable: list[Case] = field(default_factory=list)
    pairs: Counter[tuple[str, str]] = field(default_factory=Counter)
    """How often one pair gave way to another."""
    rules: Counter[str] = field(default_factory=Counter)
    """In how many changes of the pair a rule had a part."""
    parts: Counter[str] = field(default_factory=Counter)
    """How often a part of an unchanged pair is decided otherwise."""

    def add(self, case: Case) -> None:
        """Count a case in."""
        self.cases += 1
        if case.unreadable:
            self.unreadable.append(case)
        elif case.changed:
            self.changed.append(case)
            self.parts.update(id.rpartition(".")[2] for id in case.decisions)
            if case.before != case.after:
                self.pairs[case.before or "", case.after or ""] += 1
                self.rules.update(blame.rule for blame in case.because)

    def sort(self) -> None:
        """Put cases and counts in the order of their names, so that two runs read the same."""
        self.changed.sort(key=lambda case: case.id)
        self.unreadable.sort(key=lambda case: case.id)
        self.pairs = Counter(dict(sorted(self.pairs.items())))
        self.rules = Counter(dict(sorted(self.rules.items())))
        self.parts = Counter(dict(sorted(self.parts.items())))
