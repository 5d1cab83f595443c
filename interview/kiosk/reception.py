"""Receives one visitor after another: a visit and what was pressed in, the next visit out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, cast

from interview.conversation import Answered, Conversation, NotKnown, PassedOver, State, WentBack
from interview.kiosk.asking import LEFT_TO_THE_FITTER, way
from interview.kiosk.clock import Clock
from interview.kiosk.ticket import keep, last_day, purge
from interview.kiosk.visit import Place, Visit
from interview.session import begin, new_id, with_record
from interview.store import AlreadyThere, StoreProblem

if TYPE_CHECKING:
    from interview.conversation import Event
    from interview.kiosk.gate import Gate
    from interview.store import Store
    from rules.units import System

LONGEST_NUMBER = 6
"""Digits and signs that a number may have."""
_ENDING: tuple[Place, ...] = ("clubs", "tries", "mind", "consent")
"""The pages after the last question, in order."""


class Reception:
    """Everything that a kiosk can do, without a screen. It holds no visitor: visits are handed in and out.

    What was pressed is a word, such as `start`, `answer:right`, `digit:5`, `unknown` or `back`; a word that
    means nothing where the visit is changes nothing.
    """

    def __init__(
        self, conversation: Conversation, store: Store, gate: Gate, clock: Clock, *,
        units: System = "imperial", afresh: Callable[[], Conversation] | None = None,
    ) -> None:  # fmt: skip
        self.conversation = conversation
        """The interview of the visit that is going on."""
        self._afresh = afresh or (lambda: conversation)
        """Gives the interview of a visit that begins."""
        self._store = store
        self._gate = gate
        self._clock = clock
        self._units = units
        self._facts = conversation.base.facts

    def purge(self) -> None:
        """Delete the tickets whose time is over; a store that cannot be used is left for the staff."""
        try:
            purge(self._store, self._clock.wall())
        except StoreProblem:
            return

    def press(self, visit: Visit, pressed: str) -> Visit:
        """Return the visit after something was pressed."""
        word, _, value = pressed.partition(":")
        if visit.cover:
            return self._covered(visit, word)
        clear = replace(visit, note="", refusal="", seconds=0)
        match visit.place:
            case "welcome":
                return self._welcomed(clear, word)
            case "asking":
                return self._asked(clear, word, value)
            case "staff":
                return self._at_gate(clear, word, value)
            case "consent":
                return self._consented(clear, word)
            case _:
                return self._told(clear, word)

    def alone(self, visit: Visit) -> Visit:
        """Ask whether anybody is there; a page that shows nothing of anybody goes back to the welcome."""
        if visit.place in ("welcome", "staff"):
            return Visit()
        return replace(visit, cover="still", typed="", marked=frozenset())

    def foreseen(self, visit: Visit, state: State) -> Visit:
        """Note that the question on the screen is the last one, unless the visit has moved on meanwhile."""
        return replace(visit, enough=True) if visit.place == "asking" and visit.state is state else visit

    def _covered(self, visit: Visit, word: str) -> Visit:
        """Answer the question that lies over the page."""
        if word == "afresh":
            return Visit()
        if word == "here":
            return self._filled(replace(visit, cover=""))
        return visit

    def _welcomed(self, visit: Visit, word: str) -> Visit:
        """Begin, or ask the staff for the PIN."""
        if word == "staff":
            return Visit("staff")
        if word != "start":
            return visit
        self.conversation = self._afresh()
        now = self._clock.wall()
        session = begin(new_id(now), voice="customer", units=self._units, created=now)
        later = tuple(id for id in LEFT_TO_THE_FITTER if id in self._facts)
        return self._at(self.conversation.start(with_record(session, skipped=later)))

    def _asked(self, visit: Visit, word: str, value: str) -> Visit:
        """Do something about the question on the screen."""
        state = cast("State", visit.state)
        question = cast(str, state.asking)
        if word in ("why", "over"):
            return replace(visit, cover=word)  # type: ignore[arg-type]
        if word == "back":
            return self._stepped(visit, WentBack(state.turn)) if state.trail else visit
        if word == "unknown":
            return self._stepped(visit, NotKnown(question, state.turn))
        if word == "answer" and way(self._facts[question]) != "several":
            return self._stepped(visit, Answered(question, value, state.turn))
        if word == "answer":
            return replace(visit, marked=visit.marked ^ {value})
        if word == "enter":
            return self._entered(visit, question, state)
        return replace(visit, typed=typed(visit.typed, word, value))

    def _entered(self, visit: Visit, question: str, state: State) -> Visit:
        """Take what was typed or marked; with nothing new, an earlier answer stands."""
        fact = self._facts[question]
        if fact.kind == "number" and visit.typed:
            return self._stepped(visit, Answered(question, visit.typed, state.turn))
        if fact.kind in ("set", "shares") and visit.marked:
            chosen = [word for word in fact.values if word in visit.marked]
            said = chosen if fact.kind == "set" else dict.fromkeys(chosen, 1.0)
            return self._stepped(visit, Answered(question, said, state.turn))
        if question in state.session.subject.answers:
            return self._stepped(visit, PassedOver(question, state.turn))
        return replace(visit, note="choose_first")

    def _stepped(self, visit: Visit, event: Event) -> Visit:
        """Let the interview take a step."""
        state = self.conversation.step(cast("State", visit.state), event)
        if state.refusal is not None:
            return replace(visit, state=state, typed="", refusal=state.refusal.sentence)
        return self._at(state, enough=visit.enough and not isinstance(event, WentBack))

    def _at(self, state: State, *, enough: bool = False) -> Visit:
        """Return the visit that an interview has come to; `enough` was said with the last answer."""
        if state.halted:
            return Visit("stopped", state=state)
        if state.asking is None or enough:
            return Visit("clubs" if state.outcome.picked is not None else "nothing", state=state)
        return self._filled(Visit("asking", state=state))

    def _filled(self, visit: Visit) -> Visit:
        """Mark what was said before where several choices may be, so that going back loses nothing."""
        state = visit.state
        if visit.place != "asking" or state is None or state.asking is None:
            return visit
        answer = state.session.subject.answers.get(state.asking)
        said = None if answer is None or answer.unknown else answer.value
        several = way(self._facts[state.asking]) == "several" and said
        return replace(visit, marked=frozenset(cast("frozenset[str]", said)) if several else frozenset())

    def _told(self, visit: Visit, word: str) -> Visit:
        """Turn the pages of the ending; whatever ends a visit forgets it."""
        if word in ("finish", "afresh"):
            return Visit()
        if word == "over":
            return replace(visit, cover="over")
        if word == "back":
            return self._turned_back(visit)
        if word == "next" and visit.place in _ENDING[:-1]:
            place = _ENDING[_ENDING.index(visit.place) + 1]
            return self._asking_consent(visit) if place == "consent" else replace(visit, place=place)
        return self._asking_consent(visit) if word == "next" and visit.place == "nothing" else visit

    def _asking_consent(self, visit: Visit) -> Visit:
        """Ask whether a ticket may be kept, and until when it would be."""
        return replace(visit, place="consent", until=last_day(self._clock.wall()))

    def _turned_back(self, visit: Visit) -> Visit:
        """Go back a page, and from the first one to the last question."""
        if visit.place in _ENDING[1:]:
            nothing = visit.state is not None and visit.state.outcome.picked is None
            before = "nothing" if nothing else _ENDING[_ENDING.index(visit.place) - 1]
            return replace(visit, place=before)
        state = visit.state
        if visit.place == "ticket" or state is None or not state.trail:
            return visit
        return self._filled(Visit("asking", state=self.conversation.step(state, WentBack(state.turn))))

    def _consented(self, visit: Visit, word: str) -> Visit:
        """Keep a ticket if that is wished; otherwise nothing was ever kept."""
        if word == "no":
            return Visit(note="nothing_kept")
        if word not in ("yes", "guardian") or (word == "yes" and self.needs_guardian(visit)):
            return self._told(visit, word)
        state = cast("State", visit.state)
        try:
            ticket = keep(self._store, state.session, state.outcome, self._clock.wall())
        except AlreadyThere:  # two kiosks drew one id; another draw will do
            again = replace(state.session, id=new_id(self._clock.wall()))
            return replace(visit, state=replace(state, session=again), note="try_again")
        except StoreProblem:
            return replace(visit, note="not_kept")
        return Visit("ticket", ticket=ticket)

    def needs_guardian(self, visit: Visit) -> bool:
        """Return whether only a guardian may agree: the golfer said that he is a junior."""
        answer = visit.state and visit.state.session.subject.answers.get("age_band")
        return bool(answer) and answer.value == "junior"  # type: ignore[union-attr]

    def _at_gate(self, visit: Visit, word: str, value: str) -> Visit:
        """Take the digits of the PIN."""
        if word == "back":
            return Visit()
        if word != "enter":
            return replace(visit, typed=typed(visit.typed, word, value, longest=12, signs=False))
        verdict = self._gate.tried(visit.typed) if visit.typed else None
        if verdict is None:
            return visit
        if verdict.kind == "open":
            return Visit("left")
        note = "wait" if verdict.kind == "wait" else "wrong_wait" if verdict.seconds else "wrong"
        return Visit("staff", note=note, seconds=verdict.seconds)


def typed(so_far: str, word: str, value: str, *, longest: int = LONGEST_NUMBER, signs: bool = True) -> str:
    """Return what is typed after one more key of a keypad."""
    if word == "rub":
        return so_far[:-1]
    if len(so_far) >= longest or word != "digit":
        return so_far
    if value in "0123456789" and len(value) == 1:
        return so_far + value
    if signs and value == "." and "." not in so_far:
        return so_far + value
    return so_far + value if signs and value == "+" and not so_far else so_far
