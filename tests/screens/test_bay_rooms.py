"""What comes after the talk: when it stops, what if on a copy, the sheets, a ticket taken over, clicks."""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from interview.commands.papers import papers
from interview.conversation import WentTo
from interview.screens.bay.desk import renewed
from interview.screens.bay.papers import PapersScreen
from interview.screens.bay.road import Studied
from interview.screens.bay.screen import BayScreen
from interview.screens.bay.whatif import WhatIfScreen
from interview.screens.bay.why import WhyScreen
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.line import TypeLine
from interview.screens.kit.lists import FindScreen, ListScreen
from interview.session import begin, load, with_record
from interview.views.bay.firm import Firm

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
SAMPLE = str(SAMPLES / "marks-overrule-handicap.toml")


async def _studied(bay: Any, **found: Any) -> None:
    bay.app.screen.post_message(Studied(bay.desk.state, Firm(**found)))
    await bay.settle()


# When the talk stops


async def test_a_steady_pick_ends_the_asking_and_says_how_sure_it_is(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        assert bay.desk.state.asking is not None
        assert "not settled" in bay.pane_text("#standing")
        await _studied(bay, steady=True)
        assert bay.desk.state.asking is None
        assert "No unanswered question matters any more. Every plausible answer" in bay.pane_text("#ask")
        assert "being worked out" in bay.pane_text("#ask")
        assert " 0 open" in bay.pane_text("#masthead")
        await _studied(bay, steady=True, sure=0.83)
        assert "Sure 83 %." in bay.pane_text("#ask")
        assert "steady · sure 83 %" in bay.pane_text("#standing")
        await bay.press("enter")
        assert bay.desk.state.asking in bay.desk.state.needless, "the others can still be asked"


async def test_a_steady_pick_takes_no_question_away_that_is_being_answered(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.type("4")
        await _studied(bay, steady=True)
        assert bay.desk.state.asking is not None
        await bay.press("backspace")
        bay.app.screen.step(WentTo("wind"))
        await _studied(bay, steady=True)
        assert bay.desk.state.asking == "wind", "nor one that the fitter went to"


async def test_a_further_answer_asks_nothing_until_it_is_found_to_matter(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await _studied(bay, steady=True)
        await bay.say("age adult")
        assert bay.desk.state.session.subject.answers["age_band"].value == "adult"
        assert bay.desk.state.asking is None
        await _studied(bay, steady=False)
        assert bay.desk.state.asking is not None


# What if


async def test_a_copy_is_held_beside_the_fitting_and_dropped(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        before = bay.desk.state
        await bay.say("what if airborne 0")
        assert isinstance(bay.app.screen, WhatIfScreen)
        text = bay.screen_text()
        assert "as it is" in text
        assert "on the copy" in text
        assert "→ 0" in bay.pane_text("#changes")
        assert "→" in bay.pane_text("#beside")
        await bay.say("tempo smooth", "contact open")
        assert len(bay.app.screen.changes) == 3
        await bay.press("f3")
        assert len(bay.app.screen.changes) == 2
        await bay.say("no such question 5")
        assert "wanted" in bay.pane_text("#reads")
        await bay.say("handicap 99")
        assert len(bay.app.screen.changes) == 2
        await bay.press("escape")
        assert isinstance(bay.app.screen, BayScreen)
        assert bay.desk.state.session == before.session
        assert not bay.desk.draft.file.is_relative_to(bay.app.store.folder), "nothing was kept"


async def test_a_copy_is_kept(open_bay: Any, conversation: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("ctrl+t")
        await bay.say("driver speed 108 mph measured", "height dk")
        copied = bay.pane_text("#beside")
        await bay.press("f2")
        answers = bay.desk.state.session.subject.answers
        assert answers["driver_speed"].how == "measured"
        assert answers["height"].unknown
        kept = load(bay.desk.draft.file, conversation.base.facts).subject.answers
        assert kept == answers
        named = re.findall(r"\S+ [\d.]+°", bay.pane_text("#parts") or "")
        assert all(name.split("°")[0] in copied for name in named)


async def test_a_question_of_a_copy_is_found_on_the_map(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("ctrl+t", "f4")
        assert isinstance(bay.app.screen, ListScreen)
        await bay.press("2")
        assert bay.app.screen.query_one("#line", TypeLine).value == "Handicap: "
        await bay.say("3")
        assert "Handicap" in bay.pane_text("#changes") or "handicap" in bay.pane_text("#changes")


# Sheets


async def test_both_sheets_are_looked_at_and_written(open_bay: Any, store: Any, tmp_path: Path) -> None:
    async with open_bay(session=SAMPLE, sheets=papers) as bay:
        await bay.say("sheets")
        assert isinstance(bay.app.screen, PapersScreen)
        golfer = bay.pane_text("#sheet")
        await bay.press("2")
        workshop = bay.pane_text("#sheet")
        assert golfer != workshop
        made = papers(bay.desk.state.outcome, bay.desk.state.session).text("workshop")
        assert made.split()[:9] == workshop.split()[:9]
        await bay.press("f2")
        files = sorted(file.name for file in (tmp_path / "sheets").iterdir())
        assert files == [f"{bay.desk.draft.id}-{reader}.html" for reader in ("golfer", "workshop")]
        assert "<svg" in (tmp_path / "sheets" / files[1]).read_text()
        modes = [(tmp_path / "sheets" / name).stat().st_mode & 0o777 for name in (".", *files)]
        assert modes == [0o700, 0o600, 0o600], "nobody else reads what a golfer may be named on"
        assert "Written:" in bay.pane_text("#told")
        (tmp_path / "taken").write_text("no folder")
        await bay.press("f4")
        bay.app.screen.query_one("#line", TypeLine).value = str(tmp_path / "taken")
        await bay.press("enter")
        await bay.press("f11")
        assert "could not be written" in bay.pane_text("#told")
        assert (tmp_path / "taken").read_text() == "no folder"
        await bay.press("escape")
        assert isinstance(bay.app.screen, BayScreen)


# A ticket


def test_a_ticket_that_is_worked_on_lasts_longer_and_its_consent_stands() -> None:
    today = date(2026, 6, 1)
    ticket = with_record(begin("ticket"), consent=True, expires=date(2026, 6, 3))
    assert renewed(ticket, today).record.expires == date(2026, 7, 1)
    assert renewed(ticket, today).record.consent
    late = with_record(ticket, expires=date(2027, 1, 1))
    assert renewed(late, today) == late
    assert renewed(begin("own"), today) == begin("own")


async def test_a_ticket_taken_over_is_not_purged_under_the_fitter(
    open_bay: Any, store: Any, conversation: Any
) -> None:
    today = date.today()
    draft = store.begin(begin("ticket", voice="customer"))
    draft.save(with_record(begin("ticket", voice="customer"), consent=True, expires=today))
    async with open_bay(session="ticket") as bay:
        assert "A golfer let this ticket be kept" in bay.pane_text("#notice")
        await bay.say("right")
        kept = load(store.file("ticket"), conversation.base.facts).record
        assert kept.consent
        assert kept.expires is not None
        assert kept.expires >= today + timedelta(days=30)
        assert "kept to" in bay.pane_text("#masthead")
        bay.app.screen.action_keep()
        await bay.settle()
        kept = load(store.file("ticket"), conversation.base.facts).record
        assert (kept.consent, kept.expires) == (True, None)


# The mouse


async def test_the_line_of_keys_is_clicked(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        for name, kind in (("why", WhyScreen), ("questions", ListScreen), ("more", FindScreen)):
            at = bay.screen_text().splitlines()[-1].index(name)
            await bay.pilot.click(bay.app.screen.query_one(KeyBar), offset=(at, 0))
            await bay.settle()
            assert isinstance(bay.app.screen, kind)
            await bay.press("escape")
            assert isinstance(bay.app.screen, BayScreen)
