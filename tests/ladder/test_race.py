"""The race for the pick: the same pair, and the same points, as when the engine counts every pair in full."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

import pytest

from rules.engine.fast import best_of
from rules.facts.reading import read_subject
from rules.facts.subject import Subject
from rules.fitting import House, fit, judged, load_house, rungs
from rules.inquiry.invented import invented
from rules.ladder.pairs import pairs
from rules.ladder.race import Race

WILD = """
[[rule]]
id = "wild-{place}"
decision = "pairing"
scope = "pair"
when = {when}
effect = {effect}
because = "Said of the pair."
teaches = "Invented for this test."
source = {{ kind = "common_practice" }}
"""
CONDITIONS = (
    '{ fact = "pair_types", is = "wood_and_hybrid" }',
    '{ fact = "longer_kind", is = "fairway" }',
    '{ fact = "shorter_owned", is = "new" }',
    '{ fact = "longer_usable", above = "60 %" }',
    '{ fact = "shorter_carry", below = "190 yd" }',
    '{ fact = "driver_gap_share", below = "20 %" }',
    '{ fact = "iron_gap_share", below = "12 %" }',
    '{ fact = "iron_gap_share", known = true }',
    '{ fact = "pair_gap_share", above = "6 %" }',
    '{ fact = "loft_step", above = "4 deg" }',
    '{ fact = "gap_unevenness", below = "8 %" }',
    '{ fact = "handicap", above = "15 strokes" }',
)
EFFECTS = (
    "{ points = 9 }",
    "{ points = -9 }",
    "{ rule_out = true }",
    '{ points = { from = "pair_gap_share", at = [["-5 %", -8], ["7 %", 11.5], ["20 %", 3]] } }',
    '{ points = { from = "iron_gap_share", at = [["0 %", 6], ["15 %", -4]] } }',
    '{ points = { from = "longer_loft_short", at = [["0 deg", 5], ["3 deg", -5]] } }',
    '{ points = { from = "handicap", at = [["0 strokes", 7], ["36 strokes", -7]] } }',
)


def wild_rules(dice: Random) -> str:
    """Write a few rules on one fact or several, of one case or several, on one club or both."""
    made = []
    for place in range(6):
        when = dice.choice(CONDITIONS)
        if dice.random() < 0.5:
            when = f"{{ {dice.choice(('all', 'any', 'none'))} = [{', '.join(dice.sample(CONDITIONS, 3))}] }}"
        made.append(WILD.format(place=place, when=when, effect=dice.choice(EFFECTS)))
    return "".join(made)


def someone(house: House, number: int) -> Subject:
    """An invented golfer: every other has told nothing of his irons, every third plays from the left."""
    data: dict[str, Any] = {
        key: part for key, part in invented(number).items() if key in ("answers", "owned", "shots")
    }
    if number % 2:
        data["answers"].pop("longest_iron_loft", None)
    if number % 3 == 0:
        data["answers"]["hand"] = "left"
    return read_subject(house.base.facts, data)


def differences(house: House, subject: Subject) -> list[object]:
    """Race a golfer's pairs, count every one of them in full as well, and tell what is not the same."""
    judge = judged(house, subject)
    filled = rungs(judge, subject, None)[0]
    race, met = Race(judge, filled), pairs(judge, filled)
    place = race.first()
    full = house.base.choose("pairing", judge.golfer.views, [pair.candidate for pair in met])
    points = {one.candidate.id: None if one.is_ruled_out else one.points for one in full.standings}
    ids = [pair.id for pair in met]
    picks = (place, best_of([points[id] for id in ids]))
    most = {ids[at]: most for at, most in race._most().items()}
    low = [id for id, count in points.items() if count is not None and most.get(id, count - 1) < count]
    wrong = [(id, race[id], points[id]) for id in ids if race[id] != points[id]]
    return [*([picks] if picks[0] != picks[1] else []), *low, *wrong]


@pytest.mark.parametrize("number", range(12))
def test_the_race_is_won_by_the_pair_that_wins_when_all_are_counted(house: House, number: int) -> None:
    assert differences(house, someone(house, number)) == []


@pytest.mark.parametrize("number", range(16))
def test_under_a_shop_s_own_rules_too(tmp_path: Path, number: int) -> None:
    (tmp_path / "wild.toml").write_text(wild_rules(Random(number)), encoding="utf-8")
    shop = load_house(tmp_path)
    assert differences(shop, someone(shop, number)) == []


def test_of_equal_pairs_the_earlier_wins_whatever_their_bounds(house: House) -> None:
    judge, dice = judged(house, someone(house, 0)), Random(5)
    filled = rungs(judge, someone(house, 0), None)[0]
    for _ in range(300):
        race = Race(judge, filled)
        places = range(dice.randint(1, len(race)))
        counts = [(dice.randint(-3, 0), dice.random() < 0.3) for _ in places]
        race._counts.update(enumerate(counts))
        most = {place: counts[place][0] + dice.randint(0, 4) for place in places}
        race._most = most.copy  # type: ignore[method-assign]
        assert race.first() == best_of([None if forbidden else count for count, forbidden in counts])


def test_few_pairs_are_counted_before_somebody_asks(house: House) -> None:
    counted = met = 0
    for number in range(6):
        judge = judged(house, someone(house, number))
        race = Race(judge, rungs(judge, someone(house, number), None)[0])
        assert race.first() is not None
        counted, met = counted + len(race._counts), met + len(race)
        assert len(dict(race)) == len(race._counts) == len(race)
    assert counted < met / 2


def test_rules_on_the_gap_to_an_iron_that_nobody_told_of_are_silent(tmp_path: Path) -> None:
    when = '{ any = [{ fact = "iron_gap_share", below = "90 %" }, { fact = "iron_gap", above = "0 yd" }] }'
    (tmp_path / "iron.toml").write_text(WILD.format(place=0, when=when, effect="{ points = 40 }"), "utf-8")
    shop = load_house(tmp_path)
    answers = {"driver_speed": "92 mph", "handicap": 15}
    for more, speaks in ({}, False), ({"longest_iron_loft": "27 deg"}, True):
        outcome = fit(shop, read_subject(shop.base.facts, {"answers": {**answers, **more}}))
        assert outcome.pairing is not None
        pick = outcome.pairing.standings[0]
        assert ("wild-0" in {line.rule.id for line in pick.lines if line.rule and line.points}) is speaks


def test_nobody_wins_where_nobody_runs(house: House) -> None:
    subject = someone(house, 2)
    judge = judged(house, subject)
    filled = rungs(judge, subject, None)[0]
    for few in ([], filled[:1]):
        race = Race(judge, few)
        assert race.first() is None
        assert dict(race) == {}
