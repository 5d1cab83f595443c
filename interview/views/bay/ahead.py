"""What the question that is up could change: the road run once for each answer it could get."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from interview.conversation import answer_text
from interview.views.bay.standing import shortly
from rules.facts.answers import Answer
from rules.inquiry.roads import Road, Roads, Superseded

if TYPE_CHECKING:
    from interview.conversation import Conversation, State
    from rules.engine.language import Fact
    from rules.facts.subject import Kind


@dataclass(frozen=True, slots=True)
class Turn:
    """What one answer would make of the pick."""

    answer: str
    pick: str
    """The pair in few letters; empty where none would be possible."""
    moved: bool
    """Whether that is another pair than now."""


@dataclass(frozen=True, slots=True)
class AheadView:
    """What each answer tried would lead to."""

    question: str
    turns: tuple[Turn, ...]
    stake: float
    """Points that hang on it in all."""
    whole: bool
    """Whether every possible answer was tried, and not only some of them."""


def ahead(conversation: Conversation, state: State, stop: Callable[[], bool]) -> AheadView | None:
    """Try the answers of the question that is up; None when there is none, or when told to stop."""
    question = state.asking
    if question is None:
        return None
    fact, outcome = conversation.base.facts[question], state.outcome
    roads = Roads(outcome.house, state.session.subject, outcome.golfer.density, stop)
    try:
        now = roads.run()
        turns = tuple(_turn(conversation, state, roads, fact, answer, now) for answer in _answers(fact))
    except Superseded:
        return None
    stake = outcome.questions.stakes.get(question, 0.0)
    return AheadView(question, turns, stake, whole=fact.kind == "choice")


def _answers(fact: Fact) -> Iterator[Answer]:
    """Yield answers worth trying: every word, each word alone, or the ends of what is likely."""
    if fact.kind == "choice":
        yield from (Answer(word) for word in fact.values)
    elif fact.kind == "set":
        yield from (Answer(frozenset((word,))) for word in fact.values)
    elif fact.kind == "shares":
        yield from (Answer({word: 1.0}) for word in fact.values)
    elif isinstance(fact.plausible, tuple):
        yield from (Answer(end) for end in fact.plausible)


def _turn(
    conversation: Conversation, state: State, roads: Roads, fact: Fact, answer: Answer, now: Road
) -> Turn:
    """Run the road with one answer."""
    road = roads.run({fact.id: answer})
    asked = conversation.wording.asked(fact, state.session.voice, state.hand)
    said = answer_text(fact, asked, answer, conversation.wording, state.session.units)
    return Turn(said, _pair(road), road.pick != now.pick)


def _pair(road: Road) -> str:
    """Return the pair that a road picks, in few letters."""
    return " + ".join(shortly(cast("Kind", kind), loft) for kind, loft in road.lofts)


def ahead_words(view: AheadView) -> str:
    """Return in a sentence what hangs on a question: which answers lead to which other pair."""
    by_pick: dict[str, list[str]] = {}
    for turn in view.turns:
        if turn.moved:
            by_pick.setdefault(turn.pick or "no pair", []).append(turn.answer)
    if by_pick:
        told = "; ".join(f"with {' or '.join(answers)}: {pick}" for pick, answers in by_pick.items())
    else:
        told = "the pair stays whatever the answer" if view.whole else "the pair would stay"
    if view.stake:
        return f"Up to {view.stake:.1f} points hang on this; {told}."
    return f"{told[:1].upper()}{told[1:]}."
