"""The bay's main screen: the talk on the left, what follows from it on the right."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal

from interview.conversation import Answered, Event, NotKnown, PassedOver, WentBack, WentOn, WentTo, Withdrew
from interview.screens.bay import faces
from interview.screens.bay.annexe import Annexe
from interview.screens.bay.heard import Heard, heard
from interview.screens.bay.orders import BAY
from interview.screens.bay.road import Road
from interview.screens.bay.rooms import Rooms
from interview.screens.bay.side import PANES, SideColumn
from interview.screens.bay.talk import TalkColumn
from interview.screens.kit.faces import capital, sentence
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.views.bay.deeper import Studies
from interview.views.bay.firm import Firm, firm_words
from interview.views.bay.questions import talk_view

if TYPE_CHECKING:
    from interview.screens.bay.desk import Desk


class BayScreen(Rooms, Annexe, Road):
    """Leads the conversation, and shows at each answer what has moved."""

    CSS_PATH = "screen.tcss"
    AUTO_FOCUS = "#line"
    BINDINGS: ClassVar[list[BindingType]] = bindings(BAY)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.studies = Studies()
        self._typed_before = self._entered_before = ""
        self._firm = Firm()
        self.add_class("side-standing")

    def compose(self) -> ComposeResult:
        """Lay the panes out."""
        yield Pane(id="masthead", classes="-fitting", focusable=False)
        with Horizontal(id="middle"):
            yield TalkColumn(self._meaning, id="talk", blink=bool(getattr(self.app, "blink", True)))
            yield SideColumn(id="side")
        yield Pane(id="notice", classes="-fitting", focusable=False)
        yield KeyBar(BAY, id="keys")

    def on_mount(self) -> None:
        """Show everything."""
        self.show_talk()
        self.show_follows()
        self.look_ahead()
        self.talk_column.line.insert(self._typed_before, 0)
        if self._entered_before:
            self.take_line(self._entered_before)

    @property
    def side(self) -> SideColumn:
        """Return the right column."""
        return self.query_one("#side", SideColumn)

    def _meaning(self, line: str) -> Heard:
        """Return what a typed line means just now."""
        return heard(self.desk.conversation, self.desk.seen, line)

    def hand_on(self, typed: str, *, entered: bool) -> None:
        """Take over what was typed before this screen was there, and enter it if that was done."""
        self._typed_before = typed if not entered else ""
        self._entered_before = typed if entered else ""

    # What is shown

    def show_talk(self) -> None:
        """Show what was said and the question that is up, and why the last answer was not taken."""
        self.show_question()
        refusal = self.desk.seen.refusal
        wrong = refusal.sentence if refusal else held_in_memory(self.desk.trouble)
        self.tell(wrong or self.noted, alert=bool(wrong))

    def show_question(self) -> None:
        """Show what was said and the question that is up; what was told stays."""
        desk = self.desk
        firm = firm_words(self._firm, settled=desk.state.outcome.settled)
        talk = replace(talk_view(desk.conversation, desk.seen), firm=firm)
        name = desk.seen.session.note.split("\n")[0] or desk.draft.id
        self.query_one("#masthead", Pane).show(faces.masthead(talk, name, desk.whereabouts))
        self.talk_column.show(talk, busy=desk.busy)

    def tell(self, text: str, *, alert: bool = False) -> None:
        """Tell something in the line above the keys."""
        self.query_one("#notice", Pane).show(sentence(capital(text), "alert" if alert else "dim"))

    def show_firm(self, firm: Firm) -> None:
        """Show how firm the pick is."""
        self._firm = self._firm.better(firm)
        self.side.show_firm(self._firm)
        if self.desk.state.asking is None:
            self.show_question()

    def show_follows(self) -> None:
        """Show what follows from what was said, and tell what is above all else."""
        self._firm = Firm()
        self.side.show(self.desk.state)
        notices = [*self.desk.notices(), *faces.urgent(self.desk.state)]
        if notices:
            self.tell(" ".join(f"{capital(one.rstrip('.'))}." for one in notices), alert=True)

    # What happens

    @on(TalkColumn.Entered)
    def _entered(self, event: TalkColumn.Entered) -> None:
        """Take a line."""
        self.take_line(event.text)

    def take_line(self, text: str) -> None:
        """Do what a line means; what belongs to a question that is not up yet waits in the line."""
        meant = self._meaning(text)
        if meant.kind == "unclear":
            self.tell(meant.words, alert=True)
            self.talk_column.line.put_back(text)
            return
        if (room := self._room(meant)) is not None:
            self.call_later(room)
            return
        step = self._event(meant)
        if step is None:
            return
        if self.desk.waits(step):
            self.talk_column.line.put_back(text)
            return
        self.step(step)
        if self.desk.seen.refusal is not None:
            self.talk_column.line.put_back(text)

    def _room(self, meant: Heard) -> Callable[[], None] | None:
        """Return what a line opens, where it opens anything."""
        takes = {"what_if": self.open_what_if, "note": self.take_note, "club": self.take_club}
        if meant.kind in takes:
            return partial(takes[meant.kind], meant.text)
        rooms = {"why": self.action_ask_why, "help": self.action_help, "sheets": self.action_papers}
        rooms["rest"] = self.action_rest
        return rooms.get(meant.kind)

    def _event(self, meant: Heard) -> Event | None:
        """Return what a line stands for."""
        turn, up = self.desk.state.turn, self.desk.state.asking
        if meant.kind == "nothing":
            return WentOn(turn) if up is None and not self.desk.busy else None
        if meant.kind == "back":
            return WentBack(turn)
        if not meant.question:
            return None
        here = turn if meant.question == up else None
        if meant.kind in ("answer", "unread"):
            return Answered(meant.question, meant.text, here)
        if meant.kind == "go":
            return WentTo(meant.question)
        if meant.kind == "skip":
            return PassedOver(meant.question, here)
        return NotKnown(meant.question, here) if meant.kind == "unknown" else None

    @on(TalkColumn.WentBackTo)
    def _went_back_to(self, event: TalkColumn.WentBackTo) -> None:
        """Go back to a question that was answered, to revise it."""
        self.step(WentTo(event.question))
        self.action_home()

    @on(SideColumn.Opened)
    def _opened(self, event: SideColumn.Opened) -> None:
        """Give the reasons of what was chosen."""
        self.open_why(event.decision, event.rival)

    # Orders

    def action_home(self) -> None:
        """Go back to the line."""
        self.remove_class("aside")
        self.talk_column.home()

    def action_unknown(self) -> None:
        """Close the question on the screen: not known."""
        if self.desk.state.asking is not None:
            self.step(NotKnown(self.desk.state.asking, self.desk.state.turn))

    def action_skip(self) -> None:
        """Pass the question on the screen over."""
        if self.desk.state.asking is not None:
            self.step(PassedOver(self.desk.state.asking, self.desk.state.turn))

    def action_rest(self) -> None:
        """Close every question that is open, but those asked for safety: nothing more is known."""
        state, facts = self.desk.state, self.desk.conversation.base.facts
        rest = [id for id in state.open if (ask := facts[id].ask) and not ask.always]
        for question in sorted(rest, key=lambda id: id == state.asking):  # the one on the screen goes last
            self.step(NotKnown(question))

    def action_withdraw(self) -> None:
        """Take back the answer that the cursor is on, or that of the question on the screen."""
        said = self.query_one("#said", Pane)
        question = said.chosen if said.has_focus else self.desk.state.asking
        if question:
            self.step(Withdrew(question))

    def action_go_on(self) -> None:
        """Go through what was passed over or cannot matter."""
        self.step(WentOn(self.desk.state.turn))

    def look_aside(self, name: str) -> None:
        """Go to a pane of the right column; where there is room for one only, it is that one."""
        for other in PANES:
            self.set_class(other == name, f"side-{other}")
        self.add_class("aside")
        self.side.pane(name).focus()

    def action_side(self) -> None:
        """Go to the standing, and from there to the decisions."""
        self.look_aside("parts" if self.side.pane("standing").has_focus else "standing")

    def action_pictures(self) -> None:
        """Show the pictures, and from there the next one."""
        if self.side.pane("pictures").has_focus:
            self.side.action_sideways(1)
        else:
            self.look_aside("pictures")

    def action_ask_why(self) -> None:
        """Say why the question is asked."""
        talk = talk_view(self.desk.conversation, self.desk.state)
        self.tell(talk.ask.why if talk.ask else talk.ending)


def held_in_memory(trouble: str) -> str:
    """Say why what was said last is in memory only, and what can be done; nothing while it is kept."""
    if not trouble:
        return ""
    held = "Nothing is lost: it is in memory, and the next answer tries again; F10 has 'keep elsewhere'."
    return f"{trouble}. {held}"
