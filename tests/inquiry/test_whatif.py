"""Two roads side by side: only what differs, and all of it."""

from __future__ import annotations

import sys
from collections.abc import Callable

import pytest

from rules.facts.answers import Answer
from rules.fitting import House, Outcome, fit
from rules.inquiry.enough import Enough
from rules.inquiry.roads import never, with_answers
from rules.inquiry.study import Study, _Beside, study
from rules.inquiry.whatif import taken, whatif

GOLFER = {"driver_speed": "92 mph", "handicap": 15, "hits_five_wood": "well", "longest_iron_loft": "27 deg"}


def test_nothing_changed_differs_in_nothing(house: House, fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    found = whatif(house, outcome.subject, {"handicap": outcome.subject.answers["handicap"]})
    for part in (found.decisions, found.facts, found.gained, found.lost):
        assert len(part) == 0
    assert all(old == new for old, new in found.points.values())


def test_what_is_changed_comes_first_and_what_follows_after(
    house: House, fitted: Callable[..., Outcome]
) -> None:
    outcome = fitted(GOLFER)
    found = whatif(house, outcome.subject, {"driver_speed": Answer(49.0, "measured")})
    moved = [one.fact for one in found.facts]
    assert moved[0] == "driver_speed"
    assert "driver_head_speed" in moved
    assert "handicap" not in moved
    before, after = (
        taken(outcome),
        taken(fit(house, with_answers(outcome.subject, {"driver_speed": Answer(49.0)}))),
    )
    assert {one.decision for one in found.decisions} <= {id for id in before if before[id] != after[id]}
    assert found.decisions


def test_a_caution_that_comes_up_is_told(house: House, fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({**GOLFER, "pain": "no"})
    found = whatif(house, outcome.subject, {"pain": Answer("yes")})
    assert found.gained
    again = whatif(house, found.after.subject, {"pain": Answer("no")})
    assert set(again.lost) == set(found.gained)


def test_an_answer_may_be_taken_away(house: House, fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    found = whatif(house, outcome.subject, {"handicap": None})
    assert "handicap" not in found.after.subject.answers
    assert found.after.golfer.views["handicap"].status == "open"


def test_a_study_grows_part_by_part_and_ends_whole(fitted: Callable[..., Outcome]) -> None:
    grown: list[Study] = []
    found = study(fitted({**GOLFER, "turf_mark": "brush"}), grown.append)
    assert found is not None
    assert found == grown[-1]
    assert found.complete
    assert grown[0].sure is not None
    assert grown[0].flips is None
    assert [one.complete for one in grown] == [False] * (len(grown) - 1) + [True]
    assert found.flips
    assert found.leans
    assert found.steady is not None


def test_two_processes_find_what_one_does(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({**GOLFER, "turf_mark": "brush"})
    assert outcome.pairing is not None
    assert outcome.pairing.runner_up is not None
    rival = outcome.pairing.runner_up.candidate.id
    apart, here = (_Beside(outcome, rival, never, both_cores) for both_cores in (True, False))
    for one in (apart, here):
        one.settle(True)
    try:
        for _ in range(3):
            assert apart.next() == here.next()
        assert apart._here is None, "the other process found all of it"
    finally:
        apart.stop()


def test_what_a_process_ended_from_outside_left_undone_is_done_here(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({**GOLFER, "turf_mark": "brush"})
    apart = _Beside(outcome, None, never, both_cores=True)
    flips = apart.next()
    assert apart._aside is not None
    apart._aside._process.kill()
    apart.settle(False)
    assert apart.next() is None
    assert isinstance(apart.next(), Enough)
    apart.stop()
    assert flips


def test_where_no_process_can_be_begun_all_is_found_here(
    fitted: Callable[..., Outcome], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "executable", "")
    found = study(fitted({**GOLFER, "turf_mark": "brush"}), both_cores=True)
    assert found is not None
    assert found.complete
