"""Draws over everything that is not known exactly, and what they come to."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import islice

import pytest

from rules.fitting import House, Outcome, fit
from rules.inquiry.draws import COPIES, draws, spreads
from rules.inquiry.roads import Superseded
from rules.inquiry.sure import Sure, standard_error, surely

GOLFER = {"driver_speed": {"value": "92 mph", "how": "measured"}, "handicap": 15, "hits_five_wood": "well"}


def sure(outcome: Outcome, pick: str, count: int) -> Sure:
    """How sure a pick is after so many draws."""
    *_, last = surely(outcome, pick, count, count)
    return last


def test_draws_are_the_same_each_time_and_go_on_where_they_stopped(fitted: Callable[..., Outcome]) -> None:
    over = spreads(fitted(GOLFER))
    first = list(islice(draws(over), 40))
    assert first == list(islice(draws(over), 40))
    assert first[24:] == list(islice(draws(over, 24), 16))


def test_draws_fill_every_stretch_of_a_number_evenly(fitted: Callable[..., Outcome]) -> None:
    """Low discrepancy: in 256 draws every eighth of a normal distribution gets about its 32."""
    over = spreads(fitted(GOLFER))
    speed = next(one for one in over if one.id == "driver_head_speed")
    found = [draw.shift["driver_head_speed"] / speed.known.spread for draw in islice(draws(over), 256)]
    shares = [0.5 * (1 + math.erf(x / math.sqrt(2))) for x in found]
    counts = [sum(k / 8 <= share < (k + 1) / 8 for share in shares) for k in range(8)]
    assert max(counts) - min(counts) <= 12
    assert abs(sum(found) / len(found)) < 0.05  # independent draws would be 0.06 off as a rule
    assert sum(x * x for x in found) / len(found) == pytest.approx(1, abs=0.1)


def test_open_questions_are_drawn_as_answers_and_what_was_said_as_numbers(
    fitted: Callable[..., Outcome],
) -> None:
    outcome = fitted(GOLFER)
    over = {one.id: one for one in spreads(outcome)}
    assert over["lies"].open
    assert over["turf_mark"].open
    assert not over["handicap"].open
    assert "skill" not in over
    assert not {"driver_speed", "driver_carry", "seven_iron_carry", "attack_angle"} & over.keys()
    assert all(one.id in outcome.questions.worth_asking for one in over.values() if one.open)


def test_sure_counts_shares_and_is_repeatable(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    assert outcome.picked is not None
    found = sure(outcome, outcome.picked.id, 64)
    assert found == sure(outcome, outcome.picked.id, 64)
    assert 0 <= found.share <= found.near <= 1
    assert found.share + sum(one.share for one in found.others) <= 1 + 1e-9
    assert found.error > 0
    assert outcome.picked.id not in {one.pair for one in found.others}


def test_the_first_figure_comes_early_and_later_ones_go_on_from_it(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    assert outcome.picked is not None
    figures = list(surely(outcome, outcome.picked.id, 16, 64))
    assert [one.tried for one in figures] == [16, 32, 64]
    assert figures[-1] == sure(outcome, outcome.picked.id, 64)


def test_the_standard_error_follows_the_copies_and_never_calls_a_clean_sweep_certain() -> None:
    assert standard_error([True] * 64) == pytest.approx(1 / 66, rel=0.05)
    even = [index // COPIES % 2 == 0 for index in range(64)]
    split = [index % COPIES < COPIES // 2 for index in range(64)]
    assert standard_error(even) < 0.05 < 0.1 < standard_error(split)


def test_a_better_measured_golfer_is_surer(house: House, fitted: Callable[..., Outcome]) -> None:
    """The same golfer with every spread told as a guess, and told as measured: not less sure by much."""
    rough = {**GOLFER, "driver_speed": {"value": "92 mph", "how": "estimated"}}
    rough["handicap"] = {"value": 15, "how": "estimated"}
    fine = {**GOLFER, "handicap": {"value": 15, "how": "measured"}}
    shares = []
    for answers in (rough, fine):
        outcome = fit(house, fitted(answers).subject)
        assert outcome.picked is not None
        spread = {one.id: one.known.spread for one in spreads(outcome)}
        shares.append(spread["driver_head_speed"] + spread["handicap"])
    assert shares[1] < shares[0]


def test_a_question_nobody_waits_for_any_more_is_dropped(fitted: Callable[..., Outcome]) -> None:
    asked = iter((False, False, True))
    with pytest.raises(Superseded):
        next(surely(fitted(GOLFER), "any", 8, 8, lambda: next(asked)))
    assert next(asked, None) is None  # it was told so at the third draw, and no further was tried
