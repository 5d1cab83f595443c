"""The end of a visit in words that need no trade, and distances that can be read at any width."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from interview.conversation import Conversation
from interview.kiosk.visit import Visit
from interview.views.kiosk import page_of, painted
from interview.views.kiosk.words import Say
from interview.views.pictures import FULL

Walk = Callable[..., Visit]
TRADE = (
    "lie", "lies", "loft", "topped", "thin", "fat", "carry", "centred", "gap", "toe", "heel", "sole", "flex",
)  # fmt: skip
"""Words that somebody who never held a club does not know."""


def test_what_to_try_is_told_without_words_of_the_trade(
    to_the_end: Walk, walk: Walk, conversation: Conversation
) -> None:
    page = page_of(conversation, walk("next", visit=to_the_end()))
    said = " ".join(page.text)
    assert len([text for text in page.text if re.match(r"\d\. ", text)]) == 4
    assert [word for word in TRADE if re.search(rf"\b{word}\b", said)] == []


def test_each_of_those_words_belongs_to_a_rule(conversation: Conversation) -> None:
    say: Any = Say(conversation.wording)
    told = {key for key in conversation.wording.phrases["kiosk"]["tries"] if key != "heading"}
    assert told
    assert {key.replace("_", "-") for key in told} <= set(conversation.base.rules)
    assert all(say.has(f"tries.{key}") for key in told)


@pytest.mark.parametrize("width", [20, 30, 40, 80, 120])
def test_distances_are_told_at_any_width(to_the_end: Walk, conversation: Conversation, width: int) -> None:
    page = page_of(conversation, to_the_end())
    assert len(page.bars) >= 3
    rows = painted(page, page.first, width, 44, FULL).rows
    text = "\n".join("".join(ink.text for ink in row.inks) for row in rows)
    for bar in page.bars:
        assert bar.value in text


def test_two_clubs_in_three_sentences_and_what_they_are(to_the_end: Walk, conversation: Conversation) -> None:
    text = page_of(conversation, to_the_end()).text
    assert [text[0].startswith("The longer one, "), text[1].startswith("The shorter one, ")] == [True, True]
    assert text[2].startswith("Chiefly because: ")
    assert text[3:] == ("This is a starting point that a fitter confirms.",)
    assert "get up and go" not in " ".join(text)
    assert [word for word in TRADE if re.search(rf"\b{word}\b", " ".join(text))] == []


def test_what_outweighs_new_clubs_takes_the_place_of_the_reason(
    to_the_end: Walk, conversation: Conversation
) -> None:
    """A golfer whose balls hardly ever get up is told so in plain words, and the page grows no longer."""
    text = page_of(conversation, to_the_end(handicap="36", airborne_of_six="1", driver_carry="90")).text
    assert len(text) == 4
    assert "A lesson first would help you more than any club." in text[2]


def test_the_lofts_are_told_where_the_clubs_are_asked_for(
    to_the_end: Walk, walk: Walk, conversation: Conversation
) -> None:
    last = page_of(conversation, walk("next", visit=to_the_end())).text[-1]
    assert last.startswith("Names of clubs differ from maker to maker, so ask for the slant of the face: ")
    assert last.count("degrees") == 2


def test_what_to_mind_is_told_without_parts_of_clubs(
    to_the_end: Walk, walk: Walk, conversation: Conversation
) -> None:
    said = " ".join(page_of(conversation, walk("next", "next", visit=to_the_end())).text)
    assert "Nothing on a club may be changed during a round" in said
    assert [word for word in ("weight or sleeve", "hosel", "port") if word in said] == []


def test_no_question_of_the_kiosk_leans_on_one_that_it_does_not_ask(conversation: Conversation) -> None:
    """The one before it may have been left out: a kiosk asks fewer than a fitter does."""
    wording, facts = conversation.wording, conversation.base.facts
    for fact in (one for one in facts.values() if one.ask is not None and one.id != "confidence_hybrid"):
        text = wording.asked(fact, "customer").text
        assert not re.search(r"^And |\bthat (?:longest|same)\b", text), text


def test_words_of_the_kiosk_belong_to_rules(conversation: Conversation) -> None:
    kiosk = conversation.wording.phrases["kiosk"]
    for told in (kiosk["reasons"], kiosk["outweighs"], kiosk["mind"]["of"]):
        assert told
        assert {key.replace("_", "-") for key in told} <= set(conversation.base.rules)
