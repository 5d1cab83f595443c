"""Nothing is only for the mouse: whatever can be done has a key or stands in the list of orders."""

from __future__ import annotations

from typing import Any

import pytest

from interview.screens.bay.orders import BAY
from interview.screens.kit.lists import FindScreen
from interview.screens.kit.pane import Pane

KEYLESS = [order.id for order in BAY if not order.key]


async def test_what_has_no_key_of_its_own_is_chosen_from_the_list(open_bay: Any) -> None:
    async with open_bay() as bay:
        assert KEYLESS
        await bay.press("f10")
        listed = {row.target for row in bay.app.screen.query_one("#list", Pane)._rows}
        assert set(KEYLESS) <= listed


@pytest.mark.parametrize("label", ["yards or metres", "sun or dusk"])
async def test_an_order_is_done_by_typing_part_of_its_name(label: str, open_bay: Any) -> None:
    async with open_bay() as bay:
        units, theme = bay.desk.state.session.units, bay.app.theme
        await bay.press("f10")
        assert isinstance(bay.app.screen, FindScreen)
        await bay.type(label.split()[0])
        await bay.press("enter")
        assert (bay.desk.state.session.units, bay.app.theme) != (units, theme)


async def test_the_arrows_lead_through_everything_that_can_be_chosen(open_bay: Any) -> None:
    """From the line up the talk and back, to the standing, the decisions and the pictures, and back."""
    async with open_bay(width=120, height=40) as bay:
        await bay.say("right", "pain no", "handicap 18")
        visited = []
        for key in ("up", "down", "f5", "f5", "f7", "escape"):
            await bay.press(key)
            visited.append(bay.app.focused.id)
        assert visited == ["said", "line", "standing", "parts", "pictures", "line"]
        await bay.press("f5", "end", "enter")
        assert type(bay.app.screen).__name__ == "WhyScreen", "a row is opened by enter"
