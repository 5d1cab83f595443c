"""Two outcomes side by side in words: what is changed, what comes of it, and what is said no longer."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from interview.session import Voice
from interview.views.inquiry.whatif_text import whatif_json, whatif_text
from rules.fitting import Outcome
from rules.inquiry.whatif import compared

GOLFER = {"driver_speed": {"value": "92 mph", "how": "measured"}, "handicap": 15, "tempo": "smooth"}
Fitted = Callable[..., Outcome]


def told(before: Outcome, after: Outcome, *changed: str, voice: Voice = "fitter") -> str:
    return " ".join(whatif_text(compared(before, after, changed), voice, "imperial").split())


def test_another_pair_is_told_with_both_names_and_what_each_scores(fitted: Fitted) -> None:
    before, after = fitted(GOLFER), fitted({**GOLFER, "driver_speed": "70 mph"})
    assert before.picked is not None
    assert after.picked is not None
    assert before.picked.id != after.picked.id
    said = told(before, after, "driver_speed")
    assert f"({before.picked.id}) -> " in said
    assert f"({after.picked.id})." in said
    assert "carry to expect of the longer club:" in said
    plain = told(before, after, "driver_speed", voice="customer")
    assert before.picked.id not in plain
    assert "points" not in plain


def test_what_hurts_is_said_when_it_comes_and_no_longer_when_it_goes(fitted: Fitted) -> None:
    well, hurts = fitted(GOLFER), fitted({**GOLFER, "pain": "yes"})
    come, gone = told(well, hurts, "pain"), told(hurts, well, "pain", voice="customer")
    assert "THEN MIND AS WELL" in come
    assert "licensed professional" in come.partition("THEN MIND AS WELL")[2]
    assert "NO LONGER SAID" in gone
    assert "licensed professional" in gone.partition("NO LONGER SAID")[2]
    data: dict[str, Any] = whatif_json(compared(well, hurts, ("pain",)), "x")
    assert data["cautions"]["gained"]
    assert (
        data["cautions"]["lost"] == whatif_json(compared(hurts, well, ("pain",)), "x")["cautions"]["gained"]
    )


def test_where_nothing_is_otherwise_that_is_said(fitted: Fitted) -> None:
    same = told(fitted(GOLFER), fitted(GOLFER))
    assert "Nothing that anything depends on." in same
    assert "The pair stays:" in same


def test_a_shaft_is_told_by_name_and_a_length_in_inches(fitted: Fitted) -> None:
    said = told(fitted(GOLFER), fitted({**GOLFER, "tempo": "abrupt"}), "tempo")
    assert "start down: smooth -> abrupt" in said
    assert re.search(r"shaft of the longer club: [a-z]+ \d+ -> [a-z]+ \d+", said)
    assert re.search(r"target swing weight of the longer club: [CD]\d\S* -> [CD]\d", said)
