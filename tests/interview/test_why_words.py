"""The reasons in words: of which pair each speaks, what a golfer would say, no claim too wide."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from interview.session import load
from interview.views.inquiry import changing
from interview.views.inquiry.asked import explained
from interview.views.inquiry.asked_of import if_clause, is_likely, name
from interview.views.inquiry.explain_text import explain_text
from interview.views.inquiry.rival_text import numbers_apart
from interview.views.inquiry.words import Words, listed
from interview.views.outcome_text.page import Page
from interview.wording.words import words as wording
from rules.facts.answers import Answer
from rules.fitting import House, Outcome, fit
from rules.inquiry.enough import Enough
from rules.inquiry.flips import FactFlips, Flip
from rules.inquiry.overtake import Overtake
from rules.inquiry.study import Study
from rules.inquiry.values import Direction, Trial
from rules.units import parse, unit

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
NAMES = ("hates-hybrids", "digger-scattered", "senior-smooth", "his-wood-to-shorten")


def outcome_of(house: House, name: str) -> Outcome:
    return fit(house, load(SAMPLES / f"{name}.toml", house.base.facts).subject)


@pytest.mark.parametrize("name", NAMES)
def test_a_customer_hears_of_which_pair_each_sentence_speaks_and_none_twice(house: House, name: str) -> None:
    outcome = outcome_of(house, name)
    text = explain_text(explained(outcome, "pairing", None, None, "imperial"), "customer")
    why, _, against = text.partition("\nWHY NOT ")
    points = [" ".join(point.split()) for point in against.split("\n  - ")[1:]]
    assert points
    assert all(point.startswith("With ") for point in points)
    told = [" ".join(point.split("\n\n")[0].split()) for point in text.split("\n  - ")[1:]]
    bare = [point.partition(": ")[2].partition(". With")[0].lower() if point.startswith("With ") else
            point.lower() for point in told]  # fmt: skip
    assert len(bare) == len(set(bare))
    speaking, _, outweighed = why.partition("WHAT SPEAKS AGAINST THEM, AND WAS OUTWEIGHED")
    pairing = explained(outcome, "pairing", None, None, "imperial").decision
    for line in pairing.because:
        began = " ".join(line.text.split())[:30]
        assert (line.points or 0) >= 0 or began not in " ".join(speaking.split())
        assert (line.points or 0) <= 0 or began not in " ".join(outweighed.split())
    assert not re.search(r"\bhe\b|\bhis\b|points", text)


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        ("About 59 % get up.", "About 48 % get up.", "48 %"),
        ("It carries 151 yd, 5 yd more.", "It carries 149 yd, 5 yd more.", "149 yd"),
        ("It is 41 3/4 in long.", "It is 42 in long.", "42 in"),
        ("You hit it well.", "You hit it badly.", ""),
        ("The same 5 %.", "The same 5 %.", ""),
    ],
)
def test_only_the_numbers_that_differ_are_said_again(one: str, other: str, apart: str) -> None:
    assert numbers_apart(one, other) == apart


def test_every_question_has_a_name_for_a_golfer_and_a_clause(house: House) -> None:
    facts = house.base.facts
    for fact in (one for one in facts.values() if one.ask is not None):
        assert name(fact) == wording().say(f"why.name.{fact.id}")
        value: float | str = fact.range[1] if fact.kind == "number" else (*fact.values, "")[0]
        ids = [fact.id] if fact.kind != "shares" else [f"{fact.id}.{part}" for part in fact.values]
        for id in ids:
            to = 0.4 if fact.kind == "shares" else value
            flip = flipped(id, to, "up" if isinstance(to, float) else "")
            clause = if_clause(facts[id], fact, flip, "imperial")
            assert clause.startswith("If ")
            assert "{" not in clause
            assert "_" not in clause


def flipped(id: str, to: float | str, direction: Direction) -> Flip:
    return Flip(id, None, to, direction, "pairing", "x", 1.0, Trial(id, to, {id: Answer(to)}, direction))


@pytest.mark.parametrize(
    ("id", "to", "direction", "says"),
    [
        ("driver_speed", "96.5 mph", "up", "If you swung your driver at 97 miles an hour or more"),
        ("driver_speed", "96.5 mph", "down", "If you swung your driver at 96 miles an hour or less"),
        ("longest_iron_carry", "131 yd", "down", "If your longest iron flew 130 yards or less"),
        ("longest_iron_loft", "20.2 deg", "down", "If your longest iron had 20 degrees or less of loft"),
        ("airborne_of_six", "3", "down", "If 3 or fewer of six balls got up in the air"),
        ("handicap", "5", "up", "If your handicap were 5 or more"),
    ],
)
def test_numbers_are_rounded_away_from_where_they_stand(
    id: str, to: str, direction: Direction, says: str, house: House
) -> None:
    fact = house.base.facts[id]
    value = parse(to, unit(fact.unit)) if fact.unit not in ("", "strokes") else float(to)
    assert if_clause(fact, fact, flipped(id, value, direction), "imperial") == says


def test_a_golfer_is_not_told_of_what_nobody_would_answer(house: House) -> None:
    facts = house.base.facts
    assert not is_likely(facts["altitude"], flipped("altitude", -228.6, "down"))
    assert not is_likely(facts["hand"], flipped("hand", "left", ""))
    assert is_likely(facts["handicap"], flipped("handicap", 5.0, "up"))


def said(house: House, study: Study, *, customer: bool) -> str:
    outcome = outcome_of(house, "senior-smooth")
    found = explained(outcome, "pairing", None, study, "imperial")
    changing.write(found, page := Page(80), Words(outcome, "imperial", customer=customer))
    return " ".join(page.text.split())


PICK = "fairway-21+fairway-25"
RIVAL = "fairway-19+fairway-23"


def test_enough_says_how_few_are_proved_and_what_is_taken_for_granted(house: House) -> None:
    few = Enough(("handicap", "lies"), 9, 2, anyhow=True)
    study = Study(PICK, RIVAL, enough=few)
    text = said(house, study, customer=False)
    assert "2 of the 9 answers settle the pair, whatever the rest and the open questions" in text
    assert "No fewer would do." in text
    text = said(house, replace(study, enough=replace(few, at_least=1, anyhow=False)), customer=False)
    assert "(open questions taken as they usually are)" in text
    assert "At least 1 are needed; whether fewer than 2 would do was not found out." in text
    text = said(house, study, customer=True)
    assert "2 of your 9 answers settle it: your handicap and where your ball lies." in text


def test_overtake_claims_no_more_than_was_tried(house: House) -> None:
    one = Trial("handicap", 12.0, {"handicap": Answer(12.0)}, "down")
    two = Trial("turf", "firm", {"turf": Answer("firm")})
    found = Overtake(RIVAL, (one, two), True, ("handicap", "turf", "tempo"))
    text = said(house, Study(PICK, RIVAL, overtake=found), customer=False)
    assert "to win it takes handicap 12 or less and turf firm together; none of them can be spared." in text
    text = said(house, Study(PICK, RIVAL, overtake=replace(found, trials=())), customer=False)
    assert "No one answer changed, and no two or three of handicap, turf and start down together," in text
    text = said(house, Study(PICK, RIVAL, overtake=replace(found, trials=(), alone=False)), customer=False)
    assert "No one answer changed as far as was tried, and" in text


def test_what_comes_of_it_is_said_once_for_all_that_leads_there(house: House) -> None:
    flips = (
        FactFlips("handicap", (replace(flipped("handicap", 5.0, "down"), pick=RIVAL),), ()),
        FactFlips("flight", (replace(flipped("flight", "high", ""), pick=RIVAL),), ()),
        FactFlips("tempo", (), ()),
    )
    text = said(house, Study(PICK, RIVAL, flips=flips), customer=False)
    assert text.count("It would be a 5-wood of 18.75 degrees and a 7-wood of 23 degrees") == 1
    assert "Nothing within their range changes it: start down." in text
    text = said(house, Study(PICK, RIVAL, flips=(flips[2],)), customer=False)
    assert "Nothing within its range, changed alone." in text


def test_a_list_with_commas_inside_its_parts_is_parted_by_semicolons() -> None:
    assert listed(["balls that get up, of six", "turf", "wind"]) == "balls that get up, of six; turf and wind"
    assert listed(["a", "b", "c"]) == "a, b and c"


def test_pairs_of_one_name_are_told_apart_by_the_club_that_differs(house: House) -> None:
    outcome = outcome_of(house, "digger-scattered")
    assert outcome.picked is not None
    assert outcome.picked.id == "fairway-19+hybrid-22.5"
    of = explained(outcome, "pairing", "fairway-19+hybrid-21.5", None, "imperial")
    text = " ".join(explain_text(of, "customer").split())
    assert "With the 4-hybrid of 21.5 degrees: " in text
    assert "With the 4-hybrid of 22.5 degrees: " in text
    assert "5-wood and 4-hybrid:" not in text
