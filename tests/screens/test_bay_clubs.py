"""Clubs that are owned, told on a line: joined to the bag, told more of, and taken out again."""

from __future__ import annotations

from typing import Any

from interview.screens.bay.clubs import read_club, read_trial, reading


async def test_a_club_that_is_sold_leaves_the_ladder(open_bay: Any) -> None:
    async with open_bay() as bay:

        def owned() -> list[str]:
            return [club.name for club in bay.desk.state.session.subject.owned]

        await bay.say("my 3-wood 15 deg", "my 4-wood 17 deg", "my 3-wood sold")
        assert owned() == ["4-wood"]
        assert {rung.owned.name for rung in bay.desk.state.outcome.rungs if rung.owned} == {"4-wood"}
        await bay.say("my 7-wood gone")
        assert owned() == ["4-wood"], "what was never there is not missed"


async def test_a_club_that_is_taken_down_is_read_back(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("perhaps")
        assert "is neither right nor left" in bay.pane_text("#notice")
        await bay.say("my 3-wood 15 deg hates it")
        assert "Noted, 3-wood: fairway wood, loft 15 deg, not liked." in bay.pane_text("#notice")


def test_what_is_gone_is_read_back_in_words() -> None:
    assert reading("3-wood, gone") == ("3-wood: fairway wood, no longer in the bag", True)
    assert read_club("7-wood sold")["name"] == "7-wood"
    (club,) = read_trial("demo, 18 deg, gone")
    assert "gone" not in club
