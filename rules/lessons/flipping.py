"""Find the flip yourself: a trainee guesses the value of a fact that changes the pair, then is told."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import TYPE_CHECKING

from rules.facts.answers import AnswerProblem, read_answer
from rules.inquiry.flips import FactFlips, Flip, Flipping
from rules.inquiry.roads import Roads
from rules.lessons.case import LessonProblem

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.facts.answers import Answer
    from rules.lessons.case import Case

NONE = "none"
"""What is typed for "no value of this fact changes the pair"."""
FLIPS_WORTH = 0.5
"""What a guess earns for changing the pair at all; the rest is for being the nearest that does."""
_FEW = 3
"""Facts without a flip that may be asked about for each one with."""


@dataclass(frozen=True, slots=True)
class FlipMark:
    """A guess marked."""

    fact: str
    guess: Answer | None
    """None where the guess was that nothing changes the pair."""
    flips: bool
    """Whether the pair is another at the guess."""
    pick: str | None
    """The pair at the guess; None where none is possible, or nothing was guessed."""
    nearest: Flip | None
    """The nearest value that changes the pair, on the guess's own side where there is one; None for none."""
    others: tuple[Flip, ...]
    """All values found that change the pair: one a side of a number, every such word."""
    earned: float
    """0 to 1."""


def flip_task(case: Case, seed: int) -> str:
    """Return a fact of a case to guess about, the same for the same seed: answered, and readable by rules.

    Raises LessonProblem where nothing was answered.
    """
    facts = [fact for fact in _flipping(case).facts() if fact.id in case.subject.answers]
    facts = [fact for fact in facts if fact.kind in ("number", "choice")]
    if not facts:
        raise LessonProblem(f"nothing was answered in {case.id} that could be changed; choose another case")
    dice = Random(f"flip {case.id} {seed}")
    dice.shuffle(facts)
    first = next((fact for fact in facts[: 2 * _FEW] if flips_of(case, fact).changes_pick), facts[0])
    return first.id


def flips_of(case: Case, fact: Fact) -> FactFlips:
    """Return what moving one number or word can do."""
    return next(iter(_flipping(case).of(fact)))


def _flipping(case: Case) -> Flipping:
    """Return what looks for flips of a case."""
    roads = Roads(case.house, case.subject, case.outcome.golfer.density)
    return Flipping(case.outcome, roads, roads.run(), None)


def mark_flip(case: Case, fact: str, text: str) -> FlipMark:
    """Mark a guess typed as an answer (with its unit), or `none`.

    Earns half for a value that does change the pair, and up to all the nearer it is to the nearest that
    does; all for `none` where there is none. Raises LessonProblem for what is no answer to the question.
    """
    declared = case.base.facts.get(fact)
    if declared is None or declared.kind not in ("number", "choice") or declared.ask is None:
        raise LessonProblem(f"'{fact[:60]}' cannot be guessed about; take a question with one number or word")
    found = tuple(flip for flip in flips_of(case, declared).flips if flip.decision == "pairing")
    if text.strip().lower() == NONE:
        return FlipMark(fact, None, False, None, found[0] if found else None, found, float(not found))
    try:
        guess = read_answer(declared, text.strip())
    except AnswerProblem as problem:
        raise LessonProblem(str(problem)) from None
    return _marked(case, declared, guess, found)


def _marked(case: Case, fact: Fact, guess: Answer, found: tuple[Flip, ...]) -> FlipMark:
    """Mark a guessed value by running its road."""
    roads = Roads(case.house, case.subject, case.outcome.golfer.density)
    mine, there = roads.run(), roads.run({fact.id: guess})
    flips = there.pick != mine.pick
    nearest = _on_its_side(case, fact, guess, found)
    earned = 0.0
    if flips:
        earned = FLIPS_WORTH + (1 - FLIPS_WORTH) * _nearness(case, fact, guess, nearest)
    return FlipMark(fact.id, guess, flips, there.pick, nearest, found, earned)


def _on_its_side(case: Case, fact: Fact, guess: Answer, found: tuple[Flip, ...]) -> Flip | None:
    """Return the flip that a guess is held against."""
    if fact.kind == "choice":
        return next((flip for flip in found if flip.to == guess.value), found[0] if found else None)
    now = case.outcome.golfer.known[fact.id].value
    if isinstance(now, float) and isinstance(guess.value, float):
        side = "up" if guess.value > now else "down"
        return next((flip for flip in found if flip.direction == side), found[0] if found else None)
    return found[0] if found else None


def _nearness(case: Case, fact: Fact, guess: Answer, nearest: Flip | None) -> float:
    """Return how near a guess that flips is to the nearest that does, 0 to 1: a word is as near as any."""
    now = case.outcome.golfer.known[fact.id].value
    if nearest is None or not (
        isinstance(now, float) and isinstance(guess.value, float) and isinstance(nearest.to, float)
    ):
        return 1.0
    needed, took = abs(nearest.to - now), abs(guess.value - now)
    return 1.0 if took <= needed else needed / took
