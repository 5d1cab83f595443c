"""`recommend --json`: every promise kept for every sample, and for what is not in any sample."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from interview.session import load
from interview.views.contract import Recommendation
from interview.views.recommend_json import to_json
from interview.views.study import Change, Study
from rules.fitting import House, Outcome, fit

SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))
PARTS = ("head", "length", "balance", "shaft", "tip", "grip", "lie", "ports")
FITTER = {
    "hand": "right",
    "pain": "no",
    "handicap": 16,
    "driver_speed": {"value": "92 mph", "how": "measured"},
    "longest_iron_loft": "27 deg",
    "turf_mark": "brush",
}
OWNED = [
    {"name": "old 4", "kind": "fairway", "loft": "16.5 deg", "liked": "yes"},
    {
        "name": "old 7", "kind": "fairway", "loft": "21 deg", "length": "41.5 in", "swing_weight": "D1",
        "liked": "yes",
    },
]  # fmt: skip


@pytest.fixture(scope="module")
def printed(house: House) -> dict[str, dict[str, Any]]:
    found = {}
    for file in SAMPLES:
        session = load(file, house.base.facts)
        found[session.id] = to_json(fit(house, session.subject), session.id)
    return found


def numbers(value: Any) -> Iterator[float]:
    if isinstance(value, dict | list):
        for part in value.values() if isinstance(value, dict) else value:
            yield from numbers(part)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield value


def test_every_sample_keeps_the_promise(printed: dict[str, dict[str, Any]]) -> None:
    assert len(printed) == len(SAMPLES) > 20
    for one in printed.values():
        Recommendation.model_validate_json(json.dumps(one, allow_nan=False))


def test_json_reads_back_the_same(printed: dict[str, dict[str, Any]]) -> None:
    for one in printed.values():
        assert json.loads(json.dumps(one)) == one
        assert all(math.isfinite(number) for number in numbers(one))


def test_every_decision_is_there_once_in_order(printed: dict[str, dict[str, Any]]) -> None:
    wanted = ["pairing"] + [f"{role}.{part}" for role in ("longer", "shorter") for part in PARTS]
    for one in printed.values():
        assert [decision["decision"] for decision in one["decisions"]] == wanted
        assert all(decision["because"] for decision in one["decisions"])


def exactly(numbers: list[float]) -> Decimal:
    """Add up what was printed as it was printed."""
    return sum((Decimal(str(number)) for number in numbers), Decimal(0))


def test_printed_ledgers_add_up_to_the_last_digit(printed: dict[str, dict[str, Any]]) -> None:
    for name, one in printed.items():
        for decision in one["decisions"]:
            lines = decision["because"]
            if decision["start"] is not None:
                total = exactly([decision["start"], *(line["adjust"] for line in lines)])
                assert total == exactly([decision["pick"]]), (name, decision["decision"])
            elif decision["score"] is not None:
                total = exactly([line["points"] for line in lines])
                assert total == exactly([decision["score"]]), (name, decision["decision"])


def test_the_clubs_are_what_was_decided(printed: dict[str, dict[str, Any]]) -> None:
    for one in printed.values():
        picks = {decision["decision"]: decision["pick"] for decision in one["decisions"]}
        assert one["pairing"]["pick"] == picks["pairing"]
        for club in one["clubs"]:
            role = club["role"]
            assert club["length_in"] == picks[f"{role}.length"]
            if club["owned"] is None:
                assert club["head"] == picks[f"{role}.head"]
                assert club["shaft"]["id"] == picks[f"{role}.shaft"]
                assert club["lie_deg"] == picks[f"{role}.lie"]
                assert club["added_g"] == pytest.approx(sum(club["ports"].values()))


def test_carries_gaps_and_heights_agree(printed: dict[str, dict[str, Any]]) -> None:
    for one in printed.values():
        longer, shorter = one["clubs"]
        step = longer["carry_yd"]["centred"] - shorter["carry_yd"]["centred"]
        assert one["gaps_yd"]["longer_to_shorter"] == pytest.approx(step, abs=0.11)
        for club in one["clubs"]:
            carry = club["carry_yd"]
            assert carry["low"] <= carry["centred"] <= carry["high"]
            assert club["apex_ft"] == pytest.approx(3 * club["apex_yd"], abs=0.2)
            assert 0 <= club["usable_share"] <= 1


def test_a_gap_to_an_unknown_iron_is_null(printed: dict[str, dict[str, Any]]) -> None:
    assert printed["knows-almost-nothing"]["gaps_yd"]["shorter_to_iron"] is None
    assert printed["digger-scattered"]["gaps_yd"]["shorter_to_iron"] is not None


def test_facts_say_how_they_are_known(printed: dict[str, dict[str, Any]]) -> None:
    facts = printed["digger-scattered"]["facts"]
    assert facts["driver_speed"] == {
        "value": 92, "unit": "mph", "how": "measured", "spread": 1.5, "open": False,
    }  # fmt: skip
    assert facts["handicap"]["how"] == "said"
    assert facts["contact"]["value"] == ["fat", "scattered"]
    assert facts["lies"]["value"] == {"tight_fairway": 10, "fairway": 40, "rough": 40, "tee": 10}
    assert facts["lies.rough"]["value"] == 40
    assert facts["wind"] == {"value": "breezy", "unit": None, "how": "assumed", "spread": 0, "open": True}
    nothing = printed["knows-almost-nothing"]["facts"]
    assert nothing["handicap"] == {
        "value": None, "unit": "strokes", "how": "assumed", "spread": 0, "open": False,
    }  # fmt: skip


def test_what_a_line_read_is_among_the_facts(printed: dict[str, dict[str, Any]]) -> None:
    """So that the unit of each value is found beside the fact, under the club's role where it is its own."""
    for one in printed.values():
        facts = one["facts"]
        for decision in one["decisions"]:
            role = decision["decision"].rpartition(".")[0]
            for line in decision["because"]:
                for id, value in line["facts"].items():
                    if id != "direction":
                        fact = facts[id] if id in facts else facts[f"{role}.{id}"]
                        assert fact["value"] == value, (one["session"], decision["decision"], id)


def test_what_nobody_knows_of_his_own_clubs_is_null(fitted: Callable[..., Outcome]) -> None:
    one = to_json(fitted(FITTER, owned=OWNED), "own")
    own = [club for club in one["clubs"] if club["owned"] is not None]
    assert own
    for club in own:
        assert club["shaft"] is None
        assert club["grip"] is None
        assert club["inertia_kg_cm2"] is None
        assert club["owned"] in ("old 4", "old 7")
    told = {club["owned"]: club["swing_weight"] for club in own}
    assert told.get("old 4") is None
    Recommendation.model_validate_json(json.dumps(one))


def test_no_pair_is_an_answer_with_reasons(house: House, subject: Callable[..., Any]) -> None:
    bare = House(house.base, replace(house.shelf, shafts=()))
    one = to_json(fit(bare, subject(FITTER)), "bare")
    assert one["pairing"] is None
    assert one["clubs"] == []
    assert set(one["gaps_yd"].values()) == {None}
    assert len(one["ruled_out"]) >= 10
    assert all(entry["text"].endswith(".") for entry in one["ruled_out"])
    assert len(one["decisions"]) == 17
    Recommendation.model_validate_json(json.dumps(one))


@pytest.mark.parametrize(
    ("decision", "value"),
    [
        ("longer.length", "42.25 in"),
        ("shorter.balance", "D2"),
        ("longer.shaft", "even-58"),
        ("shorter.grip", "cord-48"),
    ],
)
def test_an_override_is_a_line_of_a_ledger_that_still_adds_up(
    fitted: Callable[..., Outcome], decision: str, value: str
) -> None:
    reason = "he liked the demo"
    one = to_json(fitted(FITTER, overrides={decision: {"value": value, "reason": reason}}), "by-hand")
    made = next(d for d in one["decisions"] if d["decision"] == decision)
    assert any(reason in line["text"] for line in made["because"])
    moved = [line.get("adjust", line.get("points")) for line in made["because"]]
    if made["unit"]:
        assert exactly([made["start"], *moved]) == exactly([made["pick"]])
    else:
        assert made["pick"] == value
        assert exactly(moved) == exactly([made["score"]])
    assert one["overrides"][0]["reason"] == reason
    assert one["overrides"][0]["decision"] == decision
    Recommendation.model_validate_json(json.dumps(one))


def test_another_pair_by_hand_stands_behind_the_engines(fitted: Callable[..., Outcome]) -> None:
    free = to_json(fitted(FITTER), "free")
    other = free["pairing"]["runner_up"]
    one = to_json(fitted(FITTER, overrides={"pairing": {"value": other, "reason": "in stock"}}), "taken")
    assert one["pairing"]["pick"] == other
    assert one["pairing"]["runner_up"] == free["pairing"]["pick"]
    assert one["pairing"]["margin"] == -free["pairing"]["margin"]
    assert one["overrides"][0]["price"]["points"] == pytest.approx(-free["pairing"]["margin"])
    assert one["overrides"][0]["stale"] is False


def test_sentences_follow_the_units_and_numbers_do_not(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(FITTER)
    imperial, metric = to_json(outcome, "one"), to_json(outcome, "one", system="metric")
    assert imperial["clubs"] == metric["clubs"]
    assert imperial["facts"] == metric["facts"]
    assert imperial["prove_it"] != metric["prove_it"]


def test_a_study_fills_what_was_left_open(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(FITTER)
    without = to_json(outcome, "one")
    assert without["pairing"]["sure"] is None
    assert without["pairing"]["steady"] is None
    assert {one["changes_pick"] for one in without["assumptions"]} == {None}
    change = Change("handicap", 16, 27, "strokes", "another")
    study = Study(0.93, True, {"pairing": (change,)}, {"usual-wind": True})
    filled = to_json(outcome, "one", study)
    assert filled["pairing"]["sure"] == 0.93
    assert filled["pairing"]["steady"] is True
    assert filled["decisions"][0]["would_change"] == [
        {"fact": "handicap", "from": 16, "to": 27, "unit": "strokes", "pick": "another"}
    ]
    assert [one["changes_pick"] for one in filled["assumptions"] if one["id"] == "usual-wind"] == [True]
    Recommendation.model_validate_json(json.dumps(filled))


def test_the_digest_is_the_houses(house: House, printed: dict[str, dict[str, Any]]) -> None:
    assert {one["rules_digest"] for one in printed.values()} == {house.digest}
