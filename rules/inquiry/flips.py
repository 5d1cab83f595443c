"""What would change it: for each fact the nearest value that changes a decision, through the whole road.

Every option of words is tried. A number is moved outward step by step, in steps that people tell, to the
ends of its range, and the last step is then cut finer; so nothing nearer on those steps changes the pick.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from rules.facts.asked import applicable, shares
from rules.facts.golfer import golfer
from rules.facts.speed import DIRECT, DISTANCES
from rules.inquiry.roads import Picked, Road, Roads, changes, with_answers
from rules.inquiry.values import Direction, Line, Trial, options, shifted_shares
from rules.ladder.options import READS

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.facts.golfer import Golfer
    from rules.fitting import Outcome

_SIDES: tuple[Direction, Direction] = ("down", "up")
_ROUTES = (*DIRECT, *DISTANCES)
_SWING = 4.0
"""A plausible range is taken to be this many standard deviations wide."""


@dataclass(frozen=True, slots=True)
class Flip:
    """A value of one fact that changes a decision."""

    fact: str
    """Its id; of a part of shares with the part, such as lies.tee."""
    now: float | str | frozenset[str] | None
    """What it is, or is taken to be; None where nothing stands."""
    to: float | str | frozenset[str]
    """The nearest value that changes the decision, SI."""
    direction: Direction
    decision: str
    pick: Picked
    """What is decided then."""
    far: float
    """How far that is, in standard deviations of the fact (words count as one)."""
    trial: Trial


@dataclass(frozen=True, slots=True)
class FactFlips:
    """All that moving one fact alone can do."""

    fact: str
    flips: tuple[Flip, ...]
    """By decision and direction, nearest first; empty when nothing within its range changes anything."""
    tried: tuple[tuple[Trial, int | None], ...]
    """Trials with the points they leave between pick and runner-up, thousandths."""

    @property
    def changes_pick(self) -> bool:
        """Whether some value changes the pair."""
        return any(flip.decision == "pairing" for flip in self.flips)


class Flipping:
    """Looks for what changes the decisions of one golfer."""

    def __init__(self, outcome: Outcome, roads: Roads, mine: Road, rival: str | None) -> None:
        self.outcome, self.mine, self.rival = outcome, mine, rival
        self.roads = roads.telling(mine.pick, rival)
        self.base = outcome.house.base
        decides = [rule.reads for rule in self.base.rules.values() if rule.decision is not None]
        self._read = frozenset(READS).union(*decides)

    def facts(self) -> tuple[Fact, ...]:
        """Return the questions that apply, in the order in which they are declared."""
        on = applicable(self.base, self.roads.subject.answers)
        return tuple(fact for id, fact in self.base.facts.items() if id in on)

    def all(self) -> Iterator[FactFlips]:
        """Yield what each fact can do, fact by fact. Raises Superseded when nobody waits any more."""
        for fact in self.facts():
            yield from self.of(fact)

    def of(self, fact: Fact) -> Iterator[FactFlips]:
        """Yield what one fact can do; of shares part by part."""
        if fact.kind == "shares":
            now, _ = shares(self.base, self.roads.subject.answers, fact.id)
            for part in fact.values:
                sides = {side: shifted_shares(fact, now, part, side) for side in _SIDES}
                yield self._along(f"{fact.id}.{part}", now.get(part, 0.0), sides, None, 0.25)
        elif fact.kind == "number":
            yield self._number(fact)
        else:
            yield self._words(fact)

    def beyond(self, found: FactFlips) -> Iterator[Trial]:
        """Yield the values of a fact beyond those at which the pair first changes, to its range's ends."""
        id, _, part = found.fact.partition(".")
        fact = self.base.facts[id]
        for flip in (one for one in found.flips if one.decision == "pairing" and one.direction):
            if fact.kind == "shares":
                now, _ = shares(self.base, self.roads.subject.answers, id)
                trials = shifted_shares(fact, now, part, flip.direction)
            else:
                known, answer = self.outcome.golfer.known[id], self.roads.subject.answers.get(id)
                trials = Line(fact, known, answer).outward(flip.direction)
            sign = 1 if flip.direction == "up" else -1
            yield from (one for one in trials if sign * (float(one.value) - float(flip.to)) > 1e-9)  # type: ignore[arg-type]

    def _number(self, fact: Fact) -> FactFlips:
        """Move a number both ways."""
        known = self.outcome.golfer.known[fact.id]
        line = Line(fact, known, self.roads.subject.answers.get(fact.id))
        if not self._acts(fact, line):
            return FactFlips(fact.id, (), ())
        low, high = fact.plausible if isinstance(fact.plausible, tuple) else fact.range
        spread = known.spread or (high - low) / _SWING
        now = known.number if known.value is not None else None
        return self._along(fact.id, now, {side: line.outward(side) for side in _SIDES}, line, spread)

    def _acts(self, fact: Fact, line: Line) -> bool:
        """Say whether a number reaches any decision: a rule reads it, or facts at its ends differ in others.

        Of the ways to a head speed those that nobody told do not, once one was told.
        """
        if fact.id in _ROUTES and fact.id not in self.roads.subject.answers:
            told = any(one.value is not None for id in _ROUTES if (one := self.roads.subject.answers.get(id)))
            if told or fact.id != "driver_speed":
                return False
        if fact.id in self._read:
            return True
        low, high = (self._golfer(line.trial(line.shown.from_si(end), "")) for end in fact.range)
        return self._told(low, fact.id) != self._told(high, fact.id)

    def _golfer(self, trial: Trial) -> Golfer:
        """Return the golfer of a trial."""
        subject = with_answers(self.roads.subject, trial.answers)
        return golfer(self.base, subject, self.outcome.house.shelf, cautions=False)

    def _told(self, who: Golfer, id: str) -> tuple[object, ...]:
        """Return all of a golfer that decides anything, but one fact."""
        known = [(name, one.value) for name, one in who.known.items() if name in self._read and name != id]
        return (known, who.pattern, who.mishits, who.lies, who.density, who.driver, who.iron)

    def _words(self, fact: Fact) -> FactFlips:
        """Try every option."""
        now = cast("str | frozenset[str] | None", self.outcome.golfer.known[fact.id].value)
        flips: list[Flip] = []
        tried: list[tuple[Trial, int | None]] = []
        for trial in options(fact, now):
            road = self._run(trial, tried)
            flips += [self._flip(fact.id, now, trial, road, id, 1.0) for id in self._changed(road)]
        return FactFlips(fact.id, tuple(flips), tuple(tried))

    def _along(
        self, id: str, now: float | None, sides: Mapping[Direction, Iterator[Trial]], line: Line | None,
        spread: float,
    ) -> FactFlips:  # fmt: skip
        """Move a number outward on either side until the pair changes or its range ends."""
        flips: list[Flip] = []
        tried: list[tuple[Trial, int | None]] = []
        for trials in sides.values():
            found: set[str] = set()
            last: Trial | None = None
            for trial in trials:
                road = self._run(trial, tried)
                new = [decision for decision in self._changed(road) if decision not in found]
                for decision in new:
                    found.add(decision)
                    finer = self._finer(line, last, trial, road, decision)
                    flips.append(self._flip(id, now, *finer, decision, spread))
                if "pairing" in found:
                    break
                last = trial
        return FactFlips(id, tuple(sorted(flips, key=lambda flip: flip.far)), tuple(tried))

    def _finer(
        self, line: Line | None, inner: Trial | None, outer: Trial, road: Road, decision: str
    ) -> tuple[Trial, Road]:
        """Return the nearest finer value, between two steps, at which a decision has changed."""
        between = list(line.between(inner, outer)) if line is not None else []
        found = (outer, road)
        while between:
            middle = len(between) // 2
            trial = between[middle]
            tried = self.roads.run(trial.answers)
            if decision in changes(self.base, self.mine, tried):
                found, between = (trial, tried), between[:middle]
            else:
                between = between[middle + 1 :]
        return found

    def _run(self, trial: Trial, tried: list[tuple[Trial, int | None]]) -> Road:
        """Run the road of a trial and note what it leaves between pick and runner-up."""
        road = self.roads.run(trial.answers)
        apart = road.margin(self.mine.pick, self.rival) if self.mine.pick and self.rival else None
        tried.append((trial, apart))
        return road

    def _changed(self, road: Road) -> tuple[str, ...]:
        return changes(self.base, self.mine, road)

    def _flip(
        self, id: str, now: float | str | frozenset[str] | None, trial: Trial, road: Road, decision: str,
        spread: float,
    ) -> Flip:  # fmt: skip
        """Return a flip."""
        moved = (
            abs(trial.value - now) if isinstance(trial.value, float) and isinstance(now, float) else spread
        )
        pick = road.decided.get(decision, "")
        return Flip(id, now, trial.value, trial.direction, decision, pick, moved / spread, trial)
