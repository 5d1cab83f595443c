"""Every screen in every size: the line that is typed on stays in sight, and the keys while there is room."""

from __future__ import annotations

from typing import Any

import pytest
from textual.screen import Screen
from textual.widget import Widget

from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.line import TypeLine

SIZES = (
    (200, 60),
    (80, 24),
    (40, 12),
    (30, 8),
    (20, 6),
    (40, 5),
    (40, 3),
    (10, 24),
    (3, 9),
    (40, 1),
    (80, 24),
)
"""Cells of width and height, one after another on the same screen."""
LONG = "driver carry: that is not a distance, " * 6


def in_sight(screen: Screen[Any], widget: Widget) -> bool:
    """Whether the beginning of a widget is what the terminal shows at its place."""
    x, y, _, _ = widget.region
    width, height = screen.size
    return 0 <= x < width and 0 <= y < height and screen.get_widget_at(x, y)[0] is widget


async def through_all_sizes(bay: Any, line: str = "", sizes: Any = SIZES) -> None:
    """Look at the screen that is open in every size; its line is in sight where it can be at all."""
    for width, height in sizes:
        await bay.pilot.resize_terminal(width, height)
        await bay.pilot.pause()
        screen, size = bay.app.screen, f"{width}x{height}\n{bay.screen_text()}"
        assert len(bay.screen_text().split("\n")) == height, size
        if line and width > 4:
            assert in_sight(screen, screen.query_one(line, TypeLine)), size
        if height > 2 and screen.query(KeyBar):
            assert in_sight(screen, screen.query_one(KeyBar)), size


async def test_the_talk_in_every_size(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("right", "pain no", "handicap 18", "92 mph measured")
        await through_all_sizes(bay, "#line")
        bay.app.screen.tell(LONG, alert=True)
        await through_all_sizes(bay, "#line")


async def test_the_question_is_beside_its_line_from_four_rows_on(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("right", "pain no")
        for width, height in ((40, 12), (40, 8), (40, 5), (20, 6), (12, 20)):
            await bay.pilot.resize_terminal(width, height)
            await bay.pilot.pause()
            assert "Handicap" in bay.screen_text(), bay.screen_text()
        bay.app.screen.tell(LONG, alert=True)
        await bay.pilot.resize_terminal(40, 12)
        await bay.pilot.pause()
        assert "Handicap" in bay.screen_text(), "what is told takes half of the screen at most"


async def test_an_answer_can_be_typed_in_one_row(open_bay: Any) -> None:
    async with open_bay(width=9, height=1) as bay:
        await bay.say("right", "pain no")
        assert set(bay.desk.state.session.subject.answers) == {"hand", "pain"}


async def test_the_way_back_to_the_line_works_where_one_column_fits(open_bay: Any) -> None:
    async with open_bay(width=40, height=12) as bay:
        await bay.say("right", "pain no")
        for height in (12, 5, 1):
            await bay.pilot.resize_terminal(40, height)
            await bay.press("f5")
            assert not isinstance(bay.app.focused, TypeLine)
            await bay.press("escape")
            assert isinstance(bay.app.focused, TypeLine)
            assert in_sight(bay.app.screen, bay.app.focused)


@pytest.mark.parametrize(
    ("key", "line"),
    [("f4", ""), ("f8", ""), ("f9", "#find"), ("f11", ""), ("ctrl+t", "#line")],
)
async def test_what_opens_from_the_talk_in_every_size(key: str, line: str, open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("right", "pain no", "handicap 18", "92 mph measured")
        await bay.press(key)
        await through_all_sizes(bay, line)
        await bay.press("escape")
        assert in_sight(bay.app.screen, bay.app.screen.query_one("#line", TypeLine))


async def test_a_box_shows_the_line_that_is_typed_on(open_bay: Any) -> None:
    """In a low terminal the box scrolls to what has the focus."""
    async with open_bay() as bay:
        await bay.say("right", "pain no", "handicap 18", "92 mph measured")
        bay.app.screen.action_note()
        await bay.settle()
        await through_all_sizes(bay, "#line", ((200, 60), (40, 12), (40, 6), (40, 3), (40, 1)))
        await bay.press("escape")
        await bay.press("f6")
        for width, height in ((80, 24), (40, 12), (40, 6), (30, 5)):
            await bay.pilot.resize_terminal(width, height)
            await bay.press("enter")  # from the options to the reason
            assert in_sight(bay.app.screen, bay.app.screen.query_one("#reason")), bay.screen_text()
            await bay.press("up")
            await bay.pilot.pause()


async def test_a_large_terminal_shows_everything_at_once(open_bay: Any) -> None:
    async with open_bay(width=200, height=60) as bay:
        await bay.say("right", "pain no", "handicap 18", "92 mph measured")
        for heading in ("STANDING", "DECISIONS", "DISTANCES", "FLIGHTS", "LONGER FACE", "SHORTER BALANCE"):
            assert heading in bay.screen_text()
        await bay.press("f7", "f7")
        rows = bay.screen_text().split("\n")
        first = next(row for row in rows if "2 of 6" in row)
        assert first.index("FLIGHTS") < first.index("LONGER FACE"), "the one that is looked at hangs first"
        await bay.pilot.resize_terminal(150, 45)
        await bay.pilot.pause()
        assert bay.screen_text().count(" of 6") == 1
