"""The one road: what it finds for any legal answers, and what it never does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rules.engine import Amount
from rules.facts.reading import SubjectProblem, read_subject
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit, load_house
from rules.ladder.stocked import Barred
from rules.overrides import OverrideProblem
from rules.units import UNITS, parse

HOUSE = load_house()
QUESTIONS = [fact for fact in HOUSE.base.facts.values() if fact.ask is not None]


def legal(fact: Any) -> st.SearchStrategy[object]:
    """Any legal answer to a question, "I don't know" included."""
    if fact.kind == "number":
        low, high = fact.range
        shown = UNITS[fact.unit]
        value: st.SearchStrategy[object] = st.floats(0, 1).map(
            lambda share: round(shown.from_si(low + share * (high - low)), 6)
        )
        value = value.filter(lambda v: low <= shown.to_si(float(v)) <= high)  # type: ignore[arg-type]
    elif fact.kind == "choice":
        value = st.sampled_from(fact.values)
    elif fact.kind == "set":
        value = st.lists(st.sampled_from(fact.values), min_size=1, max_size=3)
    else:
        value = st.dictionaries(st.sampled_from(fact.values), st.integers(1, 100), min_size=1)
    return st.one_of(st.just({"unknown": True}), value, value, value)


def possible(given_answers: dict[str, object]) -> bool:
    """Whether answers, each legal by itself, can stand together."""
    try:
        read_subject(HOUSE.base.facts, {"answers": given_answers})
    except SubjectProblem:
        return False
    return True


COUNTED = {"clubs_in_bag": (6, 30), "clubs_leaving": (0, 5), "airborne_of_six": (0, 6)}
answers = st.fixed_dictionaries(
    {},
    optional={
        fact.id: st.integers(*COUNTED[fact.id]) if fact.id in COUNTED else legal(fact) for fact in QUESTIONS
    },
).filter(possible)


@pytest.mark.parametrize(
    ("mixed", "says"),
    [
        ({"clubs_in_bag": 3, "clubs_leaving": 5}, "cannot leave a bag of 3"),
        ({"clubs_in_bag": 13.5}, "whole number"),
        ({"contact": ["centred", "scattered"]}, "both centred and scattered"),
    ],
)
def test_answers_that_cannot_stand_together_are_refused(mixed: dict[str, object], says: str) -> None:
    with pytest.raises(SubjectProblem, match=says):
        read_subject(HOUSE.base.facts, {"answers": mixed})


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(given_answers=answers)
def test_any_legal_answers_give_a_pair_or_say_why(given_answers: dict[str, object]) -> None:
    outcome = fit(HOUSE, read_subject(HOUSE.base.facts, {"answers": given_answers}))
    if outcome.picked is None:
        assert outcome.barred or (outcome.pairing is not None and outcome.pairing.standings)
        return
    longer, shorter = outcome.picked.longer, outcome.picked.shorter
    assert longer.spec.loft <= shorter.spec.loft + 1e-9
    for club in outcome.clubs:
        for decision in club.rung.decisions.values():
            if isinstance(decision, Amount):
                assert decision.start + sum(line.adjust for line in decision.lines) == decision.pick
            else:
                for standing in decision.standings:
                    assert sum(line.points for line in standing.lines) == standing.points
    assert outcome.pairing is not None
    for standing in outcome.pairing.standings:
        assert sum(line.points for line in standing.lines) == standing.points


@settings(max_examples=20, deadline=None)
@given(given_answers=answers, seed=st.randoms(use_true_random=False))
def test_the_order_of_answers_changes_nothing(given_answers: dict[str, object], seed: Any) -> None:
    shuffled = list(given_answers.items())
    seed.shuffle(shuffled)
    first = fit(HOUSE, read_subject(HOUSE.base.facts, {"answers": given_answers}))
    second = fit(HOUSE, read_subject(HOUSE.base.facts, {"answers": dict(shuffled)}))
    assert (first.picked and first.picked.id) == (second.picked and second.picked.id)
    assert first.questions.worth_asking == second.questions.worth_asking


def test_nothing_known_still_gives_an_answer_unsettled(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({"handicap": 20})
    assert outcome.picked is not None
    assert not outcome.settled
    assert outcome.questions.worth_asking


def test_everything_answered_leaves_nothing_to_ask(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({fact.id: {"unknown": True} for fact in QUESTIONS})
    assert outcome.questions.worth_asking == ()
    assert outcome.settled


@pytest.mark.parametrize("hand", ["right", "left"])
def test_every_build_reaches_its_target(fitted: Callable[..., Outcome], hand: str) -> None:
    """Within three quarters of a point, with pieces in stock, from a slow novice to a fast scratch player."""
    for mph in range(55, 120, 5):
        for handicap in (0, 5, 15, 25, 36):
            outcome = fitted({"hand": hand, "driver_speed": f"{mph} mph", "handicap": handicap})
            assert len(outcome.clubs) == 2
            for club in outcome.clubs:
                assert abs(club.left) <= 0.75, (mph, handicap, club.rung.id, club.left)


def test_the_bench_never_proposes_what_is_not_there(fitted: Callable[..., Outcome]) -> None:
    stock = {round(piece.mass, 6): piece.count for piece in HOUSE.shelf.pieces}
    for mph in (65, 75, 85, 95, 105, 115):
        for club in fitted({"driver_speed": f"{mph} mph"}).clubs:
            assert club.plan is not None
            used = [round(mass, 6) for pieces in club.plan.pieces.values() for mass in pieces]
            for mass in used:
                count = stock[mass]
                assert count is None or used.count(mass) <= count


def test_an_owned_club_is_a_rung_as_it_is_and_as_altered(fitted: Callable[..., Outcome]) -> None:
    club = {"name": "his 3-wood", "kind": "fairway", "loft": "15 deg", "length": "43.25 in", "can_add": "8 g"}
    outcome = fitted(
        {"driver_speed": "90 mph", "handicap": 22, "contact": ["heel", "scattered"]}, owned=[club]
    )
    states = {rung.state: rung for rung in outcome.rungs if rung.owned is not None}
    assert set(states) == {"as_it_is", "altered"}
    assert states["altered"].spec.length < states["as_it_is"].spec.length
    assert states["altered"].spec.balance < states["as_it_is"].spec.balance
    assert states["as_it_is"].spec.length == pytest.approx(parse("43.25 in", "m"))


def test_an_override_is_followed_and_priced(fitted: Callable[..., Outcome]) -> None:
    answers = {"driver_speed": "90 mph", "handicap": 15}
    plain = fitted(answers)
    other = next(s.candidate.id for s in plain.pairing.standings if s.candidate.id != plain.picked.id)  # type: ignore[union-attr]
    longer = "43.25 in"
    changed = fitted(
        answers,
        overrides={"pairing": {"value": other, "reason": "he loves it"}, "longer.length": {"value": longer}},
    )
    assert changed.picked is not None
    assert changed.picked.id == other
    assert changed.clubs[0].rung.spec.length == pytest.approx(parse(longer, "m"))
    prices = {one.decision: one for one in changed.overridden}
    assert prices["pairing"].points <= 0
    assert not prices["pairing"].stale
    assert prices["longer.length"].fitter == longer


@pytest.mark.parametrize(
    ("overrides", "says"),
    [
        ({"pairing": {"value": "moon+sun"}}, "no pair is called"),
        ({"longer.colour": {"value": "red"}}, "names no decision"),
        ({"longer.ports": {"value": "rear"}}, "is decided at the bench"),
        ({"pairing": {"value": "3-hybrid+5-hybrid"}}, "names 9 pairs; say which by its id: "),
        ({"longer.length": {"value": "3 in"}}, "is not within the rules' 37 in to"),
        ({"longer.length": {"value": "90 kg"}}, "is a mass"),
        ({"longer.shaft": {"value": "no such shaft"}}, "is not one of"),
    ],
)
def test_an_override_that_cannot_be_followed_says_so(
    fitted: Callable[..., Outcome], overrides: dict[str, Any], says: str
) -> None:
    with pytest.raises(OverrideProblem, match=says):
        fitted({"driver_speed": "90 mph"}, overrides=overrides)


def test_a_place_that_cannot_be_filled_says_why(house: House, fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({"hand": "left"})
    assert all(isinstance(one, Barred) and one.text for one in outcome.barred)
    assert outcome.picked is not None
    assert {rung.spec.head.hand for rung in outcome.rungs if rung.spec.head} == {"left"}


def test_one_answer_changed_back_changes_everything_back(fitted: Callable[..., Outcome]) -> None:
    first = fitted({"driver_speed": "90 mph"})
    fitted({"driver_speed": "110 mph"})
    again = fitted({"driver_speed": "90 mph"})
    assert first.picked is not None
    assert again.picked is not None
    assert first.picked.id == again.picked.id
    assert first.clubs[0].rung.flown == again.clubs[0].rung.flown


def _no_left_heads(house: House) -> House:
    """Return a house whose shop has nothing for a left-hander."""
    shelf = house.shelf
    return house.with_shelf(replace(shelf, heads=tuple(one for one in shelf.heads if one.hand == "right")))


def test_a_shop_without_a_head_for_the_hand_is_an_answer_with_its_reason(
    house: House, subject: Callable[..., Subject]
) -> None:
    outcome = fit(_no_left_heads(house), subject({"hand": "left", "driver_speed": "90 mph"}))
    assert (outcome.pairing, outcome.picked, outcome.clubs) == (None, None, ())
    assert "no left-hand head in stock" in outcome.barred[0].text
    assert {one.rule for one in outcome.barred} == {"no-heads-for-the-hand", "no-two-clubs"}


def test_two_clubs_of_his_own_pair_where_the_shop_has_none_for_his_hand(
    house: House, subject: Callable[..., Subject]
) -> None:
    own = [
        {"name": "strong", "kind": "fairway", "loft": "18 deg"},
        {"name": "weak", "kind": "hybrid", "loft": "23 deg"},
    ]
    outcome = fit(_no_left_heads(house), subject({"hand": "left", "driver_speed": "90 mph"}, owned=own))
    assert outcome.picked is not None
    assert outcome.picked.id == "own-strong+own-weak"
    assert [one.rule for one in outcome.barred] == ["no-heads-for-the-hand"]


def test_a_lone_head_that_pairs_with_nothing_says_so(house: House, subject: Callable[..., Subject]) -> None:
    shelf = replace(house.shelf, heads=(house.shelf.head("heath-15"),))
    outcome = fit(house.with_shelf(shelf), subject({"driver_speed": "90 mph"}))
    assert len(outcome.rungs) == 1
    assert [one.rule for one in outcome.barred] == ["no-two-clubs"]


@pytest.mark.parametrize(
    "overrides",
    [
        {"pairing": {"value": "fairway-99+hybrid-99"}},
        {"longer.head": {"value": "bracken-27"}},
        {"longer.shaft": {"value": next(s.id for s in HOUSE.shelf.shafts if s.made_for == "hybrid")}},
    ],
)
def test_an_override_the_answers_left_behind_is_kept_and_said(
    fitted: Callable[..., Outcome], overrides: dict[str, Any]
) -> None:
    answers = {"driver_speed": "105 mph", "handicap": 5, "type_preference": "fairway"}
    plain, left = fitted(answers), fitted(answers, overrides=overrides)
    assert plain.picked is not None
    assert left.picked is not None
    assert left.picked.id == plain.picked.id
    (one,) = left.overridden
    assert one.stale
    assert not one.followed
    assert one.fitter == next(iter(overrides.values()))["value"]
