"""Deciding something otherwise: the value, the reason, and the price before it is taken."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input
from textual.worker import get_current_worker

from interview.screens.bay import faces
from interview.screens.kit.faces import capital, sentence
from interview.screens.kit.line import TypeLine
from interview.screens.kit.pane import Pane
from interview.session import with_override
from interview.views.bay.price import price_of
from interview.views.bay.reasons import reasons_view
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.conversation import Conversation, State
    from interview.views.bay.reasons import ReasonsView


@dataclass(frozen=True, slots=True)
class Taken:
    """A decision taken by hand; an empty value gives it back to the rules."""

    decision: str
    value: str
    reason: str


class Priced(Message):
    """What a value costs was worked out."""

    def __init__(self, value: str, words: str, good: bool) -> None:
        super().__init__()
        self.value = value
        self.words = words
        self.good = good


class OverrideScreen(ModalScreen[Taken | None]):
    """Asks for a value and a reason, and says what it costs; left with what was taken, or with None."""

    CSS_PATH = Path(__file__).with_name("override.tcss")
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Back", show=False, id="override.leave"),
        Binding("f6", "give_back", "Let the rules decide", show=False, id="override.give_back"),
    ]

    def __init__(self, conversation: Conversation, state: State, decision: str, value: str = "") -> None:
        super().__init__()
        self._conversation = conversation
        self._state = state
        self._decision = decision
        self._value = value
        self._reasons: ReasonsView = reasons_view(state.outcome, decision, state.session.units)
        self._priced = ""
        """The value whose price is known, and that can be taken."""

    @property
    def _is_choice(self) -> bool:
        return bool(self._reasons.rivals)

    def compose(self) -> ComposeResult:
        """Lay the box out."""
        reasons, blink = self._reasons, bool(getattr(self.app, "blink", True))
        given = self._decision in self._state.session.subject.overrides
        with Vertical(id="box"):
            title = sentence(capital(f"{reasons.title}: {reasons.picked}"), "head")
            yield Pane(title, classes="-fitting", focusable=False)
            hint = "Choose what it shall be, then say why." if self._is_choice else "Type what it shall be."
            back = " F6 lets the rules decide again." if given else ""
            yield Pane(sentence(hint + back, "dim"), classes="-fitting", focusable=False)
            if self._is_choice:
                yield Pane(faces.options(reasons), id="options")
            else:
                yield TypeLine("such as 42 1/4 in", id="value", blink=blink)
            yield Pane(id="price", classes="-fitting", focusable=False)
            yield TypeLine("the reason, for the sheet (may be empty)", id="reason", blink=blink)

    def on_mount(self) -> None:
        """Begin where the value is."""
        if self._is_choice:
            pane = self.query_one("#options", Pane)
            if self._value:
                pane.chosen = self._value
            pane.focus()
        else:
            self.query_one("#value", TypeLine).focus()

    # The price

    def _ask_price(self, value: str) -> None:
        """Work out in the background what a value costs."""
        self._priced = ""
        if value:
            self.run_worker(lambda: self._price(value), thread=True, exclusive=True, group="price")

    def _price(self, value: str) -> None:
        """Run the road with the value taken, and say what changed; away from the keys."""
        worker = get_current_worker()
        facts = self._conversation.base.facts
        try:
            session = with_override(self._state.session, facts, self._decision, value)
            outcome = self._conversation.fit(session.subject)
            words, good = price_of(outcome, self._decision, self._state.session.units)
        except Problem as problem:
            words, good = str(problem), False
        if not worker.is_cancelled:
            self.post_message(Priced(value, words, good))

    @on(Priced)
    def _show_price(self, event: Priced) -> None:
        """Show the price."""
        self._priced = event.value if event.good else ""
        self.query_one("#price", Pane).show(sentence(event.words, "strong" if event.good else "alert"))

    # What happens

    @on(Pane.Moved, "#options")
    def _moved(self, event: Pane.Moved) -> None:
        event.stop()
        self._ask_price(event.target)

    @on(Input.Changed, "#value")
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self._ask_price(event.value.strip())

    @on(Pane.Chosen, "#options")
    def _chosen(self, event: Pane.Chosen) -> None:
        event.stop()
        self.query_one("#reason", TypeLine).focus()

    @on(Input.Submitted, "#value")
    def _valued(self, event: Input.Submitted) -> None:
        event.stop()
        if self._priced:
            self.query_one("#reason", TypeLine).focus()

    @on(Input.Submitted, "#reason")
    def _reasoned(self, event: Input.Submitted) -> None:
        """Take it, once its price is known."""
        event.stop()
        if self._priced:
            self.dismiss(Taken(self._decision, self._priced, event.value.strip()))

    @on(TypeLine.Left, "#reason")
    def _up(self, event: TypeLine.Left) -> None:
        event.stop()
        self.query_one("#options" if self._is_choice else "#value").focus()

    @on(Pane.Left, "#options")
    @on(TypeLine.Left, "#value")
    def _down(self, event: Pane.Left | TypeLine.Left) -> None:
        event.stop()
        if event.by > 0:
            self.query_one("#reason", TypeLine).focus()

    def action_give_back(self) -> None:
        """Let the rules decide again."""
        self.dismiss(Taken(self._decision, "", ""))

    def action_leave(self) -> None:
        """Leave everything as it is."""
        self.dismiss(None)
