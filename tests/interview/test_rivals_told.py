"""What a golfer is told of a rival: what speaks for either, or that nothing weighty does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from interview.views.inquiry.asked import Explained, explained
from interview.views.inquiry.rival_text import _for_customer, _names, _short, write_amount
from interview.views.inquiry.words import Words
from interview.views.outcome_text.page import Page
from rules.fitting import Outcome
from rules.inquiry.ledgers import WhyNot, why_not, why_not_amount


@pytest.fixture
def of(fitted: Callable[..., Outcome]) -> Explained:
    outcome = fitted({"hand": "right", "handicap": 15, "driver_speed": "92 mph"})
    return explained(outcome, "pairing", None, None, "imperial")


@pytest.fixture
def rival(of: Explained) -> WhyNot:
    assert of.outcome.pairing is not None
    assert of.outcome.pairing.runner_up is not None
    return why_not(of.outcome, "pairing", of.outcome.pairing.runner_up.candidate.id)


def told(of: Explained, it: WhyNot) -> str:
    page = Page(90)
    _for_customer(of, it, page, Words(of.outcome, "imperial", customer=True))
    return " ".join(page.text.split())


def test_what_weighs_nothing_is_called_a_close_call_and_a_better_rival_is_called_that(
    of: Explained, rival: WhyNot
) -> None:
    assert "a close call" in told(of, replace(rival, differences=()))
    assert "even be the better choice" in told(of, replace(rival, differences=(), margin=-1))
    assert told(of, replace(rival, differences=(), ruled_out=(_line(rival),))) == ""
    (other_way,) = [replace(one, mine=one.other, other=one.mine) for one in rival.differences[:1]]
    first = replace(rival, differences=rival.differences[:1])
    turned = replace(rival, differences=(other_way,))
    assert told(of, first) != told(of, turned)
    outweighed = [told(of, one) for one in (first, turned) if "What speaks for" in told(of, one)]
    assert len(outweighed) == 1
    assert "And yet:" in told(of, replace(turned if outweighed[0] == told(of, turned) else first, margin=-1))


def _line(rival: WhyNot) -> Any:
    return next(line for one in rival.differences for line in (one.mine, one.other) if line is not None)


def test_a_part_is_this_one_and_the_other_and_a_pair_that_is_none_the_others(
    of: Explained, rival: WhyNot
) -> None:
    said = Words(of.outcome, "imperial", customer=True)
    head = explained(of.outcome, "longer.head", None, None, "imperial")
    assert _names(head, rival, said) == ("this one", "the other")
    assert len(set(_names(of, rival, said))) == 2
    nobody = of._replace(outcome=replace(of.outcome, picked=None))
    assert _short(nobody, "fairway-1+fairway-2") == "the others"
    assert _short(of, rival.pick).startswith("the ")


@pytest.mark.parametrize(
    ("wanted", "says"), [("60 in", "outside what is allowed"), ("", "what was decided"), ("41 in", "41")]
)
def test_another_amount_is_told_to_a_golfer_once_and_to_the_trade_line_by_line(
    of: Explained, wanted: str, says: str
) -> None:
    length = explained(of.outcome, "longer.length", None, None, "imperial")
    decided = of.outcome.clubs[0].rung.decisions["length"]
    amount = wanted or f"{decided.pick / 1000} in"  # type: ignore[operator]
    it = why_not_amount(of.outcome, "longer.length", amount)
    pages = {}
    for customer in (True, False):
        page = Page(90)
        for _ in range(2):
            write_amount(length, it, page, Words(of.outcome, "imperial", customer=customer))
        pages[customer] = " ".join(page.text.split())
    assert all(says in text for text in pages.values())
    lines = [line.text("imperial") for line in (*it.against, *it.toward) if line.rule is not None]
    assert all(pages[True].count(line[:30]) <= 1 for line in lines)
