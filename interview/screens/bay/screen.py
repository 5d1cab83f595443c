"""The bay's main screen: the talk on the left, what follows from it on the right."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.reactive import reactive
from textual.screen import Screen
from textual.widgets import Input, Static
from textual.worker import get_current_worker

from interview.conversation import Answered, Event, NotKnown, PassedOver, WentBack, WentOn, WentTo
from interview.screens.bay import faces
from interview.screens.bay.heard import Heard, heard
from interview.screens.bay.orders import BAY
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.line import TypeLine
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.views.bay import parts_view, standing_view, talk_view
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.screens.bay.app import BayApp
    from interview.screens.bay.desk import Desk, Job, Step


class BayScreen(Screen[None]):
    """Leads the conversation, and shows at each answer what has moved."""

    CSS_PATH = "screen.tcss"
    AUTO_FOCUS = "#line"
    BINDINGS: ClassVar[list[BindingType]] = bindings(BAY)

    side: reactive[str] = reactive("standing", init=False)
    """Which pane stands beside the talk where there is room for one: standing, parts or pictures."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.add_class("side-standing")

    @property
    def bay(self) -> BayApp:
        """Return the app."""
        return self.app  # type: ignore[return-value]

    def compose(self) -> ComposeResult:
        """Lay the panes out."""
        yield Pane(id="masthead", classes="-fitting", focusable=False)
        with Horizontal(id="middle"):
            with Vertical(id="talk"):
                yield Pane(id="said", at_end=True)
                yield Pane(id="ask", classes="-fitting", focusable=False)
                with Horizontal(id="entry"):
                    yield Static(Content(""), id="prompt", markup=False)
                    yield TypeLine("an answer, or any question's name", id="line", blink=self.bay.blink)
                yield Pane(id="reads", classes="-fitting", focusable=False)
            with Vertical(id="side"):
                yield Pane(id="standing")
                yield Pane(id="parts")
                yield Pane(id="pictures")
        yield Pane(id="notice", classes="-fitting", focusable=False)
        yield KeyBar(BAY, id="keys")

    def on_mount(self) -> None:
        """Show everything."""
        self.query_one("#prompt", Static).update(Content(self.bay.glyphs.cursor))
        self.show_talk()
        self.show_follows()

    # What is shown

    def show_talk(self) -> None:
        """Show what was said and the question that is up."""
        desk = self.desk
        talk = talk_view(desk.conversation, desk.seen)
        name = desk.seen.session.note.split("\n")[0] or desk.draft.id
        kept = "kept" if desk.draft.file.exists() else "nothing kept yet"
        self.query_one("#masthead", Pane).show(faces.masthead(talk, name, kept))
        self.query_one("#said", Pane).show(faces.said(talk))
        if not desk.busy:
            self.query_one("#ask", Pane).show(faces.ask(talk))
        self.tell(talk.refusal, alert=True)

    def show_follows(self) -> None:
        """Show what follows from what was said."""
        state = self.desk.state
        self.query_one("#standing", Pane).show(faces.standing(standing_view(state.outcome)))
        view = parts_view(state.outcome, state.session.units)
        self.query_one("#parts", Pane).show(faces.parts(view, None))

    def tell(self, text: str, *, alert: bool = False) -> None:
        """Tell something in the line above the keys."""
        self.query_one("#notice", Pane).show(faces.sentence(text, "alert" if alert else "dim"))

    # What happens

    def step(self, step: Step) -> None:
        """Let the desk hear something, and work out what follows in the background."""
        job = self.desk.hear(step)
        self.show_talk()
        if job is not None:
            self.run_worker(lambda: self._work(job), thread=True, exclusive=True, group="road")

    def _work(self, job: Job) -> None:
        """Work a job out, away from the keys."""
        worker = get_current_worker()
        try:
            state = self.desk.run(job)
        except Problem as problem:
            self.app.call_from_thread(self._could_not, job, str(problem))
            return
        if state is not None and not worker.is_cancelled:
            self.app.call_from_thread(self._worked_out, job, state)

    def _worked_out(self, job: Job, state: State) -> None:
        """Show what was worked out, unless something newer has overtaken it."""
        if self.desk.accept(job, state):
            self.show_talk()
            self.show_follows()
            for notice in self.desk.notices():
                self.tell(notice)

    def _could_not(self, job: Job, sentence: str) -> None:
        """Take a step back that could not be done, and say why."""
        self.desk.drop(job)
        self.show_talk()
        self.tell(sentence, alert=True)

    @on(Input.Changed, "#line")
    def _typing(self, event: Input.Changed) -> None:
        """Show what the line would do."""
        meant = heard(self.desk.conversation, self.desk.seen, event.value)
        words = f"{self.bay.glyphs.arrow} {meant.words}" if meant.words else ""
        self.query_one("#reads", Pane).show(faces.sentence(words, "ghost"))

    @on(Input.Submitted, "#line")
    def _entered(self, event: Input.Submitted) -> None:
        """Take the line."""
        meant = heard(self.desk.conversation, self.desk.seen, event.value)
        step = self._event(meant)
        if meant.kind == "why":
            self.action_why()
        elif meant.kind == "help":
            self.action_help()
        elif step is not None and not (self.desk.busy and step.turn is not None):
            self.step(step)
        else:
            return
        if self.desk.seen.refusal is None:
            event.input.clear()
        else:
            event.input.select_all()

    def _event(self, meant: Heard) -> Event | None:
        """Return what a line stands for."""
        turn, up = self.desk.state.turn, self.desk.state.asking
        here = turn if meant.question == up else None
        if meant.kind in ("answer", "unread") and meant.question:
            return Answered(meant.question, meant.text, here)
        if meant.kind == "unknown" and meant.question:
            return NotKnown(meant.question, here)
        if meant.kind == "skip" and meant.question:
            return PassedOver(meant.question, here)
        if meant.kind == "go":
            return WentTo(meant.question)
        if meant.kind == "nothing" and up is None and not self.desk.busy:
            return WentOn(turn)
        return WentBack(turn) if meant.kind == "back" else None

    @on(Pane.Chosen, "#said")
    def _go_back_to(self, event: Pane.Chosen) -> None:
        """Go back to a question that was answered, to revise it."""
        self.step(WentTo(event.target))
        self.action_home()

    @on(TypeLine.Left, "#line")
    def _leave_line(self, event: TypeLine.Left) -> None:
        """Go up the talk."""
        if event.by < 0:
            self.query_one("#said", Pane).focus()

    @on(Pane.Left, "#said")
    def _leave_said(self, event: Pane.Left) -> None:
        """Come back down to the line."""
        if event.by > 0:
            self.action_home()

    # Orders

    def action_home(self) -> None:
        """Go back to the line."""
        self.remove_class("aside")
        self.query_one("#line", TypeLine).focus()

    def action_unknown(self) -> None:
        """Close the question on the screen: not known."""
        up = self.desk.state.asking
        if up is not None:
            self.step(NotKnown(up, self.desk.state.turn))

    def action_skip(self) -> None:
        """Pass the question on the screen over."""
        up = self.desk.state.asking
        if up is not None:
            self.step(PassedOver(up, self.desk.state.turn))

    def action_side(self, pane: str) -> None:
        """Show a pane beside the talk, or instead of it, and go to it."""
        self.side = pane
        self.add_class("aside")
        self.query_one(f"#{pane}", Pane).focus()

    def watch_side(self, old: str, new: str) -> None:
        """Change the pane that stands beside the talk."""
        self.remove_class(f"side-{old}")
        self.add_class(f"side-{new}")

    def action_why(self) -> None:
        """Say why the question is asked."""
        talk = talk_view(self.desk.conversation, self.desk.state)
        self.tell(talk.ask.why if talk.ask else talk.ending)

    def action_help(self) -> None:
        """Show every key."""
        self.tell(" ".join(f"{one.key_name} {one.label}," for one in BAY))
