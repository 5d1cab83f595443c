"""The interview as a plain state machine: state and event in, state out. It prints and saves nothing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from interview.conversation.events import (
    Answered,
    Event,
    FoundOpen,
    FoundSteady,
    NotKnown,
    PassedOver,
    WentBack,
    WentOn,
    WentTo,
    Withdrew,
)
from interview.conversation.state import Did, Exchange, Refusal, State
from interview.conversation.typed import means_unknown, typed
from interview.session import Session, closed, skipped, with_answer, without_answer
from interview.session.changes import question_fact
from interview.wording.words import Words, words
from rules.facts.answers import AnswerProblem
from rules.facts.asked import applicable

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Subject
    from rules.fitting import House, Outcome


_STEADY_FROM = 8
"""Answers before which nobody's pick is steady: not worth the wait of looking."""


def _unsteady(_: Outcome) -> bool:
    """Look no further than what is settled."""
    return False


def _steady(outcome: Outcome) -> bool:
    """Try plausible answers to what is open, down the one road."""
    from rules.inquiry.steady import steady

    if len(outcome.subject.answers) < _STEADY_FROM or not outcome.questions.worth_asking:
        return False
    return steady(outcome.house, outcome.subject, outcome, until_unsteady=True).steady


def _unsaid(_: Outcome) -> float | None:
    """Say nothing of how sure a pick is."""
    return None


def _sure(outcome: Outcome) -> float | None:
    """Draw all facts within their spreads, and count how often the pick stays; None without a pick."""
    from rules.inquiry.sure import surely

    pick = outcome.pairing.pick if outcome.pairing else None
    return None if pick is None else next(surely(outcome, pick.candidate.id)).share


@dataclass(frozen=True, slots=True)
class Conversation:
    """The rules of an interview under one rule base: which questions there are and what follows."""

    base: RuleBase
    fit: Callable[[Subject], Outcome]
    """Runs the one road; only `questions` and `needless` of what it returns are looked at here."""
    wording: Words
    is_steady: Callable[[Outcome], bool] = _unsteady
    """Whether no plausible answer to an open question changes the pick; takes a tenth of a second or more."""
    how_sure: Callable[[Outcome], float | None] = _unsaid
    """Share of draws over the spread of all facts in which the pick stays; takes about half a second."""

    @classmethod
    def of(cls, house: House) -> Conversation:
        """Return the interview of a house."""
        from rules.fitting import fit

        return cls(house.base, lambda subject: fit(house, subject), words(), _steady, _sure)

    def start(self, session: Session) -> State:
        """Begin, or take up an earlier session where it was left."""
        state = self._looked_at(State(session, self.fit(session.subject)))
        return self._shown(state, self._next(state))

    def step(self, state: State, event: Event) -> State:
        """Return what an event makes of a state. An event of an earlier turn changes nothing.

        An answer that cannot be read leaves everything as it was, with `refusal` saying why. Raises
        ValueFault for a question that the rule base does not have.
        """
        if event.turn is not None and event.turn != state.turn:
            return state
        state = replace(state, refusal=None)
        match event:
            case WentBack():
                return self._back(state)
            case WentOn():
                return self._on(state)
            case WentTo(question):
                question_fact(self.base.facts, question)
                return self._shown(state, question, sought=True)
            case PassedOver(question):
                return self._passed_over(state, question)
            case FoundSteady() | FoundOpen():
                steady = isinstance(event, FoundSteady)
                return self._steadied(state) if steady else self._unsteadied(state)
            case Answered(question, said):
                return self._answered(state, question, said)
            case NotKnown(question):
                session = closed(state.session, self.base.facts, question)
                return self._changed(state, session, Exchange(question, "unknown"))
            case Withdrew(question):
                question_fact(self.base.facts, question)
                session = without_answer(state.session, question)
                return self._changed(state, session, Exchange(question, "withdrawn"))

    def dormant(self, state: State) -> frozenset[str]:
        """Return the answered questions that do not apply just now; their answers are kept and do not act."""
        answers = state.session.subject.answers
        return frozenset(answers) - applicable(self.base, answers)

    def with_session(self, state: State, session: Session) -> State:
        """Take up a session changed elsewhere (shots logged, a decision overruled, a copy renamed)."""
        if session.subject == state.session.subject:
            return replace(state, session=session, refusal=None)
        outcome = self.fit(session.subject)
        return self._looked_at(replace(state, session=session, outcome=outcome, steady=False, refusal=None))

    def _looked_at(self, state: State) -> State:
        """Note whether an answer to a question of safety stops the fitting."""
        always = {id for id, fact in self.base.facts.items() if fact.ask and fact.ask.always}
        stops = any(
            notice.topic == "body" and notice.kind == "caution" and notice.rule.reads & always
            for notice in state.outcome.notices
        )
        return replace(state, halted=stops and not state.going_on, going_on=state.going_on and stops)

    def _steadied(self, state: State) -> State:
        """Stop asking what cannot plausibly matter; a question that the person went to stays."""
        state = replace(state, steady=True)
        if state.asking is None or state.sought or state.asking in (*state.open, *state.offered):
            return state
        return self._shown(state, self._next(state))

    def _unsteadied(self, state: State) -> State:
        """Ask on, where the asking had stopped."""
        stopped = state.steady and state.asking is None
        state = replace(state, steady=False)
        return self._shown(state, self._next(state)) if stopped else state

    def _answered(self, state: State, question: str, said: object) -> State:
        """Take an answer, or say why not."""
        fact = question_fact(self.base.facts, question)
        if isinstance(said, str) and means_unknown(said):
            return self.step(state, NotKnown(question))
        try:
            if isinstance(said, str):
                asked = self.wording.asked(fact, state.session.voice, state.hand)
                said = typed(fact, asked, said)
            session = with_answer(state.session, self.base.facts, question, said)
        except AnswerProblem as problem:
            return replace(state, refusal=Refusal(question, str(problem)))
        did: Did = "revised" if question in state.session.subject.answers else "answered"
        return self._changed(state, session, Exchange(question, did, session.written["answers"][question]))

    def _passed_over(self, state: State, question: str) -> State:
        """Leave a question open, or leave the answer it has alone."""
        question_fact(self.base.facts, question)
        offered = tuple(id for id in state.offered if id != question)
        state = replace(state, offered=offered)
        if question in state.session.subject.answers:
            return self._shown(state, self._next(state))
        session = skipped(state.session, question)
        return self._changed(state, session, Exchange(question, "skipped"))

    def _changed(self, state: State, session: Session, exchange: Exchange) -> State:
        """Run the road again if an answer changed, and show the next question."""
        moved = self.with_session(state, session)
        moved = replace(moved, exchanges=(*state.exchanges, exchange))
        answers_other = exchange.question != state.asking and state.asking is not None
        if answers_other and not moved.halted and self._still_open(moved, state.asking):
            return replace(moved, turn=state.turn)  # the question on the screen stays there
        return self._shown(moved, self._next(moved))

    def _still_open(self, state: State, question: str | None) -> bool:
        return question not in state.session.subject.answers and question in (
            *state.open,
            *state.offered,
        )

    def _next(self, state: State) -> str | None:
        """Return the next question: what matters most first, then what was passed over and gone back to."""
        if state.halted:
            return None
        passed = state.session.record.skipped
        for question in state.open:
            if question not in passed:
                return question
        return next((id for id in state.offered if self._still_open(state, id)), None)

    def _shown(self, state: State, question: str | None, *, sought: bool = False) -> State:
        """Put a question on the screen and remember the one that was there."""
        left = state.asking
        trail = state.trail if left is None or left == question else (*state.trail, left)
        return replace(state, asking=question, trail=trail, turn=state.turn + 1, sought=sought)

    def _back(self, state: State) -> State:
        """Show the question that was shown before; nothing is lost by looking."""
        if not state.trail:
            return state
        asking, trail = state.trail[-1], state.trail[:-1]
        return replace(state, asking=asking, trail=trail, turn=state.turn + 1, sought=True)

    def _on(self, state: State) -> State:
        """Go on: past a stop, else with what was passed over, else with what cannot matter any more."""
        if state.asking is not None:
            return state
        if state.halted:
            state = replace(state, halted=False, going_on=True)
        else:
            passed = tuple(id for id in state.session.record.skipped if id in state.open)
            state = replace(state, offered=passed or state.needless)
        return self._shown(state, self._next(state))
