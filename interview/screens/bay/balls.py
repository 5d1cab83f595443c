"""The trial in the bay: one key a ball, arrows for its mark on the face, each kept and worked out at once."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen

from interview.screens.bay.orders import BALLS
from interview.screens.kit.faces import heading, sentence
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.session import with_shots, without_shot
from interview.views.bay.balls import balls_view
from interview.views.pictures.balls import balls_rows
from rules.evidence.ball_text import read_ball
from rules.evidence.protocol import KEYS, Ball, ProtocolProblem
from rules.problems import Problem
from rules.units import parse

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.screens.bay.desk import Change
    from interview.session import Session
    from interview.views.pictures import Glyphs, Picture
    from interview.wording.words import Words
    from rules.engine.language import Fact
    from rules.evidence.protocol import Protocol

_STEP = parse("2 mm", "m")
"""How far an arrow moves the mark of the next ball."""
_GROUNDS = (("turf", False), ("mat", True), ("mat", False), ("tee", False))


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
        self._aim: tuple[float, float] | None = None

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(heading("Balls"), classes="-fitting", focusable=False)
        yield Pane(
            sentence(self._wording.say("balls.safety", "fitter"), "dim"), classes="-fitting", focusable=False
        )
        yield Pane(id="balls")
        yield Pane(id="told", classes="-fitting", focusable=False)
        yield KeyBar(BALLS, id="keys")

    def on_mount(self) -> None:
        """Show whose ball is next."""
        self._show()

    def follow(self, before: State, after: State) -> None:
        """Show what the last ball changed, once it is worked out."""
        self._before, self.state = before, after
        self._show()

    def _show(self) -> None:
        """Show the trial."""
        before = self._before.outcome if self._before else None
        view = balls_view(self._wording, self.protocol, self._chosen, self._aim, before, self.state)
        pane = self.query_one("#balls", Pane)

        def paint(width: int, glyphs: Glyphs) -> Picture:
            return balls_rows(view, width, glyphs, pane.size.height)

        pane.show(paint)

    def _tell(self, text: str) -> None:
        """Tell something in a sentence."""
        self.query_one("#told", Pane).show(sentence(text, "alert"))

    def on_key(self, event: events.Key) -> None:
        """Take a digit as a ball, and an arrow as a step of its mark."""
        steps = {"left": (-1, 0), "right": (1, 0), "up": (0, 1), "down": (0, -1)}
        if event.key in KEYS and event.key.isdigit():
            event.stop()
            toe, high = self._aim or (None, None)
            self.struck(Ball(KEYS[event.key], toe=toe, high=high))
        elif event.key in steps:
            event.stop()
            self._move(*steps[event.key])

    def _move(self, across: int, up: int) -> None:
        """Move the mark of the next ball; left and right as they are on the picture."""
        right_is_toe = self.state.hand == "left"
        toe, high = self._aim or (0.0, 0.0)
        self._aim = (toe + across * _STEP * (1 if right_is_toe else -1), high + up * _STEP)
        self._show()

    def struck(self, ball: Ball) -> None:
        """Note a ball, and hand it over."""
        try:
            self.protocol = self.protocol.struck(ball, self._chosen)
        except ProtocolProblem as problem:
            self._tell(f"{problem}.")
            return
        self._chosen = self._aim = None
        self._tell("")
        self._hand_over(partial(self._with_ball, self.protocol.last_row()))
        self._show()

    def _with_ball(self, shot: dict[str, object], session: Session) -> Session:
        return with_shots(session, self._facts, [shot])

    def action_words(self) -> None:
        """Note a ball in words: with carry, side and mark."""
        hint = "A key and what was seen: 4 171, 8 right, 6 toe, 4 low"
        self.app.push_screen(PromptScreen("A ball in words", hint, reading=_reading), self._said)

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

    def action_leave(self) -> None:
        """Go back to the bay."""
        self.dismiss(None)


def _reading(text: str) -> tuple[str, bool]:
    """Return how a ball in words is understood, and whether it can be taken."""
    if not text.strip():
        return "", False
    try:
        ball = read_ball(text)
    except Problem as problem:
        return str(problem), False
    return ball.outcome, True
