"""The trial in the bay: one key a ball, arrows for its mark on the face, each kept and worked out at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Container
from textual.message import Message
from textual.screen import Screen

from interview.screens.bay.clubs import read_trial, reading_trial, with_trial_club
from interview.screens.bay.orders import BALLS
from interview.screens.kit.faces import heading, sentence
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.lists import list_orders
from interview.screens.kit.orders import bindings
from interview.screens.kit.page import PageScreen
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.session import with_shots, without_shot
from interview.views.bay.balls import Aim, ball_words, balls_view
from interview.views.pictures.balls import balls_rows
from interview.views.pictures.face import face_rows, mark_at
from interview.views.trial.text import trial_text
from rules.evidence.ball_text import read_ball
from rules.evidence.protocol import KEYS, Ball, ProtocolProblem, resumed
from rules.evidence.trial import trial
from rules.problems import Problem
from rules.units import parse

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.screens.bay.desk import Change
    from interview.session import Session
    from interview.views.pictures import Glyphs, Picture
    from interview.views.pictures.face import FaceView
    from interview.wording.words import Words
    from rules.engine.language import Fact
    from rules.evidence.protocol import Protocol

_STEP = parse("2 mm", "m")
"""How far an arrow moves the mark of the next ball."""
_STEP_ASIDE = parse("2 yd", "m")
_SIDES = {",": -1, ".": 1}
"""Keys that put the next ball farther left or right of the line."""
_GROUNDS = (("turf", False), ("mat", True), ("mat", False), ("tee", False))


class Marked(Message):
    """A place on the face was clicked: toward the toe and up from its middle, m."""

    def __init__(self, toe: float, high: float) -> None:
        super().__init__()
        self.toe = toe
        self.high = high


class Face(Pane, can_focus=False):
    """The face of the club that is hit next; a click on it is a mark."""

    def draw(self, view: FaceView | None) -> None:
        """Show a face, or nothing where there is none."""
        self._view = view

        def paint(width: int, glyphs: Glyphs) -> Picture:
            return () if view is None else face_rows(view, width, glyphs, self._high)

        self.show(paint)

    @property
    def _high(self) -> int:
        return max(6, self.size.height)

    def on_click(self, event: events.Click) -> None:
        """Say where the face was clicked."""
        view, line = self._view, event.y + self.scroll_offset.y
        mark = view and mark_at(view, self.content_size.width, self._high, event.x, line)
        if view is not None and mark:
            event.stop()
            self.post_message(Marked(mark.toe, mark.up - view.height / 2))


class BallsScreen(Screen[None]):
    """Notes balls one key each. What it notes it hands over as changes of the session."""

    CSS_PATH = "balls.tcss"
    AUTO_FOCUS = "#balls"
    BINDINGS: ClassVar[list[BindingType]] = bindings(BALLS)

    def __init__(
        self, state: State, protocol: Protocol, wording: Words, facts: dict[str, Fact],
        hand_over: Callable[[Change], None],
    ) -> None:  # fmt: skip
        super().__init__()
        self.state = state
        self.protocol = protocol
        self._wording = wording
        self._facts = facts
        self._hand_over = hand_over
        self._before: State | None = None
        self._chosen: str | None = None
        self._aim = Aim()

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(heading("Balls"), id="heading", classes="-fitting", focusable=False)
        safety = sentence(self._wording.say("balls.safety", "fitter"), "dim")
        yield Pane(safety, id="safety", classes="-fitting", focusable=False)
        with Container(id="court"):
            yield Pane(id="balls", classes="-flush")
            yield Face(id="face", focusable=False)
        yield Pane(id="told", classes="-fitting", focusable=False)
        yield KeyBar(BALLS, id="keys")

    def on_mount(self) -> None:
        """Show whose ball is next."""
        self._show()

    def follow(self, before: State, after: State) -> None:
        """Show what the last ball changed, once it is worked out."""
        self._before, self.state = before, after
        self._show()

    def could_not(self, state: State, text: str) -> None:
        """Take back a ball that could not be kept, and say why."""
        self.state = state
        made = self.protocol
        kept = resumed(state.session.subject, made.clubs)
        self.protocol = replace(kept, each=made.each, surface=made.surface, indoors=made.indoors)
        self._show()
        self._tell(text)

    def _show(self) -> None:
        """Show the trial."""
        before = self._before.outcome if self._before else None
        chosen, aim = self._chosen, self._aim
        view = balls_view(self._wording, self.protocol, chosen, aim, before, self.state)
        self.query_one("#balls", Pane).show(lambda *at: balls_rows(view, *at))
        self.query_one("#face", Face).draw(view.face)

    def _tell(self, text: str) -> None:
        """Tell something in a sentence."""
        self.query_one("#told", Pane).show(sentence(text, "alert"))

    def on_key(self, event: events.Key) -> None:
        """Take a digit as a ball, and an arrow as a step of its mark."""
        steps = {"left": (-1, 0), "right": (1, 0), "up": (0, 1), "down": (0, -1)}
        if event.key in KEYS and event.key.isdigit():
            event.stop()
            toe, high = self._aim.mark or (None, None)
            self.struck(Ball(KEYS[event.key], self._aim.side, toe, high))
        elif event.key in steps:
            event.stop()
            self._move(*steps[event.key])
        elif event.character in _SIDES:
            event.stop()
            side = (self._aim.side or 0.0) + _SIDES[event.character or ""] * _STEP_ASIDE
            self._set(self._aim._replace(side=side))

    def _set(self, aim: Aim) -> None:
        """Put the mark and the side of the next ball somewhere else."""
        self._aim = aim
        self._show()

    def _move(self, across: int, up: int) -> None:
        """Move the mark of the next ball; left and right as they are on the picture."""
        right_is_toe = self.state.hand == "left"
        toe, high = self._aim.mark or (0.0, 0.0)
        mark = (toe + across * _STEP * (1 if right_is_toe else -1), high + up * _STEP)
        self._set(self._aim._replace(mark=mark))

    @on(Marked)
    def _marked(self, event: Marked) -> None:
        """Put the mark of the next ball where the face was clicked."""
        event.stop()
        self._set(self._aim._replace(mark=(event.toe, event.high)))

    def struck(self, ball: Ball) -> None:
        """Note a ball, and hand it over."""
        try:
            self.protocol = self.protocol.struck(ball, self._chosen)
        except ProtocolProblem as problem:
            self._tell(f"{problem}.")
            return
        self._chosen, self._aim = None, Aim()
        self._tell("")
        self._hand_over(partial(self._with_ball, self.protocol.last_row()))
        self._show()

    def _with_ball(self, shot: dict[str, object], session: Session) -> Session:
        return with_shots(session, self._facts, [shot])

    def action_words(self) -> None:
        """Note a ball in words: with carry, side and mark."""
        hint = "A key and what was seen: 4 171, 8 right, 6 toe, 4 low"
        self.app.push_screen(PromptScreen("A ball in words", hint, reading=self._reading), self._said)

    def _reading(self, text: str) -> tuple[str, bool]:
        """Return how a ball in words is understood, and whether it can be taken."""
        if not text.strip():
            return "", False
        try:
            return ball_words(read_ball(text), self.state.session.units), True
        except Problem as problem:
            return str(problem), False

    def _said(self, text: str | None) -> None:
        if text:
            self.struck(read_ball(text))

    def action_undo(self) -> None:
        """Take the last ball of this trial back."""
        shots = self.state.session.subject.shots
        places = [i for i, s in enumerate(shots) if s.outcome is not None and s.club in self.protocol.clubs]
        if not places or not self.protocol.balls:
            self._tell(self._wording.say("balls.nothing_to_undo", "fitter"))
            return
        self.protocol = self.protocol.undone()
        self._hand_over(lambda session: without_shot(session, self._facts, places[-1]))
        self._show()

    def action_ground(self) -> None:
        """Note balls from here on as hit off something else."""
        now = (self.protocol.surface, self.protocol.indoors)
        surface, indoors = (
            _GROUNDS[(_GROUNDS.index(now) + 1) % len(_GROUNDS)] if now in _GROUNDS else _GROUNDS[0]
        )
        self.protocol = self.protocol.on(surface, indoors=indoors)  # type: ignore[arg-type]
        self._show()

    def action_club(self) -> None:
        """Let another club be hit next."""
        turn, clubs = self.protocol.next, self.protocol.clubs
        now = self._chosen or (turn.club if turn else clubs[-1])
        self._chosen = clubs[(clubs.index(now) + 1) % len(clubs)]
        self._show()

    def action_more(self) -> None:
        """Ask for six more with each club."""
        self.protocol = self.protocol.extended()
        self._show()

    def action_join(self) -> None:
        """Ask for another club to join the trial."""
        hint = "A club of this session by its name, or a new one with kind and loft: demo, hybrid, 21 deg"
        self.app.push_screen(PromptScreen("Another club", hint, reading=reading_trial), self._joined)

    def _joined(self, text: str | None) -> None:
        """Take another club in."""
        subject = self.state.session.subject
        known = {one.name for one in subject.owned} | {one.name for one in subject.trial_clubs}
        for club in read_trial(text or ""):
            name = str(club["name"])
            try:
                self.protocol = self.protocol.with_club(name)
            except ProtocolProblem as problem:
                self._tell(f"{problem}.")
                return
            if name not in known:
                self._hand_over(partial(with_trial_club, self._facts, club))
        self._show()

    def action_evidence(self) -> None:
        """Show what the balls tell: clubs compared, belief beside evidence, the pick before and after."""
        state = self.state

        def said(width: int) -> str:
            found = trial(state.outcome.house, state.session.subject)
            return trial_text(found, "fitter", state.session.units, width=width)

        self.app.push_screen(PageScreen("What the balls tell", said, ("f8",)))

    def action_orders(self) -> None:
        """List everything that can be done here."""
        list_orders(self, BALLS)

    def action_leave(self) -> None:
        """Go back to the bay."""
        self.dismiss(None)
