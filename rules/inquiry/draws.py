"""Repeatable low-discrepancy draws over everything that is not known exactly, open questions included.

Points of a Halton sequence (J. H. Halton, Numer. Math. 2 (1960) 84), its digits multiplied within their
base so that the high bases spread early, in eight copies each turned by its own shift (R. Cranley and
T. N. L. Patterson, SIAM J. Numer. Anal. 13 (1976) 904): how far the copies disagree is the standard error.
Nothing is random: the same golfer gets the same draws, and more draws go on where fewer stopped.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from statistics import NormalDist
from typing import TYPE_CHECKING, NamedTuple

from rules.engine.completions import completions
from rules.facts.answers import Answer
from rules.facts.golfer import SPOKEN_ON
from rules.facts.speed import DIRECT, DISTANCES

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.facts.known import Known
    from rules.fitting import Outcome

COPIES = 8
"""Copies of the sequence; draw n belongs to copy n modulo this."""
_FOLLOW = (*DIRECT, *DISTANCES, "attack_angle", "height", "driver_length")
"""Questions whose answers act through a derived number that is drawn itself, or not at all on the pick."""
_NORMAL = NormalDist()


class Draw(NamedTuple):
    """One draw: what it takes each fact to be."""

    answers: Mapping[str, Answer]
    """Answers to open questions."""
    shift: Mapping[str, float]
    """How far numbers are off, SI."""


@dataclass(frozen=True, slots=True)
class Spread:
    """One fact that is drawn."""

    id: str
    fact: Fact
    known: Known
    open: bool
    """Drawn as an answer over its plausible values; else as a number about what is believed."""
    answers: tuple[Answer, ...] = ()
    """Plausible answers in words, each as likely as any other; empty for a number."""

    def answer(self, share: float) -> Answer:
        """Return the answer at a share of its plausible distribution."""
        if self.answers:
            return self.answers[int(share * len(self.answers))]
        low, high = self.fact.plausible if isinstance(self.fact.plausible, tuple) else self.fact.range
        return Answer(low + share * (high - low))

    def off(self, share: float) -> float:
        """Return how far the number is off at a share of its distribution, SI.

        Even over its range where only an assumption stands, normal where somebody said or measured it.
        """
        if self.known.how == "assumed":
            return self.known.spread * (2 * share - 1)
        return self.known.spread * _NORMAL.inv_cdf(share)


def spreads(outcome: Outcome) -> tuple[Spread, ...]:
    """Return every fact of the golfer that is not known exactly: swing and strike first, then as asked."""
    facts, known = outcome.house.base.facts, outcome.golfer.known
    asked, idle = set(outcome.questions.worth_asking), set(outcome.questions.needless)
    ids = [*SPOKEN_ON, "skill", *(id for id, fact in facts.items() if fact.ask is not None)]
    found = []
    for id in ids:
        fact = facts[id]
        if id in _FOLLOW or id in idle or _told_by_another(outcome, id, asked):
            continue
        if id in asked:
            found.append(_open(fact, known.get(id) or _share_known(outcome, id)))
        elif id in known and known[id].spread and known[id].value is not None:
            found.append(Spread(id, fact, known[id], open=False))
    iron = outcome.golfer.iron
    if iron is not None and iron.how == "derived" and "longest_iron_loft" not in asked:
        found = [one for one in found if one.id != "longest_iron_carry"]
        found.append(Spread("longest_iron_carry", facts["longest_iron_carry"], iron, open=False))
    return tuple(found)


def _open(fact: Fact, known: Known) -> Spread:
    """Return an open question as it is drawn."""
    if fact.kind == "number":
        return Spread(fact.id, fact, known, open=True)
    answers = tuple(Answer(one[fact.id]) for one in completions([fact]))
    return Spread(fact.id, fact, known, open=True, answers=answers)


def _told_by_another(outcome: Outcome, id: str, asked: set[str]) -> bool:
    """Say whether a fact is drawn through another one: the skill through handicap or score, and so on."""
    known = outcome.golfer.known
    if id == "skill":
        return "handicap" in asked or known["handicap"].value is not None
    if id == "typical_score":
        return "handicap" in asked or known["handicap"].value is not None or known[id].value is None
    if id == "longest_iron_carry":
        return id in asked and "longest_iron_loft" in asked
    return False


def _share_known(outcome: Outcome, id: str) -> Known:
    """Return how a question of shares stands: as its first part does."""
    return outcome.golfer.known[f"{id}.{outcome.house.base.facts[id].values[0]}"]


def draws(over: tuple[Spread, ...], first: int = 0) -> Iterator[Draw]:
    """Yield draws without end, from the one of this number on."""
    bases = _primes(len(over))
    turns = [[_turn(one.id, copy) for one in over] for copy in range(COPIES)]
    number = first
    while True:
        index, turn = number // COPIES + 1, turns[number % COPIES]
        shares = [(_halton(index, base) + by) % 1.0 for base, by in zip(bases, turn, strict=True)]
        yield _drawn(over, shares)
        number += 1


def _drawn(over: tuple[Spread, ...], shares: list[float]) -> Draw:
    """Return the draw at a point of the cube."""
    answers: dict[str, Answer] = {}
    shift: dict[str, float] = {}
    for one, share in zip(over, shares, strict=True):
        inside = min(1 - 1e-9, max(1e-9, share))
        if one.open:
            answers[one.id] = one.answer(inside)
        else:
            shift[one.id] = one.off(inside)
    return Draw(answers, shift)


def _halton(index: int, base: int) -> float:
    """Return a member of the van der Corput sequence of a prime base, its digits multiplied within it."""
    multiplier = max(1, round(base * 0.618))
    found, weight = 0.0, 1.0 / base
    while index:
        index, digit = divmod(index, base)
        found += digit * multiplier % base * weight
        weight /= base
    return found


def _turn(id: str, copy: int) -> float:
    """Return the shift of a fact in a copy: the same each time, without pattern from one to the next."""
    return int.from_bytes(sha256(f"{id} {copy}".encode()).digest()[:6], "big") / 2**48


def _primes(count: int) -> list[int]:
    """Return the first primes."""
    found: list[int] = []
    number = 2
    while len(found) < count:
        if all(number % prime for prime in found):
            found.append(number)
        number += 1
    return found
