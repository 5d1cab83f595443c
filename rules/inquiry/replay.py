"""Replay: what past cases come to under changed rules or another catalogue, and which rules did it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from rules.fitting import brief, fit
from rules.inquiry.blame import NO_RULES, blamed
from rules.inquiry.roads import decided, differs

if TYPE_CHECKING:
    from rules.facts.subject import Subject
    from rules.fitting import Brief, House
    from rules.inquiry.blame import Blame
    from rules.inquiry.roads import Picked


@dataclass(frozen=True, slots=True)
class Case:
    """One past case under the rules of then and of now."""

    id: str
    before: str | None = None
    """The pair that was picked then; None where none is possible."""
    after: str | None = None
    decisions: Mapping[str, tuple[Picked | None, Picked | None]] = field(default_factory=dict)
    """Parts of the same pair that are decided otherwise, before and after."""
    because: Mapping[str, tuple[Blame, ...]] = field(default_factory=dict)
    """By changed decision the rules that did it, weightiest first; none where the catalogue alone did it."""
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
    parts = _parts(after, first, second) if picks[0] == picks[1] else {}
    if picks[0] == picks[1] and not parts:
        return Case(id, picks[0], picks[1])
    both = [fit(house, replace(who, overrides={})) for house, who in ((before, then), (after, now))]
    because = {decision: blamed(both[0], both[1], decision) for decision in parts or ("pairing",)}
    return Case(id, picks[0], picks[1], parts, {one: some for one, some in because.items() if some})


def _parts(house: House, first: Brief, second: Brief) -> dict[str, tuple[Picked | None, Picked | None]]:
    """Return the parts of one pair that are decided otherwise."""
    old, new = decided(first), decided(second)
    both = {id: (old.get(id), new.get(id)) for id in dict.fromkeys((*old, *new))}
    return {id: two for id, two in both.items() if differs(house.base, id, *two)}


@dataclass(slots=True)
class Tally:
    """A replay summed up as its cases come in; cases that did not change are only counted."""

    cases: int = 0
    changed: list[Case] = field(default_factory=list)
    unreadable: list[Case] = field(default_factory=list)
    pairs: Counter[tuple[str, str]] = field(default_factory=Counter)
    """How often one pair gave way to another."""
    rules: Counter[str] = field(default_factory=Counter)
    """In how many changed cases a rule had a part."""
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
            self.rules.update({blame.rule for some in case.because.values() for blame in some} - NO_RULES)
            if case.before != case.after:
                self.pairs[case.before or "", case.after or ""] += 1

    def sort(self) -> None:
        """Put cases and counts in the order of their names, so that two runs read the same."""
        self.changed.sort(key=lambda case: case.id)
        self.unreadable.sort(key=lambda case: case.id)
        self.pairs = Counter(dict(sorted(self.pairs.items())))
        self.rules = Counter(dict(sorted(self.rules.items())))
        self.parts = Counter(dict(sorted(self.parts.items())))
