"""Other values that a fact could have: every option of words, and of numbers a grid in steps people tell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from rules.facts.answers import Answer
from rules.units import unit

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.facts.known import Known

Direction = Literal["up", "down", ""]
"""Which way a number moves; empty for words."""
_STEPS = {"yd": 5.0, "deg": 0.5, "in": 1.0, "g": 5.0, "degF": 10.0, "ft": 1000.0}
"""Steps in which people tell these; one of anything else."""
_MOST_STEPS = 62
"""More steps than this over the whole range make each step twice as long."""
_SHARE_STEP = 0.2
_FINER = 4
"""Parts into which a step is cut where it is finally looked for."""
_COUNTED = ("", "strokes")
"""Units of what is counted whole."""


@dataclass(frozen=True, slots=True)
class Trial:
    """Another value of one fact."""

    fact: str
    """Id of the fact; of a part of shares with the part, such as lies.tee."""
    value: float | str | frozenset[str]
    """SI, a word, or words; a part's share, 0 to 1."""
    answers: Mapping[str, Answer]
    """The answer that says so."""
    direction: Direction = ""


class Line:
    """The values of a number on both sides of where it stands, step by step to the ends of its range."""

    def __init__(self, fact: Fact, known: Known, answer: Answer | None) -> None:
        self.fact = fact
        self.shown = unit(fact.unit)
        self.low, self.high = fact.range
        low, high = (self.shown.from_si(end) for end in fact.range)
        step = _STEPS.get(fact.unit, 1.0)
        while (high - low) / step > _MOST_STEPS:
            step *= 2
        self.step = step
        self.how = answer.how if answer is not None and not answer.unknown else "said"
        middle = fact.plausible if isinstance(fact.plausible, tuple) else fact.range
        self.now = known.number if known.value is not None else sum(middle) / 2

    def outward(self, direction: Direction) -> Iterator[Trial]:
        """Yield the values from where it stands to the end of its range."""
        sign = 1 if direction == "up" else -1
        at = self.shown.from_si(self.now)
        multiple = round(at / self.step)
        while True:
            multiple += sign
            shown = multiple * self.step
            if abs(shown - at) < self.step / 2:
                continue
            value = self.shown.to_si(shown)
            if not self.low <= value <= self.high:
                return
            yield self.trial(shown, direction)

    def between(self, inner: Trial | None, outer: Trial) -> Sequence[Trial]:
        """Return finer values between one that changes nothing (None: where it stands) and one that does."""
        if self.fact.unit in _COUNTED:
            return ()
        fine, end = self.step / _FINER, self.shown.from_si(float(outer.value))  # type: ignore[arg-type]
        begin = self.shown.from_si(self.now if inner is None else float(inner.value))  # type: ignore[arg-type]
        low, high = sorted((begin, end))
        first = int(low / fine) - 1
        inside = [k * fine for k in range(first, first + 4 * _FINER) if low + 1e-9 < k * fine < high - 1e-9]
        ordered = inside if end > begin else list(reversed(inside))
        return [self.trial(shown, outer.direction) for shown in ordered]

    def trial(self, shown: float, direction: Direction) -> Trial:
        """Return the trial of a value in the fact's own unit."""
        value = min(self.high, max(self.low, self.shown.to_si(shown)))
        return Trial(self.fact.id, value, {self.fact.id: Answer(value, self.how)}, direction)


def options(fact: Fact, now: str | frozenset[str] | None) -> list[Trial]:
    """Return every other word of a choice; of a set of words every one that adds or drops a single word."""
    if fact.kind == "choice":
        return [Trial(fact.id, word, {fact.id: Answer(word)}) for word in fact.values if word != now]
    has = now if isinstance(now, frozenset) else frozenset()
    others = [has ^ {word} for word in fact.values]
    return [Trial(fact.id, words, {fact.id: Answer(words)}) for words in others if words]


def shifted_shares(fact: Fact, now: Mapping[str, float], part: str, direction: Direction) -> Iterator[Trial]:
    """Yield the shares with one part moved in steps of a fifth, the others keeping their proportions."""
    mine = now.get(part, 0.0)
    rest = 1 - mine
    others = {one: share for one, share in now.items() if one != part}
    count = len(fact.values) - 1
    step = 1
    while True:
        wanted = (
            round(mine / _SHARE_STEP) * _SHARE_STEP + (step if direction == "up" else -step) * _SHARE_STEP
        )
        step += 1
        if not -1e-9 <= wanted <= 1 + 1e-9:
            return
        if abs(wanted - mine) < _SHARE_STEP / 2:
            continue
        share = min(1.0, max(0.0, round(wanted, 6)))
        left = {one: (of / rest if rest > 1e-9 else 1 / count) * (1 - share) for one, of in others.items()}
        if rest <= 1e-9:
            left = {one: (1 - share) / count for one in fact.values if one != part}
        told = {one: left.get(one, 0.0) if one != part else share for one in fact.values}
        answer = Answer({one: of for one, of in told.items() if of > 0})
        yield Trial(f"{fact.id}.{part}", share, {fact.id: answer}, direction)
