"""What a visitor does at a kiosk under test: keys, touches, and the way to each place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual.pilot import Pilot

from interview.kiosk.visit import Visit
from interview.screens.kiosk.app import KioskApp
from interview.screens.kiosk.board import Board
from interview.views.kiosk import painted
from interview.views.pictures import FULL

PIN = "918273"
Make = Callable[..., KioskApp]


async def keys(pilot: Pilot[Any], *pressed: str) -> None:
    for one in pressed:
        await pilot.press(one)
    await pilot.pause()


def board(app: KioskApp) -> Board:
    return app.query_one(Board)


async def touch(pilot: Pilot[Any], app: KioskApp, press: str) -> None:
    """Touch the middle of a tile, scrolled to first where it is out of sight, as a finger would."""
    on = board(app)
    spot = on._painted.spot(press)
    assert spot is not None, (press, app.visit.place)
    if spot.y + spot.height > on.scroll_offset.y + on.size.height:
        on.scroll_to(0, spot.y, animate=False, force=True)
        await pilot.pause()
    at = (spot.x + spot.width // 2, spot.y + spot.height // 2 - on.scroll_offset.y)
    assert await pilot.click(Board, offset=at)
    await pilot.pause()


def shown(app: KioskApp) -> str:
    """What the app should show of its visit at this size, painted afresh."""
    rows = painted(app._page(), board(app).cursor, 80, 24, FULL).rows
    return "\n".join("".join(ink.text for ink in row.inks).rstrip() for row in rows)


def there(app: KioskApp, place: str) -> Visit:
    """Come to a place the way a visitor does."""
    steps = {
        "welcome": [],
        "staff": ["staff"],
        "asking": ["start"],
        "keypad": ["start", "answer:right", "answer:no"],
    }
    at = Visit()
    for press in steps.get(place, ["start", "answer:right", "answer:no"]):
        at = app.reception.press(at, press)
    while place in ("clubs", "consent") and at.place == "asking":
        at = app.reception.press(at, "unknown")
    while place == "consent" and at.place != "consent":
        at = app.reception.press(at, "next")
    return at


def board_page(app: KioskApp, place: str) -> Any:
    from interview.views.kiosk import page_of

    return page_of(app.reception.conversation, there(app, place))
