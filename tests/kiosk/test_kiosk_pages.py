"""What stands on a kiosk's page: who may agree, what a press was refused for, why it asks, where one was."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from interview.conversation import Conversation
from interview.kiosk.visit import Visit
from interview.views.kiosk import page_of

Walk = Callable[..., Visit]


def said(conversation: Conversation, visit: Visit) -> str:
    """All that a page says, on one line."""
    page = page_of(conversation, visit, 30)
    return " ".join(" ".join((page.heading, *page.text, page.notice)).split())


@pytest.mark.parametrize(
    ("age", "can_agree"),
    [("adult", ["yes", "no"]), ("junior", ["guardian", "no"]), ("", ["yes", "guardian", "no"])],
)
def test_who_may_agree_depends_on_the_age_that_was_told(
    conversation: Conversation, to_the_end: Walk, walk: Walk, age: str, can_agree: list[str]
) -> None:
    consent = walk("next", "next", "next", visit=to_the_end(**({"age_band": age} if age else {})))
    page = page_of(conversation, consent)
    assert [tile.press for tile in page.tiles] == can_agree
    assert [tile.key for tile in page.tiles] == [str(n) for n in range(1, len(can_agree) + 1)]


def test_a_number_that_cannot_be_is_answered_with_what_can(conversation: Conversation, walk: Walk) -> None:
    visit = walk("start")
    while visit.state is not None and visit.state.asking != "handicap":
        visit = walk("unknown", visit=visit)
    refused = walk(*(f"digit:{digit}" for digit in "99"), "enter", visit=visit)
    assert refused.state is not None
    assert refused.state.asking == "handicap"
    assert "54" in said(conversation, refused)
    assert said(conversation, refused) != said(conversation, visit)


def test_why_it_asks_is_told_and_the_question_is_still_there(conversation: Conversation, walk: Walk) -> None:
    asking = walk("start")
    asked = walk("why", visit=asking)
    assert asking.state is not None
    fact = conversation.base.facts[asking.state.asking or ""]
    why = conversation.wording.asked(fact, "customer", "right").why
    assert why in said(conversation, asked)
    assert said(conversation, walk("here", visit=asked)) == said(conversation, asking)


def test_who_stands_still_is_asked_whether_he_is_there(conversation: Conversation, walk: Walk) -> None:
    page = page_of(conversation, replace(walk("start"), cover="still"), 17)
    assert "17" in " ".join(page.text)
    assert [tile.press for tile in page.tiles] == ["here", "afresh"]


def test_going_back_the_cursor_stands_where_one_was(conversation: Conversation, walk: Walk) -> None:
    visit = walk("start")
    while visit.state is not None and visit.state.asking != "confidence_fairway":
        visit = walk("unknown", visit=visit)
    back = walk("back", visit=walk("answer:4", visit=visit))
    assert page_of(conversation, back).cursor == "answer:4"
    first = walk("back", visit=walk("unknown", visit=walk("start")))
    assert page_of(conversation, first).cursor == "unknown"


def test_a_handicap_is_typed_with_its_signs_and_rubbed_out_one_by_one(
    conversation: Conversation, walk: Walk
) -> None:
    visit = walk("start")
    while visit.state is not None and visit.state.asking != "handicap":
        visit = walk("unknown", visit=visit)
    typed = walk("digit:1", "digit:.", "digit:.", "digit:5", visit=visit)
    assert typed.typed == "1.5", "one decimal point is enough"
    assert walk("rub", "rub", visit=typed).typed == "1"
    assert walk("digit:1", "digit:+", visit=visit).typed == "1", "a sign comes first or not at all"
    plus = walk("digit:+", "digit:2", "enter", visit=visit)
    assert plus.state is not None
    assert plus.state.session.subject.answers["handicap"].value == -2, "better than scratch"
