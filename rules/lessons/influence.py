"""How much one fact matters: it is changed in every case, and what moves is counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.facts.answers import Answer
from rules.facts.asked import shares
from rules.inquiry.roads import Road, Roads, differs
from rules.inquiry.values import options, shifted_shares

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.lessons.case import Case

Tell = Callable[[int, int], None]
"""Takes how many cases are done, and of how many."""


@dataclass(frozen=True, slots=True)
class CaseMoved:
    """What changing one fact did in one case."""

    case: str
    tried: int
    """Other values of the fact that were tried."""
    picks: int
    """How many of them changed the pair."""
    parts: tuple[str, ...]
    """Decisions on a club that some value changed where the pair stayed, such as longer.length."""
    points: int
    """The most by which a value moved the pick against the runner-up, thousandths of a point."""


@dataclass(frozen=True, slots=True)
class Influence:
    """What changing one fact did over many cases."""

    fact: str
    cases: tuple[CaseMoved, ...]

    @property
    def picks(self) -> int:
        """In how many cases some value changed the pair."""
        return sum(one.picks > 0 for one in self.cases)

    @property
    def parts(self) -> Mapping[str, int]:
        """In how many cases some value changed a part of either club, by part, most first."""
        found: Counter[str] = Counter()
        for one in self.cases:
            found.update({id.rpartition(".")[2] for id in one.parts})
        return dict(sorted(found.items(), key=lambda item: (-item[1], item[0])))

    @property
    def untouched(self) -> int:
        """In how many cases nothing was decided otherwise."""
        return sum(not one.picks and not one.parts for one in self.cases)

    @property
    def points(self) -> int:
        """The most by which it moved pick against runner-up in any case, thousandths of a point."""
        return max((one.points for one in self.cases), default=0)


def influence(cases: Sequence[Case], fact: str, tell: Tell | None = None) -> Influence:
    """Change a question's answer in every case: to every other word, to the ends of what is likely.

    The fact is one that is asked; raises KeyError for one that there is not.
    """
    found = []
    for done, case in enumerate(cases, 1):
        found.append(_moved(case, case.base.facts[fact]))
        if tell is not None:
            tell(done, len(cases))
    return Influence(fact, tuple(found))


def _moved(case: Case, fact: Fact) -> CaseMoved:
    """Change a fact in one case and count."""
    roads = Roads(case.house, case.subject, case.outcome.golfer.density)
    mine = roads.run()
    if mine.pick is None or case.outcome.pairing is None:
        return CaseMoved(case.id, 0, 0, (), 0)
    rival = case.outcome.pairing.runner_up
    mine = roads.telling(mine.pick, rival.candidate.id if rival else None).run()
    tried = picks = points = 0
    parts: dict[str, None] = {}
    for answers in _values(case, fact):
        road = roads.run(answers)
        tried += 1
        picks += road.pick != mine.pick
        if road.pick == mine.pick:
            parts.update(dict.fromkeys(_parts(case, mine, road)))
        if rival is not None:
            points = max(points, _shift(mine, road, rival.candidate.id))
    return CaseMoved(case.id, tried, picks, tuple(parts), points)


def _parts(case: Case, mine: Road, other: Road) -> Iterator[str]:
    """Yield the decisions on a club that differ."""
    for id, pick in mine.decided.items():
        if id != "pairing" and differs(case.base, id, pick, other.decided.get(id)):
            yield id


def _shift(mine: Road, other: Road, rival: str) -> int:
    """Return how far the margin of pick over rival moved; 0 where either is ruled out."""
    before, after = (road.margin(mine.pick or "", rival) for road in (mine, other))
    return 0 if before is None or after is None else abs(after - before)


def _values(case: Case, fact: Fact) -> Iterator[Mapping[str, Answer]]:
    """Yield other answers to a question."""
    now = case.outcome.golfer.known[fact.id].value if fact.kind != "shares" else None
    if fact.kind == "number":
        low, high = fact.plausible if isinstance(fact.plausible, tuple) else fact.range
        for value in (low, (low + high) / 2, high):
            if value != now:
                yield {fact.id: Answer(value)}
    elif fact.kind == "shares":
        told, _ = shares(case.base, case.subject.answers, fact.id)
        for part in fact.values:
            for trial in list(shifted_shares(fact, told, part, "up"))[-1:]:
                yield trial.answers
    else:
        for trial in options(fact, now):  # type: ignore[arg-type]
            yield trial.answers
