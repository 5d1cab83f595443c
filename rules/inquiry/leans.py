"""What the pick leans on: every assumption swung over its range, every other flight law, the other school.

An assumption is swung to both ends of its plausible range (a word to every other word), a gap of the shelf
likewise, each contested rule to the other school's view. What changes a decision comes first.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Literal, cast

from rules.engine.plan import assumptions_of
from rules.fitting import House, brief, briefly, judged, rungs
from rules.golf.coefficients import Law, rivals
from rules.house import OF_CLUBS, OF_ROADS
from rules.inquiry.roads import Picked, Road, Roads, changes
from rules.inquiry.sky import Sky
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Assumption
    from rules.engine.views import Value
    from rules.facts.subject import Subject
    from rules.fitting import Outcome
    from rules.golf.outcome import Flier
    from rules.ladder.judge import Judge
    from rules.shelf.defaults import End

Sort = Literal["assumption", "law", "school", "shelf"]
"""A value of the rule base, the flight law, a contested rule, or a measure that nobody took."""
OTHER_LAWS: Mapping[str, Law] = {f"{law}-flight-law": law for law in rivals()}
"""Every other flight law, by its id among what is leaned on."""


@dataclass(frozen=True, slots=True)
class Swing:
    """One other value, and what it does."""

    to: Value | None
    """SI or a word; None where it is not a value (a law, a school)."""
    changes: tuple[str, ...]
    """Decisions that are then others."""
    picks: Mapping[str, Picked]
    """What is decided then, of those."""
    margin: int | None
    """Points then left between pick and runner-up, thousandths."""


@dataclass(frozen=True, slots=True)
class Lean:
    """One thing that the run leans on."""

    id: str
    """Of the assumption, the default of the shelf, or the rule."""
    sort: Sort
    value: Value | None
    swings: tuple[Swing, ...]

    @property
    def changes_pick(self) -> bool:
        """Whether some swing changes the pair."""
        return any("pairing" in swing.changes for swing in self.swings)

    @property
    def changes(self) -> bool:
        """Whether some swing changes any decision."""
        return any(swing.changes for swing in self.swings)

    @property
    def narrowest(self) -> int:
        """Least points that a swing leaves between pick and runner-up; 0 where none is left."""
        return min((0 if s.margin is None else s.margin for s in self.swings), default=0)


class Leaning:
    """Swings what one golfer's run leans on."""

    def __init__(self, outcome: Outcome, roads: Roads, mine: Road, rival: str | None) -> None:
        self.outcome, self.mine, self.rival = outcome, mine, rival
        self.roads = roads.telling(mine.pick, rival)
        self.base = outcome.house.base

    def all(self) -> Iterator[Lean]:
        """Yield everything the run leans on, each swung. Raises Superseded when nobody waits any more."""
        for sort, id in self.ids():
            yield self.of(sort, id)

    def ids(self) -> list[tuple[Sort, str]]:
        """Return what is swung: the laws, the schools, what the road read, and the gaps of the shelf."""
        found: list[tuple[Sort, str]] = [("law", id) for id in OTHER_LAWS]
        found += [
            ("school", rule.id) for rule in self.base.rules.values() if rule.contested and rule.decision
        ]
        found += [("assumption", id) for id in read_assumptions(self.outcome)]
        shelf = self.outcome.house.shelf
        found += [("shelf", id) for id in dict.fromkeys(gap.id for gap in shelf.assumptions() if gap.span)]
        return found

    def of(self, sort: Sort, id: str) -> Lean:
        """Swing one thing."""
        if sort == "law":
            sky = Sky(self.roads.sky.density, OTHER_LAWS[id])
            return Lean(id, sort, None, (self._swing(None, self.roads.in_house(self.roads.house, sky=sky)),))
        if sort == "school":
            decision = self.base.rules[id].decision
            paired = decision is not None and self.base.decisions[decision].scope == "pair"
            alike: Sequence[str] = OF_CLUBS if paired else ()
            return Lean(id, sort, None, (self._under(None, self.base.with_other_view(id), alike),))
        if sort == "shelf":
            return self._gap(id)
        assumption = self.base.assumptions[id]
        others = _others(assumption)
        alike = self._alike(id)
        swings = tuple(self._under(to, self.base.with_assumptions({id: to}), alike) for to in others)
        return Lean(id, sort, assumption.value, swings)

    def _gap(self, id: str) -> Lean:
        """Swing a default of the shelf."""
        house = self.roads.house
        gap = next(gap for gap in house.shelf.assumptions() if gap.id == id and gap.span)
        span = cast("tuple[float, float]", gap.span)
        ends: tuple[End, End] = ("low", "high")
        swings = tuple(
            self._swing(to, self.roads.in_house(house.with_shelf(house.shelf.swung(id, end))))
            for to, end in zip(span, ends, strict=True)
        )
        return Lean(id, "shelf", cast("Value", gap.value), swings)

    def _under(self, to: Value | None, base: RuleBase, alike: Sequence[str]) -> Swing:
        """Return what another rule base does; `alike` names what it makes of this golfer as its own does."""
        house = self._own.making_alike(base, alike) if alike else self.roads.house.with_base(base)
        return self._swing(to, self.roads.in_house(house))

    def _alike(self, id: str) -> Sequence[str]:
        """Say what a golfer as this one is comes to in the same way whatever the value of an assumption.

        His clubs do where neither rules on clubs nor the filling and flying of his read it; his whole road
        does where nothing reads it that comes after the golfer's own facts.
        """
        if id not in self._read_later:
            return OF_ROADS
        return OF_CLUBS if id not in self._read_of_clubs else ()

    @cached_property
    def _own(self) -> House:
        """A house that keeps this golfer's clubs, filled and flown, and nobody else's."""
        house = House(self.base, self.roads.house.shelf)
        self.roads.in_house(house)
        return house

    @cached_property
    def _read_of_clubs(self) -> frozenset[str]:
        """Assumptions that are read while this golfer's clubs are filled and flown, or by rules on clubs."""
        scopes = {id: decision.scope for id, decision in self.base.decisions.items()}
        by_rules = self._thresholds(id for id, scope in scopes.items() if scope != "pair")
        return by_rules | self._noted(lambda judge, subject, flier: rungs(judge, subject, flier))

    @cached_property
    def _read_later(self) -> frozenset[str]:
        """Assumptions that are read once the golfer's own facts are known, or by rules on any decision."""
        return self._thresholds(self.base.decisions) | self._noted(briefly)

    def _thresholds(self, decisions: Iterable[str]) -> frozenset[str]:
        """Return the assumptions with which rules on some decisions compare, and at which amounts start."""
        some = [self.base.decisions[id] for id in decisions]
        rules = [rule for rule in self.base.rules.values() if rule.decision in {one.id for one in some}]
        starts = [one.start_assumption for one in some if one.start_assumption is not None]
        return frozenset(starts).union(*(assumptions_of(rule) for rule in rules))

    def _noted(self, run: Callable[[Judge, Subject, Flier], object]) -> frozenset[str]:
        """Return the assumptions that a part of this golfer's road reads after his own facts."""
        watched, noted = _watched(self.base)
        subject = self.roads.subject
        with contextlib.suppress(Problem):
            judge = judged(House(watched, self.roads.house.shelf), subject)
            noted.read.clear()
            run(judge, subject, self.roads.sky(judge.golfer.density))
        return frozenset(noted.read)

    def _swing(self, to: Value | None, road: Road) -> Swing:
        """Return what a road under another value came to."""
        moved = changes(self.base, self.mine, road)
        picks = {id: road.decided[id] for id in moved if id in road.decided}
        margin = road.margin(self.mine.pick, self.rival) if self.mine.pick and self.rival else None
        return Swing(to, moved, picks, margin)


def ranked(leans: Sequence[Lean]) -> tuple[Lean, ...]:
    """Return what changes the pick first, then what changes another decision, then by what it leaves."""
    return tuple(
        sorted(leans, key=lambda one: (not one.changes_pick, not one.changes, one.narrowest, one.id))
    )


def _others(assumption: Assumption) -> tuple[Value, ...]:
    """Return the ends of an assumption's range, or the other words it could be."""
    ends: tuple[Value, ...] = assumption.range or assumption.values
    return tuple(end for end in ends if end != assumption.value)


class _Noted(Mapping[str, "Assumption"]):
    """The assumptions, noting which were read."""

    def __init__(self, inner: Mapping[str, Assumption]) -> None:
        self._inner = inner
        self.read: dict[str, None] = {}

    def __getitem__(self, id: str) -> Assumption:
        self.read[id] = None
        return self._inner[id]

    def __iter__(self) -> Iterator[str]:
        return iter(self._inner)

    def __len__(self) -> int:
        return len(self._inner)


def _watched(base: RuleBase) -> tuple[RuleBase, _Noted]:
    """Return a copy of a rule base that notes which assumptions are read, and the notes."""
    noted, watched = _Noted(base.assumptions), base.with_assumptions({})
    watched.assumptions = noted  # type: ignore[assignment]
    return watched, noted


def read_assumptions(outcome: Outcome) -> tuple[str, ...]:
    """Return the assumptions that a road reads before a decision, or that rules on decisions compare with.

    The road is run once more with the reading noted: the list is written down nowhere.
    """
    house = outcome.house
    base = house.base
    watched, noted = _watched(base)
    with contextlib.suppress(Problem):
        brief(house.with_base(watched), outcome.subject, Sky(outcome.golfer.density))
    found = dict(noted.read)
    for rule in base.rules.values():
        if rule.decision is not None:
            found |= dict.fromkeys(sorted(assumptions_of(rule)))
    return tuple(id for id in found if _others(base.assumptions[id]))
