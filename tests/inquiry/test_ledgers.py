"""Why not, nearly: read off the trace, adding up to the margin."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rules.engine.ledger import Amount, Choice
from rules.facts.reading import read_subject
from rules.fitting import House, Outcome, fit
from rules.inquiry.invented import invented
from rules.inquiry.ledgers import InquiryProblem, ledger, nearly, why_not, why_not_amount

GOLFER = {"driver_speed": "92 mph", "handicap": 15, "hits_five_wood": "well", "longest_iron_loft": "27 deg"}


@pytest.mark.parametrize("number", [1, 2, 5, 8, 13, 21])
def test_what_separates_the_pick_from_any_rival_adds_up_to_the_margin(house: House, number: int) -> None:
    data = {key: part for key, part in invented(number).items() if key in ("answers", "owned", "shots")}
    outcome = fit(house, read_subject(house.base.facts, data))
    assert outcome.pairing is not None
    assert outcome.picked is not None
    mine = outcome.pairing.standing(outcome.picked.id)
    assert mine is not None
    for standing in outcome.pairing.standings[1::9]:
        found = why_not(outcome, "pairing", standing.candidate.id)
        assert sum(one.apart for one in found.differences) == found.margin == mine.points - standing.points
        assert found.same + sum(one.mine.points for one in found.differences if one.mine) == mine.points
        sizes = [abs(one.apart) for one in found.differences]
        assert sizes == sorted(sizes, reverse=True)
        assert all(one.apart for one in found.differences)


def test_a_rival_that_is_ruled_out_says_by_what(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    assert outcome.pairing is not None
    out = [standing for standing in outcome.pairing.standings if standing.is_ruled_out]
    for standing in out[:3]:
        found = why_not(outcome, "pairing", standing.candidate.id)
        assert [line.rule for line in found.ruled_out] == [line.rule for line in standing.ruled_out]


def test_a_rival_may_be_told_by_what_the_trade_calls_it(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    assert outcome.pairing is not None
    names: dict[str, list[str]] = {}
    for pair in outcome.pairs.values():
        names.setdefault(f"{pair.longer.label}+{pair.shorter.label}", []).append(pair.id)
    alone = next(name for name, ids in names.items() if len(ids) == 1)
    assert why_not(outcome, "pairing", alone).rival == names[alone][0]


def test_lines_against_another_amount_pull_away_from_it(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted({**GOLFER, "contact": ["heel", "scattered"]})
    found = ledger(outcome, "longer.length")
    assert isinstance(found, Amount)
    why = why_not_amount(outcome, "longer.length", "43.5 in")
    assert why.short == 43500 - found.pick > 0
    assert why.against
    assert all(line.adjust < 0 for line in why.against)
    assert all(line.adjust > 0 for line in why.toward)
    moved = sum(line.adjust for line in (*why.against, *why.toward))
    assert found.start + moved == found.pick


def test_a_rule_nearly_spoke_when_one_comparison_alone_failed(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    for decision in ("pairing", "longer.length"):
        near = nearly(outcome, decision)
        assert near
        assert [one.away for one in near] == sorted(one.away for one in near)
        for one in near:
            assert one.blocker.fact == one.fact
            assert one.blocker.best in ("fails", "holds")


def test_the_condition_that_was_short_is_all_that_was_missing(fitted: Callable[..., Outcome]) -> None:
    """`nearly` says that abrupt would do; and so it does."""
    before = fitted({**GOLFER, "tempo": "smooth"})
    near = {one.rule.id: one for one in nearly(before, "longer.length", most=40)}
    rule = next(id for id, one in near.items() if one.fact == "tempo")
    after = ledger(fitted({**GOLFER, "tempo": "abrupt"}), "longer.length")
    assert isinstance(after, Amount)
    assert rule in {line.rule.id for line in after.lines if line.rule is not None}


@pytest.mark.parametrize(
    ("decision", "instead", "says"),
    [
        ("longer.colour", "red", "there is no decision"),
        ("pairing", "moon+sun", "no pair is called"),
        ("longer.shaft", "no-such", "was no candidate"),
        ("longer.length", "42 in", "is an amount"),
    ],
)
def test_what_there_is_not_is_said(
    fitted: Callable[..., Outcome], decision: str, instead: str, says: str
) -> None:
    with pytest.raises(InquiryProblem, match=says):
        why_not(fitted(GOLFER), decision, instead)


def test_a_head_of_another_place_is_told_what_became_of_it(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    assert outcome.picked is not None
    rungs = [r for r in outcome.rungs if r.id not in outcome.picked.id.split("+") and r.spec.head]
    for rung in rungs:
        made = rung.decisions["head"]
        assert isinstance(made, Choice)
        assert rung.spec.head is not None
        with pytest.raises(InquiryProblem, match=f"{rung.id}, which it took, whose best.*{rung.id}"):
            why_not(outcome, "longer.head", rung.spec.head.id)
        for other in (one.candidate.id for one in made.standings[1:]):
            with pytest.raises(InquiryProblem, match=f"{rung.id}, where {rung.spec.head.id} was taken"):
                why_not(outcome, "longer.head", other)
    assert rungs


def test_an_amount_that_cannot_be_read_is_said(fitted: Callable[..., Outcome]) -> None:
    with pytest.raises(InquiryProblem, match="mass"):
        why_not_amount(fitted(GOLFER), "longer.length", "90 kg")
    with pytest.raises(InquiryProblem, match="no amount was decided"):
        why_not_amount(fitted(GOLFER), "pairing", "42 in")
