"""The table of budgets says of each what it is held against, and never calls met what was not measured."""

from __future__ import annotations

import pytest

from tests.benchmarks import budgets, engine_race
from tests.benchmarks.budgets import Row


def test_a_peer_that_is_not_installed_is_said_to_be_so_and_its_budget_is_not_met(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(engine_race, "ROUNDS", 1)
    monkeypatch.setattr(engine_race, "peers", lambda: {engine_race.ZEN: None, "another, of no budget": None})
    zen, another, *_ = budgets.engine()
    assert zen.peer == another.peer == "not installed"
    assert (zen.budget, zen.met) == (">= 10x", False)
    assert (another.budget, another.met) == ("", None)


@pytest.mark.parametrize(("met", "said"), [(True, "yes"), (False, "NO"), (None, "-")])
def test_a_row_says_whether_its_budget_is_met(met: bool | None, said: str) -> None:
    assert Row("a flight", "1 us", "a peer", "2.0x", ">= 15x", met).cells()[-1] == said
