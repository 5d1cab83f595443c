"""From two roads of one golfer to what the screen shows of a changed answer, and of the hunt for a flip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.conversation.answers import answer_text
from interview.conversation.typed import means_unknown, typed
from interview.views.bay.reasons import candidate_name
from interview.views.bay.sayings import value_words
from interview.views.trainer.answers import hand_of
from interview.views.trainer.change import ChangeView, FlipView, Shift
from interview.views.trainer.names import decision_title, fact_title, pair_name
from interview.views.trainer.said import said
from interview.wording.words import words
from rules.engine.text import amount_words
from rules.facts.answers import UNKNOWN, AnswerProblem, read_answer
from rules.inquiry.whatif import compared

if TYPE_CHECKING:
    from collections.abc import Iterator

    from interview.wording.words import Asked
    from rules.engine.language import Fact
    from rules.facts.answers import Answer
    from rules.fitting import Outcome
    from rules.inquiry.flips import Flip
    from rules.inquiry.whatif import WhatIf
    from rules.lessons.case import Case
    from rules.lessons.flipping import FlipMark
    from rules.units import System

AWAY = ("", "open", "-")
"""What takes an answer away."""


def asked_of(case: Case, question: str) -> Asked:
    """Return a question as the trainer reads it."""
    return words().asked(case.base.facts[question], "trainer", hand_of(case.subject))


def question_hint(case: Case, question: str) -> str:
    """Say how a question can be answered: its choices by number, or its hint."""
    one = asked_of(case, question)
    if one.choices:
        return "   ".join(f"{number} {choice.text}" for number, choice in enumerate(one.choices, 1))
    return one.hint


def read(case: Case, question: str, text: str) -> Answer | None:
    """Read an answer as it is typed; None takes it away. Raises AnswerProblem with one sentence."""
    fact = case.base.facts[question]
    if text.strip().lower() in AWAY:
        return None
    if means_unknown(text):
        return UNKNOWN
    return read_answer(fact, typed(fact, asked_of(case, question), text))


def read_words(case: Case, question: str, text: str, system: System) -> tuple[str, bool]:
    """Return how a typed answer is understood, and whether it can be taken."""
    try:
        answer = read(case, question, text)
    except AnswerProblem as problem:
        return f"{problem}.", False
    return said_words(case, question, answer, system), True


def said_words(case: Case, question: str, answer: Answer | None, system: System) -> str:
    """Return an answer in words."""
    if answer is None:
        return said("change.open")
    fact = case.base.facts[question]
    return answer_text(fact, asked_of(case, question), answer, words(), system)


def working_view(case: Case, question: str, answer: Answer | None, system: System) -> ChangeView:
    """Return the view of a change while it is being worked out."""
    before = case.subject.answers.get(question)
    return ChangeView(
        question=fact_title(case.base, question),
        was=said_words(case, question, before, system),
        now=said_words(case, question, answer, system),
        working=True,
    )


def change_view(before: Case, after: Case, question: str, system: System) -> ChangeView:
    """Return what differs between a case and the same case with one answer changed."""
    found = compared(before.outcome, after.outcome, (question,))
    picks = [one.outcome.picked.id if one.outcome.picked else "" for one in (before, after)]
    outcomes = (before.outcome, after.outcome)
    told = working_view(before, question, after.subject.answers.get(question), system)
    return ChangeView(
        question=told.question,
        was=told.was,
        now=told.now,
        pair=Shift(
            said("change.pair"),
            *(pair_name(one, id, system) for one, id in zip(outcomes, picks, strict=True)),
        ),
        decisions=tuple(_decisions(found, system)),
        facts=tuple(_facts(found, question, system)),
        points=tuple(_points(found, system)),
        gained=_notices(after.outcome, found.gained, system),
        lost=_notices(before.outcome, found.lost, system),
    )


def _decisions(found: WhatIf, system: System) -> Iterator[Shift]:
    """Yield the parts of the clubs that are decided otherwise."""
    base = found.before.house.base
    for one in found.decisions:
        if one.decision != "pairing":
            ends = (
                picked_words(found.before, one.decision, one.before, system),
                picked_words(found.after, one.decision, one.after, system),
            )
            if ends[0] != ends[1]:
                yield Shift(decision_title(base, one.decision), *ends)


def picked_words(outcome: Outcome, decision: str, pick: str | int | None, system: System) -> str:
    """Return what a decision of an outcome came to, in words."""
    if pick is None:
        return said("change.not_decided")
    if isinstance(pick, int):
        declared = outcome.house.base.decisions[decision.rpartition(".")[2]]
        return amount_words(declared, pick, system)
    return candidate_name(outcome, decision, pick)


def _facts(found: WhatIf, question: str, system: System) -> Iterator[Shift]:
    """Yield the facts that follow and are otherwise, each once."""
    facts = found.before.house.base.facts
    told: set[Shift] = set()
    for one in found.facts:
        if one.fact.partition(".")[0] == question:
            continue
        ends = [
            value_words(facts[one.fact], view.best if view else None, system)
            for view in (one.before, one.after)
        ]
        shift = Shift(fact_title(found.before.house.base, one.fact), *ends)
        if ends[0] != ends[1] and shift not in told:
            told.add(shift)
            yield shift


def _points(found: WhatIf, system: System) -> Iterator[Shift]:
    """Yield what the pairs picked in either outcome score in both."""
    for pair, (old, new) in found.points.items():
        yield Shift(pair_name(found.before, pair, system), f"{old / 1000:+.2f}", f"{new / 1000:+.2f}")


def _notices(outcome: Outcome, rules: tuple[str, ...], system: System) -> tuple[str, ...]:
    """Return the sentences of some cautions and pieces of advice, each once."""
    texts = (one.text(system) for one in outcome.notices if one.rule.id in rules)
    return tuple(dict.fromkeys(texts))


def flip_view(case: Case, fact: str, marks: tuple[FlipMark, ...], system: System, *, told: bool) -> FlipView:
    """Return the hunt for a flip after some guesses; `told` once it is over."""
    known = case.outcome.golfer.known[fact]
    declared = case.base.facts[fact]
    last = marks[-1] if told and marks else None
    return FlipView(
        fact=fact_title(case.base, fact),
        now=value_words(declared, known.value, system),
        guesses=tuple(_guess(case, declared, one, system) for one in marks),
        told=tuple(_told(case, declared, last, system)) if last else (),
        marks=round(100 * last.earned) if last else None,
    )


def _guess(case: Case, fact: Fact, one: FlipMark, system: System) -> tuple[str, str, bool]:
    """Return a guess, what it gave, and whether the pair flipped."""
    if one.guess is None:
        return said("flip.none"), "", False
    value = value_words(fact, one.guess.value, system)
    gave = pair_name(case.outcome, one.pick, system)
    return value, gave if one.flips else said("flip.stays"), one.flips


def _told(case: Case, fact: Fact, one: FlipMark, system: System) -> Iterator[str]:
    """Yield what is true: every value that changes the pair, or that there is none."""
    if not one.others:
        yield said("flip.nothing", fact=fact.title)
    for flip in one.others:
        yield _flip(case, fact, flip, system)


def _flip(case: Case, fact: Fact, flip: Flip, system: System) -> str:
    """Say which value changes the pair, and to what."""
    way = said(f"flip.way_{flip.direction}") if flip.direction else ""
    pair = pair_name(case.outcome, str(flip.pick), system)
    value = value_words(fact, flip.to, system)
    return said("flip.told", fact=fact_title(case.base, fact.id), value=value, way=way, pair=pair)
