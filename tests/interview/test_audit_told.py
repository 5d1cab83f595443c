"""What an audit says of each way in which a run can differ from the one before, in two voices."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from interview.session.record import Record
from interview.views.inquiry.audit import Audit, ByRules
from interview.views.inquiry.audit_text import write
from interview.views.inquiry.words import Words
from interview.views.outcome_text.page import Page
from rules.fitting import Outcome
from rules.inquiry.audit import Moved, Said
from rules.inquiry.blame import Blame

PAIR = "fairway-18+hybrid-22"
LENGTH = Moved("longer.length", "42 in", "41.5 in", (), gone=False)


@pytest.fixture
def told(fitted: Callable[..., Outcome]) -> Callable[..., str]:
    """Write an audit that is unchanged but for what is named, and return it on one line."""
    outcome = fitted({"hand": "right", "handicap": 15, "driver_speed": "92 mph"})

    def tell(customer: bool = False, decision: str = "pairing", **changed: Any) -> str:
        usual: dict[str, Any] = {
            "record": Record(rules_digest="a" * 64), "now": "b" * 64, "rules": False, "catalogue": False,
            "sections": (), "noted": True, "moved": (), "pair": (), "by_rules": None, "same_rules": False,
        }  # fmt: skip
        page = Page(90)
        write(Audit(**{**usual, **changed}), decision, page, Words(outcome, "imperial", customer=customer))
        return " ".join(page.text.split())

    return tell


def test_where_nothing_changed_nothing_is_said_but_to_whoever_brought_the_rules_of_then(told: Any) -> None:
    assert told() == told(customer=True) == told(customer=True, by_rules=()) == ""
    said = told(by_rules=(), same_rules=True)
    assert "Rules, catalogue and session are those of the last run." in said
    assert "The rules alone change nothing" in said


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"rules": True, "noted": False}, "Our rules changed since we last looked; what we told you then"),
        ({"catalogue": True}, "Our stock changed since we last looked. It changes nothing about your"),
        ({"sections": ("answers",)}, "We know more than when we last looked. It changes nothing"),
        ({"moved": (Moved("pairing", None, PAIR, (), gone=False),)}, "Then there was no pair for you; now"),
        ({"moved": (Moved("pairing", PAIR, None, (), gone=True),)}, "Then your two clubs were a "),
        ({"moved": (LENGTH,)}, "It is still the same two clubs, built a little differently; the longer"),
        (
            {"moved": (Moved("longer.grip", "reed", "rush", (), gone=False),)},
            "It is still the same two clubs, built a little differently.",
        ),
        (
            {"moved": (Moved("longer.length", "long", "41 in", (), gone=False),)},
            "41 inches long where it was long",
        ),
    ],
)  # fmt: skip
def test_a_golfer_is_told_whether_it_is_still_the_pair_of_then(told: Any, changed: Any, says: str) -> None:
    assert says in told(customer=True, **changed)


def test_the_trade_is_told_what_changed_and_what_of_the_pair_speaks_otherwise(told: Any) -> None:
    pair = (
        Said("gap", 2.0, 1.5),
        Said("step", None, 1.0),
        Said("gone-rule", 0.5, None),
        Said("limit", 1.0, None),
    )
    said = told(rules=True, catalogue=True, sections=("answers",), pair=pair)
    assert "The rules have changed since this session was last run (then aaaaaaaaaaaa, now bbbbb" in said
    assert "The catalogue or its stock has changed since then." in said
    assert "The session itself has changed since then: answers." in said
    assert "It changes nothing here: all is decided as it was." in said
    assert "gap gives +1.50 where it gave +2.00" in said
    assert "step now speaks (+1.00)" in said
    assert "gone-rule is no longer among the rules (it gave +0.50)" in said
    assert "own ledger" not in told(rules=True, pair=pair, decision="longer.length")
    assert "since this session was last run" in told(catalogue=True)
    assert "was not written down" in told(rules=True, noted=False)


def test_what_comes_out_otherwise_is_named_with_what_did_it(told: Any) -> None:
    gone = Moved("pairing", PAIR, "fairway-17+hybrid-21", (), gone=True)
    said = told(rules=True, moved=(gone, Moved("longer.length", None, "41.5 in", (), gone=False)))
    assert "what was decided then cannot be chosen any more" in said
    assert "nothing decided -> 41.5 in" in said
    assert "--before FOLDER tells which rules lifted it" in said
    assert "all of this together" in told(rules=True, catalogue=True, moved=(LENGTH,))
    speaks = Moved("longer.length", "42 in", "41.5 in", (Said("gap", 1.0, 0.5),), gone=False)
    assert "for it gap gives +0.50 where it gave +1.00" in told(rules=True, moved=(speaks,))


def test_by_the_rules_alone_amounts_and_picks_are_told_with_the_rules_behind_them(told: Any) -> None:
    alone = (
        ByRules("longer.length", 42_000, 41_500, (Blame("gap", -500), Blame("start", 100))),
        ByRules("pairing", None, PAIR, (Blame("no-woods", None),)),
        ByRules("longer.grip", None, 3, ()),
    )
    said = told(rules=True, catalogue=True, by_rules=alone)
    assert "The rules that --before names are not those that ran then." in said
    assert "42 in -> 41.5 in, because of gap (-0.50)" in said
    assert "nothing decided -> " in said
    assert "no-woods (forbids)" in said
    assert "because there is another choice" in said
    same = told(rules=True, by_rules=alone, same_rules=True, moved=(LENGTH,))
    assert "because of gap (-0.50)" in same
    assert "By the rules alone" not in same
