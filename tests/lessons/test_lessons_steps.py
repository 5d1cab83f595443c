"""The walk through the trace: one rule at a time, forward and back, and its ledger adds up."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules.engine.ledger import Amount
from rules.facts.subject import Override
from rules.inquiry.ledgers import InquiryProblem
from rules.lessons.case import Case, LessonProblem, decided, ledger_of, open_case
from rules.lessons.steps import SHOWN, walk, whole_walk


def test_the_running_ledger_ends_at_what_was_decided(cases: tuple[Case, ...]) -> None:
    for case in cases:
        for step in whole_walk(case).steps:
            if step.number != step.of:
                continue
            found = ledger_of(case, step.decision)
            if isinstance(found, Amount):
                assert step.did[0].running == found.pick
                continue
            sums = {did.candidate: did.running for did in step.did}
            assert sums == {
                one.candidate.id: one.points for one in found.standings if one.candidate.id in sums
            }
            assert step.leader == found.standings[0].candidate.id
            assert len(sums) == min(SHOWN, len(found.standings))


def test_every_rule_that_spoke_is_walked_past_once(thin: Case) -> None:
    found = ledger_of(thin, "longer.length")
    assert isinstance(found, Amount)
    spoke = [line.rule.id for line in found.lines if line.rule]
    steps = walk(thin, "longer.length").steps
    assert [step.rule.id for step in steps if step.rule] == spoke
    assert steps[0].kind == "start"


def test_a_step_says_what_it_read_and_on_whose_word(cases: tuple[Case, ...]) -> None:
    contested = 0
    for case in cases:
        for step in whole_walk(case).steps:
            assert step.text
            if step.rule is not None:
                assert {read.fact for read in step.reads} >= step.rule.reads
                assert step.teaches
                assert step.source is not None
            if step.contested is not None:
                assert step.contested.other
                assert step.contested.leans
                contested += 1
    assert contested, "no contested rule was walked past"


def test_forward_and_back_meet_again(thin: Case) -> None:
    found = walk(thin, "pairing")
    on = found.forward().forward()
    assert (on.at, on.back().back()) == (2, found)
    assert found.back() == found
    last = found.to(10_000)
    assert last.done
    assert last.forward() == last
    assert last.to(-5).at == 0


def test_the_whole_walk_passes_every_decision_in_teaching_order(thin: Case) -> None:
    found = whole_walk(thin)
    walked = tuple(dict.fromkeys(step.decision for step in found.steps))
    assert walked == tuple(id for id in decided(thin) if id in walked)
    assert walked[0] == "pairing"
    assert found.next_decision().step.decision == walked[1]
    assert found.to(len(found.steps)).next_decision().done


def test_where_nothing_is_decided_there_is_no_walk(thin: Case) -> None:
    with pytest.raises(InquiryProblem, match="no decision"):
        walk(thin, "longer.colour")
    bare = replace(thin.house.shelf, heads=())
    empty = open_case(thin.house.with_shelf(bare), "bare", thin.subject)
    assert decided(empty) == ()
    with pytest.raises(LessonProblem, match="no pair is possible"):
        whole_walk(empty)


def test_a_club_he_keeps_has_no_ledger(cases: tuple[Case, ...]) -> None:
    own = next(case for case in cases if any(club.rung.owned for club in case.outcome.clubs))
    role = next(club.role for club in own.outcome.clubs if club.rung.owned)
    assert f"{role}.head" not in decided(own)
    with pytest.raises(LessonProblem, match="nothing was decided"):
        walk(own, f"{role}.head")


def test_overrides_are_left_aside(thin: Case) -> None:
    pinned = replace(thin.subject, overrides={"longer.length": Override("43 in", "he likes it")})
    again = open_case(thin.house, thin.id, pinned)
    assert [step.did for step in walk(again, "longer.length").steps] == [
        step.did for step in walk(thin, "longer.length").steps
    ]
