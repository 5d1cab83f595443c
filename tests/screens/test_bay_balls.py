"""The trial in the bay: one key a ball, its mark by arrows or a click, and what each ball changes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual import events

from interview.screens.bay.balls import BallsScreen, Face
from interview.screens.bay.clubs import read_club
from interview.screens.bay.screen import BayScreen
from interview.screens.kit.line import TypeLine
from interview.screens.kit.page import PageScreen
from interview.screens.kit.pane import Pane
from interview.session import load
from interview.views.pictures.face import mark_at
from interview.views.pictures.ink import plain
from interview.views.trial.text import trial_text
from rules.evidence.trial import trial
from tests.screens.bay_views import FACE

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
SAMPLE = str(SAMPLES / "thin-off-tight-turf.toml")


async def test_balls_are_noted_one_key_each_with_their_marks(open_bay: Any, conversation: Any) -> None:
    async with open_bay() as bay:
        await bay.say("handicap 18")
        await bay.press("f12")
        assert "demo" in bay.app.screen.query_one("#line").value
        await bay.press("enter")
        assert isinstance(bay.app.screen, BallsScreen)
        await bay.press("right", "down", "down", "4")
        await bay.press("2")
        shots = bay.desk.state.session.subject.shots
        assert [shot.outcome for shot in shots] == ["up", "thin"]
        assert (shots[0].toe, shots[0].high) == (-0.002, -0.004), "right of the middle is the heel"
        assert shots[1].toe is None
        assert "●○" in bay.pane_text("#balls")
        assert "1 topped 2 thin 3 fat 4 up" in bay.pane_text("#balls")
        assert "thin 1" in bay.pane_text("#balls")
        await bay.press("f3")
        assert len(bay.desk.state.session.subject.shots) == 1
        await bay.press("f2")
        await bay.say("4 171, 8 right, 6 toe")
        await bay.press("escape")
        kept = load(bay.desk.draft.file, conversation.base.facts).subject.shots
        assert kept[1].side == pytest.approx(8 * 0.9144)
        await bay.press("f12")
        assert isinstance(bay.app.screen, BallsScreen), "a trial that was begun is taken up again"


async def test_no_ball_is_hit_where_it_hurts(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("pain yes")
        await bay.press("f12")
        assert isinstance(bay.app.screen, BayScreen)
        assert "swinging hurts" in bay.pane_text("#notice")


async def test_a_mark_is_clicked_and_a_side_is_stepped(open_bay: Any) -> None:
    async with open_bay(120, 40, session=SAMPLE) as bay:
        await bay.press("f12", "enter")
        face = bay.app.screen.query_one(Face)
        await bay.pilot.click(face, offset=(14, 8))
        await bay.press("full_stop", "full_stop", "comma", "comma", "comma")
        assert "2 yd left" in bay.pane_text("#balls")
        clicked = [line.index("╋") for line in bay.screen_text().splitlines() if "╋" in line]
        assert len(clicked) == 1
        await bay.press("2")
        shot = bay.desk.state.session.subject.shots[0]
        assert shot.toe is not None
        assert shot.toe > 0.005, "left on the picture is the toe of a right-hander's club"
        assert shot.side == pytest.approx(-2 * 0.9144)
        await bay.press("2")
        assert bay.desk.state.session.subject.shots[1].toe is None, "a mark is of one ball"


def test_every_cell_of_a_face_is_a_mark_and_nothing_beside_it() -> None:
    for width, high in ((70, 20), (40, 9), (12, 6)):
        marks = [mark_at(FACE, width, high, x, y) for y in range(high + 4) for x in range(width)]
        inside = [mark for mark in marks if mark is not None]
        assert inside
        assert len(inside) < len(marks)
        assert all(abs(mark.toe) <= 0.030 and 0 <= mark.up <= FACE.height + 0.004 for mark in inside)


async def test_what_the_balls_tell_is_held_against_belief(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f12", "enter", "4", "4", "2")
        await bay.press("f8")
        assert isinstance(bay.app.screen, PageScreen)
        text = bay.pane_text("#list")
        assert "got up 2 of 3" in text
        assert "BELIEVED, AND WHAT THE BALLS SAY" in text
        assert "the balls weigh" in text
        assert "THE PICK Stays:" in text
        await bay.press("f8")
        assert isinstance(bay.app.screen, BallsScreen)


async def test_a_ball_in_words_is_read_back_before_it_is_noted(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f12", "enter")
        assert "ball 1 of 6 (3 left in this block). Off turf. " in bay.pane_text("#balls")
        await bay.press("f2", "enter")
        assert "Nothing is typed yet; Esc goes back." in bay.screen_text()
        await bay.type("4 171, 8 right, 6 toe")
        assert "up; 171 yd; 6 mm toe; 8 yd right" in bay.screen_text()


@pytest.mark.parametrize("width", [40, 80, 120])
async def test_what_the_balls_tell_is_set_for_the_width_there_is(open_bay: Any, width: int) -> None:
    async with open_bay(width, 24, session=SAMPLE) as bay:
        await bay.press("f12", "enter", "4")
        await bay.press("f8")
        found = trial(bay.desk.state.outcome.house, bay.desk.state.session.subject)
        page = trial_text(found, "fitter", "imperial", width=width - 2)
        rows = plain(bay.app.screen.query_one("#list", Pane)._rows)
        assert rows.split("\n") == page.split("\n"), "no line is broken a second time"


async def test_another_club_joins_and_its_turn_comes(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f12", "enter", "f7")
        await bay.say("my old hybrid, 21 deg")
        assert bay.app.screen.protocol.clubs[-1] == "my old hybrid"
        assert "my old hybrid" in [club.name for club in bay.desk.state.session.subject.trial_clubs]
        await bay.press("f7")
        await bay.say("my old hybrid, 21 deg")
        assert "only once" in bay.pane_text("#told")
        await bay.press("f10")
        await bay.say("six more")
        assert bay.app.screen.protocol.each == 12


async def test_what_cannot_be_is_refused_in_a_sentence(open_bay: Any) -> None:
    """A ball beyond any golfer's, a club longer than a room: said, left out, and nothing is lost."""
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f12", "enter", "4", "f2")
        await bay.say("4 900")
        assert "outside" in bay.pane_text("#told")
        assert [shot.outcome for shot in bay.desk.state.session.subject.shots] == ["up"]
        assert len(bay.app.screen.protocol.balls) == 1
        await bay.press("escape")
        bay.app.screen.action_club()
        await bay.pilot.pause()
        assert read_club("his mast, 15 deg, 900 in")["length"] == "900 in"
        await bay.say("his mast, 15 deg, 900 in")
        assert isinstance(bay.app.screen, BayScreen)
        assert "Length: 900 in is outside" in bay.pane_text("#notice")
        await bay.say("age adult")
        assert bay.desk.state.session.subject.answers["age_band"].value == "adult"


@pytest.mark.parametrize("text", ["[/b] x [a='", "\x1b[2Jx\x07\x9b31m\u202e"])
async def test_nasty_names_of_clubs_and_balls_are_text(open_bay: Any, text: str) -> None:
    async with open_bay(120, 40, session=SAMPLE) as bay:
        await bay.press("f12")
        bay.app.screen.query_one("#line", TypeLine).clear()
        await _paste(bay, f"{text} his; {text} new, fairway, 18 deg")
        await bay.press("enter", "4", "f2")
        await _paste(bay, f"4 {text}")
        await bay.press("enter", "escape", "f7")
        await _paste(bay, text)
        await bay.press("enter", "4", "4", "f8")
        shown = bay.screen_text()
        assert not any(ord(letter) < 32 and letter != "\n" for letter in shown)
        assert not any(0x7F <= ord(letter) < 0xA0 or letter == "\u202e" for letter in shown)
        assert bay.app.is_running


async def _paste(bay: Any, text: str) -> None:
    bay.app.screen.focused.post_message(events.Paste(text))
    await bay.settle()
