"""What the question that is up could change: the road run once for each answer it could get."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.conversation import answer_text
from interview.session import with_answer
from interview.views.bay.standing import in_short
from rules.facts.answers import Answer, AnswerProblem, read_answer, write_answer
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.conversation import Conversation, State
    from rules.engine.language import Fact
    from rules.fitting import Outcome


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
    fact = conversation.base.facts[question]
    now = _pick(state.outcome)
    turns = []
    for answer in _answers(fact):
        if stop():
            return None
        turn = _turn(conversation, state, fact, answer, now)
        if turn is not None:
            turns.append(turn)
    stake = state.outcome.questions.stakes.get(question, 0.0)
    return AheadView(question, tuple(turns), stake, whole=fact.kind == "choice")


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


def _turn(conversation: Conversation, state: State, fact: Fact, answer: Answer, now: str) -> Turn | None:
    """Run the road with one answer."""
    raw = write_answer(fact, answer)
    try:
        read = read_answer(fact, raw)
        session = with_answer(state.session, conversation.base.facts, fact.id, raw)
        pick = _pick(conversation.fit(session.subject))
    except (AnswerProblem, Problem):
        return None
    asked = conversation.wording.asked(fact, state.session.voice, state.hand)
    said = answer_text(fact, asked, read, conversation.wording, state.session.units)
    return Turn(said, pick, pick != now)


def _pick(outcome: Outcome) -> str:
    """Return the pair that is picked, in few letters."""
    pair = outcome.picked
    return "" if pair is None else f"{in_short(pair.longer)} + {in_short(pair.shorter)}"


def ahead_words(view: AheadView) -> str:
    """Return in a sentence what hangs on a question: which answers lead to which other pair."""
    stake = f"up to {view.stake:.1f} points" if view.stake else "nothing"
    by_pick: dict[str, list[str]] = {}
    for turn in view.turns:
        if turn.moved:
            by_pick.setdefault(turn.pick or "no pair", []).append(turn.answer)
    if not by_pick:
        stays = "the pair stays whatever he says" if view.whole else "the pair would stay"
        return f"{stake} hang on this; {stays}" if view.stake else f"nothing hangs on this; {stays}"
    parts = [f"{' or '.join(answers)}: {pick}" for pick, answers in by_pick.items()]
    return f"{stake} hang on this. {'; '.join(parts)}"
