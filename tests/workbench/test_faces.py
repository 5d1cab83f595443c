"""A face over the golfer's lies, and the head that the tightest one asks for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from rules.facts.lies import LIES
from rules.fitting import Outcome
from rules.golf.contact import height_up_face
from rules.workbench.faces import FaceTable, face_table


def table(outcome: Outcome, role: int = 0) -> FaceTable:
    house = outcome.house
    return face_table(house.base, house.shelf, outcome.golfer, outcome.clubs[role].rung)


def test_every_lie_is_told_tightest_first(woods: Outcome) -> None:
    found = table(woods)
    assert {one.name for one in found.lies} == set(LIES)
    assert [one.on.met for one in found.lies] == sorted(one.on.met for one in found.lies)
    assert sum(one.share for one in found.lies) == pytest.approx(1.0)
    assert found.tightest.name == woods.golfer.lies.tightest.name == "tight_fairway"


def test_the_loss_is_what_the_decision_on_the_head_weighed(woods: Outcome) -> None:
    """One and the same number in the table and in the ledger's fact, at the mass that the ledger takes."""
    for role, club in enumerate(woods.clubs):
        found = table(woods, role)
        mine = next(one for one in found.heads if one.head == club.rung.spec.head)
        assert mine.loss == pytest.approx(club.rung.views["face_loss"].best, abs=1e-9)
        assert mine.tight.above == pytest.approx(club.rung.views["tight_meeting"].best, abs=1e-9)
        assert found.loss == pytest.approx(mine.loss, rel=0.02)


def test_the_tightest_lie_asks_for_a_line_where_the_ball_is_met(woods: Outcome) -> None:
    found, golfer = table(woods), woods.golfer
    met = height_up_face(
        woods.clubs[0].rung.spec.loft, golfer.lies.tightest.middle, golfer.number("attack")
    )  # fmt: skip
    assert found.asked == pytest.approx(met + golfer.pattern.mean_high)
    assert found.centred == pytest.approx(2 * met)
    # common practice: a face of 30 to 32 mm is met at its centre off bare turf, half a millimetre either way
    assert 0.0295 <= found.centred <= 0.0335
    off = [abs(one.tight.above) for one in found.heads]
    assert off == sorted(off)


def test_a_tee_costs_more_on_a_low_face_than_bare_turf(woods: Outcome) -> None:
    found = table(woods)
    assert found.lie("tee").on.above > found.lie("rough").on.above > found.tightest.on.above
    assert found.lie("tee").on.lost > found.tightest.on.lost
    # over all lies is within what the single lies that he meets lose
    met = [one.on.lost for one in found.lies if one.share]
    assert min(met) <= found.loss <= max(met)


def test_his_own_club_stands_alone(
    run: Callable[..., Outcome], two_woods: Mapping[str, Any], his_own: Mapping[str, Any]
) -> None:
    outcome = run(two_woods, owned=[dict(his_own)])
    rung = next(one for one in outcome.rungs if one.state == "as_it_is")
    found = face_table(outcome.house.base, outcome.house.shelf, outcome.golfer, rung)
    assert found.heads == ()
    assert not found.known
