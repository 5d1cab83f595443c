"""Enough: the smallest set of the answers given on which the pick stands, whatever the others had been.

An answer that is not kept is drawn over its plausible values. Where the pick then changes, the answers
that did it are narrowed down to a few, of which one at least must be kept (`rules.inquiry.hitting`). So a
set that is found is tried over all completions, and for every smaller set there is a plausible way of
answering the rest under which another pair wins.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.facts.asked import applicable
from rules.facts.golfer import golfer
from rules.facts.speed import DIRECT, DISTANCES
from rules.inquiry.hitting import Spent, smallest
from rules.inquiry.plausible import COUNT, plausible
from rules.inquiry.roads import Roads, never, with_answers

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.facts.answers import Answer
    from rules.fitting import Outcome
    from rules.inquiry.flips import FactFlips, Flip
    from rules.inquiry.roads import Stale

ROADS = 240
"""Roads run at most in the search, beside those that try what it ends with."""
_ROUTES = frozenset((*DIRECT, *DISTANCES))
_SPEED = "driver_speed"


@dataclass(frozen=True, slots=True)
class Enough:
    """The answers that are enough."""

    answers: tuple[str, ...]
    """Questions whose answers are enough, in the order in which they are declared."""
    given: int
    """Answers given that act."""
    at_least: int
    """No fewer answers than this are enough; as many as `answers` where these are proved the smallest."""
    anyhow: bool
    """Whether the pick stands whatever the open questions turn out to be; else they are taken as usual."""

    @property
    def proved(self) -> bool:
        """Whether no smaller set is enough."""
        return len(self.answers) == self.at_least


class Sparing:
    """Tries which answers can be spared."""

    def __init__(self, outcome: Outcome, roads: Roads, pick: str, *, anyhow: bool, most: int = ROADS) -> None:
        """`anyhow` draws the open questions as well; `most` is how many roads may be run."""
        self.outcome, self.roads, self.pick, self.anyhow = outcome, roads, pick, anyhow
        self.base = outcome.house.base
        self.most = most
        self._against = Counter[int]()
        on = applicable(self.base, roads.subject.answers)
        self.given = tuple(id for id in self.base.facts if id in on and id in roads.subject.answers)
        self._asleep = frozenset(roads.subject.answers) - frozenset(self.given)
        self._told = _ROUTES & frozenset(self.given)
        self._speed_out = False

    def counterexample(self, kept: frozenset[str], *, narrowed: bool = True) -> frozenset[str] | None:
        """Return a few answers, none of them kept, that change the pick when others are given instead.

        None where no completion does. Completions that spoke against the pick before are tried first.
        Raises Spent when no more roads may be run.
        """
        sets = self._completions(kept)
        out = tuple(id for id in self.given if id not in kept)
        self._speed_out = not self._told <= kept
        for place in sorted(range(len(sets)), key=lambda i: -self._against[i]):
            if self._changes(out, sets[place]):
                self._against[place] += 1
                return frozenset(self._narrowed(out, sets[place]) if narrowed else out)
        return None

    def _completions(self, kept: frozenset[str]) -> tuple[Mapping[str, Answer], ...]:
        """Return the plausible answers to what is not kept, and to what is open."""
        gone: dict[str, Answer | None] = {id: None for id in self.roads.subject.answers if id not in kept}
        subject = with_answers(self.roads.subject, gone)
        return plausible(
            self.base, subject, golfer(self.base, subject, self.outcome.house.shelf, cautions=False), COUNT
        )

    def _changes(self, out: Iterable[str], completion: Mapping[str, Answer]) -> bool:
        """Say whether answering these as a completion does, the others as said, changes the pick."""
        if self.roads.count >= self.most:
            raise Spent
        some = frozenset(out)
        speed = self._told <= some if self._speed_out else self.anyhow
        answers: dict[str, Answer | None] = dict.fromkeys((*some, *self._asleep))
        for id, answer in completion.items():
            opened = self.anyhow and id not in self.roads.subject.answers
            if speed if id == _SPEED else id in some or opened:
                answers[id] = answer
        return self.roads.run(answers).pick != self.pick

    def _narrowed(self, out: tuple[str, ...], completion: Mapping[str, Answer]) -> tuple[str, ...]:
        """Return as few of the answers as still change the pick together, larger parts left out first."""
        size = len(out) // 2
        while size:
            at = 0
            while at < len(out) and len(out) > 1:
                fewer = (*out[:at], *out[at + size :])
                if fewer and self._changes(fewer, completion):
                    out = fewer
                else:
                    at += size
            size //= 2
        return out


def enough(
    outcome: Outcome, pick: str, flips: Iterable[FactFlips] = (), stale: Stale = never,
    *, steady: bool = True, most: int = ROADS, roads: Roads | None = None,
) -> Enough:  # fmt: skip
    """Return the smallest set of answers on which the pick stands, as far as so many roads tell.

    `steady` says whether the pick is steady on all of them: then the open questions are drawn as well,
    else they are taken as they usually are. `flips` are what was found to change it: each saves roads.
    `roads` of the same golfer lend what they have kept. Raises Superseded once `stale` says so.
    """
    if roads is None:
        roads = Roads(outcome.house, outcome.subject, outcome.golfer.density, stale)
    roads = roads.counted_anew()
    sparing = Sparing(outcome, roads, pick, anyhow=steady, most=most)
    needed = [frozenset((id,)) for id in sparing.given if id in needed_alone(outcome, flips)]
    found = smallest(sparing.given, sparing.counterexample, needed)
    answers = found.found
    if answers is None:
        some = frozenset(id for one in found.hit for id in one)
        sparing.most = roads.count + COUNT
        spoiled = sparing.counterexample(some, narrowed=False) if some else some
        answers = tuple(id for id in sparing.given if spoiled is not None or id in some)
    return Enough(answers, len(sparing.given), found.at_least, steady)


def needed_alone(outcome: Outcome, flips: Iterable[FactFlips]) -> frozenset[str]:
    """Return the facts of which another plausible value changes the pair, all else being as it is."""
    facts = outcome.house.base.facts
    found = (flip for one in flips for flip in one.flips if flip.decision == "pairing")
    return frozenset(
        flip.fact for flip in found if flip.fact in facts and _is_plausible(facts[flip.fact], flip)
    )


def _is_plausible(fact: Fact, flip: Flip) -> bool:
    """Say whether a value is one that the fact is drawn over."""
    if fact.kind == "number":
        low, high = fact.plausible if isinstance(fact.plausible, tuple) else fact.range
        return low <= float(flip.to) <= high  # type: ignore[arg-type]
    words = fact.plausible if isinstance(fact.plausible, Mapping) else {}
    return fact.kind == "choice" and (not words or words.get(str(flip.to), 0) > 0)
