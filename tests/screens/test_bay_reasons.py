"""Reasons in the bay, what would change the pick, and what a fitter decides instead."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from interview.screens.bay import why
from interview.screens.bay.override import OverrideScreen
from interview.screens.bay.screen import BayScreen
from interview.screens.bay.why import WhyScreen
from interview.screens.kit.pane import Pane
from interview.session import load
from interview.views.bay.reasons import candidate_name
from rules.fitting import House, fit
from rules.inquiry.study import Study
from rules.inquiry.sure import Sure

SAMPLE = str(Path(__file__).parents[2] / "sample_sessions" / "marks-overrule-handicap.toml")


async def test_why_why_not_and_nearly(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f8")
        assert isinstance(bay.app.screen, WhyScreen)
        assert "Stands on:" in bay.screen_text()
        assert "Source:" in bay.screen_text()
        await bay.press("2")
        first = bay.screen_text()
        assert "cancel" in first or "◇" in first
        await bay.press("right")
        assert bay.screen_text() != first
        await bay.press("3")
        assert "Needs " in bay.screen_text()
        await bay.press("escape")
        assert isinstance(bay.app.screen, BayScreen)


async def test_what_would_change_it_is_studied_once(open_bay: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """The study itself has its own tests; here it is told little by little, and asked for once."""
    told: list[str] = []

    def studied(outcome: Any, tell: Any, stale: Any, **how: Any) -> None:
        told.append(outcome.picked.id)
        found = Study(outcome.picked.id, None, Sure(outcome.picked.id, 0.5, 0.1, 0.9, 40, ()))
        tell(found)
        tell(replace(found, flips=(), leans=(), complete=True))

    monkeypatch.setattr(why, "study", studied)
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f8", "4")
        text = bay.pane_text("#lines")
        assert "WHAT WOULD CHANGE IT Nothing within its range" in text
        assert "HOW SURE The pair stays in 50 % of 40 draws" in text
        assert "WHAT IT LEANS ON" in text
        await bay.press("escape", "f5", "f5", "down", "enter", "4")
        assert "WHAT WOULD CHANGE IT" in bay.pane_text("#lines")
        assert len(told) == 1


async def test_every_decision_opens_its_reason(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f5", "f5", "right")
        for _ in range(8):
            await bay.press("enter")
            assert isinstance(bay.app.screen, WhyScreen)
            assert bay.app.screen.decision.startswith("shorter.")
            await bay.press("escape", "down")


async def test_an_amount_is_overruled_with_reason_and_price(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f5", "f5", "down", "f6")
        assert isinstance(bay.app.screen, OverrideScreen)
        await bay.type("41 in")
        await bay.settle()
        assert "Its price:" in bay.screen_text()
        await bay.press("enter")
        await bay.say("he grips down anyway")
        assert isinstance(bay.app.screen, BayScreen)
        one = bay.desk.state.outcome.overridden[0]
        assert (one.decision, one.fitter, one.reason) == ("longer.length", "41 in", "he grips down anyway")
        assert "✎" in bay.screen_text()
        await bay.press("f6", "f6")
        assert not bay.desk.state.outcome.overridden


async def test_an_impossible_value_is_not_taken(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        await bay.press("f5", "f5", "down", "f6")
        await bay.say("60 in")
        assert isinstance(bay.app.screen, OverrideScreen)
        assert "is not within the rules' 37 in to" in bay.pane_text("#price")
        await bay.press("escape")
        assert not bay.desk.state.session.subject.overrides


async def test_another_pair_is_taken_from_the_standing(open_bay: Any) -> None:
    async with open_bay(session=SAMPLE) as bay:
        rival = bay.desk.state.outcome.pairing.standings[2].candidate.id
        await bay.press("f5", "down", "down", "f6")
        await bay.settle()
        assert bay.app.screen.query_one("#options", Pane).chosen == rival
        await bay.press("enter")
        await bay.press("enter")
        assert bay.desk.state.outcome.picked.id == rival
        await bay.press("escape")
        assert "taken by you" in bay.screen_text()


@pytest.mark.parametrize(
    ("decision", "candidate", "name"),
    [("longer.tip", "0.5-in-more", "1/2 in more"), ("longer.tip", "as-noted", "as noted"),
     ("shorter.ports", "even", "spread evenly"), ("shorter.ports", "heel", "to the heel side")],
)  # fmt: skip
def test_a_candidate_is_called_as_the_bench_calls_it(
    house: House, decision: str, candidate: str, name: str
) -> None:
    outcome = fit(house, load(Path(SAMPLE), house.base.facts).subject)
    assert candidate_name(outcome, decision, candidate) == name
