"""The views of clubs, ladder, facts, cautions and rivals say what the outcome says."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from interview.session import load
from interview.views.notices import TOPICS
from interview.views.outcome import outcome_view
from rules.fitting import House, Outcome, fit

SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))
FITTER = {"driver_speed": "92 mph", "handicap": 16, "longest_iron_loft": "27 deg", "hand": "right"}


@pytest.mark.parametrize("file", SAMPLES, ids=lambda file: file.stem)
def test_the_bench_adds_up(house: House, file: Path) -> None:
    view = outcome_view(fit(house, load(file, house.base.facts).subject))
    for club in view.clubs:
        if club.bench is None:
            assert club.owned is not None
            continue
        bench = club.bench
        assert bench.added == pytest.approx(sum(port.mass for port in bench.ports))
        for port in bench.ports:
            assert port.mass == pytest.approx(sum(port.pieces))
            assert list(port.pieces) == sorted(port.pieces, reverse=True)
        assert bench.balance - club.target == pytest.approx(bench.left)
        assert bool(bench.ways) == (abs(bench.left) > 0.5)


def test_the_ladder_is_flown_and_its_steps_add_up(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(FITTER)
    gaps = outcome_view(outcome).gaps
    assert gaps is not None
    assert gaps.iron is not None
    assert not gaps.iron_told
    steps = gaps.driver_to_longer + gaps.longer_to_shorter + (gaps.shorter_to_iron or 0.0)
    assert steps == pytest.approx(gaps.driver - gaps.iron)
    assert gaps.longer == outcome.clubs[0].rung.flown.centred


def test_an_iron_that_was_told_is_said_to_be_told(fitted: Callable[..., Outcome]) -> None:
    gaps = outcome_view(fitted({**FITTER, "longest_iron_carry": "150 yd"})).gaps
    assert gaps is not None
    assert gaps.iron_told
    assert gaps.iron == pytest.approx(150 * 0.9144)
    unknown = outcome_view(fitted({"driver_speed": "92 mph"})).gaps
    assert unknown is not None
    assert unknown.shorter_to_iron is None


def test_what_can_hurt_is_said_first(house: House) -> None:
    for file in SAMPLES:
        view = outcome_view(fit(house, load(file, house.base.facts).subject))
        ranks = [TOPICS.index(one.topic) for one in view.cautions]
        assert ranks == sorted(ranks)


def test_pain_comes_before_everything(fitted: Callable[..., Outcome]) -> None:
    view = outcome_view(fitted({**FITTER, "pain": "yes"}))
    assert view.cautions[0].topic == "body"
    assert view.cautions[0].rule == "pain-stops-the-fitting"


def test_the_plan_to_prove_is_in_the_order_it_is_done(house: House, fitted: Callable[..., Outcome]) -> None:
    rules = [one.rule for one in outcome_view(fitted(FITTER)).proofs]
    declared = list(house.base.rules)
    assert rules[0] == "prove-test-club-first"
    assert rules == sorted(rules, key=declared.index)


def test_every_pair_is_a_rival_best_first(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(FITTER)
    pairing = outcome_view(outcome).pairing
    assert pairing is not None
    assert len(pairing.rivals) == len(outcome.pairs)
    points = [one.points for one in pairing.rivals if not one.ruled_out]
    assert points == sorted(points, reverse=True)
    assert pairing.rivals[0].id == pairing.pick
    assert pairing.margin == points[0] - points[1]
    rival = pairing.rival(pairing.runner_up or "")
    assert rival is not None
    assert rival.lofts[0] < rival.lofts[1]


def test_a_club_altered_says_what_comes_off_and_goes_back(fitted: Callable[..., Outcome]) -> None:
    owned = [{
        "name": "the long one", "kind": "fairway", "loft": {"value": "16.5 deg", "how": "measured"},
        "length": "43.25 in", "swing_weight": "D1", "liked": "yes", "can_add": "16 g",
    }]  # fmt: skip
    overrides = {"pairing": {"value": "x", "reason": "to see the bench work"}}
    outcome = fitted({**FITTER, "contact": ["heel"]}, owned=owned)
    altered = next(id for id in outcome.pairs if "the-long-one-at" in id)
    overrides["pairing"]["value"] = altered
    view = outcome_view(fitted({**FITTER, "contact": ["heel"]}, owned=owned, overrides=overrides))
    club = next(one for one in view.clubs if one.owned)
    assert club.state == "altered"
    assert club.loft_known == "measured"
    assert club.cut > 0
    assert 0 < club.put_back <= 0.016
    assert club.length + club.cut == pytest.approx(43.25 * 0.0254)
    assert club.bench is None


def test_facts_of_a_club_stand_under_its_role(house: House, fitted: Callable[..., Outcome]) -> None:
    facts = outcome_view(fitted(FITTER)).facts
    assert "longer.face_height" in facts
    assert "face_height" not in facts
    assert facts["pair_gap"].unit == "yd"
    assert set(house.base.facts) >= {id.partition(".")[2] if id.startswith(("longer.", "shorter.")) else id
                                     for id in facts}  # fmt: skip
    assert facts["driver_head_speed"].value == pytest.approx(92 * 0.44704)
    assert facts["lies"].kind == "shares"
