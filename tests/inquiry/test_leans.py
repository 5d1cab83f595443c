"""What a pick leans on: everything that is assumed, swung."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rules.fitting import House, Outcome, brief
from rules.golf.coefficients import LAWS
from rules.inquiry.leans import OTHER_LAWS, Lean, Leaning, ranked, read_assumptions
from rules.inquiry.roads import Roads

GOLFER = {"driver_speed": "92 mph", "handicap": 15, "hits_five_wood": "well", "longest_iron_loft": "27 deg"}


@pytest.fixture(scope="module")
def leaning(house: House) -> Leaning:
    from rules.facts.reading import read_subject
    from rules.fitting import fit

    outcome = fit(house, read_subject(house.base.facts, {"answers": GOLFER}))
    roads = Roads(house, outcome.subject, outcome.golfer.density)
    assert outcome.pairing is not None
    assert outcome.pairing.runner_up is not None
    return Leaning(outcome, roads, roads.run(), outcome.pairing.runner_up.candidate.id)


@pytest.fixture(scope="module")
def leans(leaning: Leaning) -> tuple[Lean, ...]:
    return ranked(tuple(leaning.all()))


def test_every_law_every_contested_rule_and_every_gap_of_the_shelf_are_swung(
    house: House, leans: tuple[Lean, ...]
) -> None:
    ids = {one.id for one in leans}
    contested = {rule.id for rule in house.base.rules.values() if rule.contested and rule.decision}
    gaps = {gap.id for gap in house.shelf.assumptions() if gap.span}
    assert len(OTHER_LAWS) == len(LAWS) - 1
    assert OTHER_LAWS.keys() <= ids
    assert contested <= ids
    assert gaps <= ids
    assert len(ids) == len(leans)


def test_an_assumption_left_out_changes_no_decision(house: House, leaning: Leaning) -> None:
    """Every assumption that the road does not read is swung all the same here, and nothing moves."""
    read = set(read_assumptions(leaning.outcome))
    rest = [one for id, one in house.base.assumptions.items() if id not in read and (one.range or one.values)]
    assert rest
    for assumption in rest:
        assert not leaning.of("assumption", assumption.id).changes, assumption.id


def test_a_swing_is_the_road_under_that_value(
    house: House, leaning: Leaning, leans: tuple[Lean, ...]
) -> None:
    """Swings that leave the clubs alone take them from the road as it is: that must show nowhere."""
    base, (pick, rival) = house.base, (leaning.mine.pick, leaning.rival)
    for lean in [one for one in leans if one.sort in ("assumption", "school")]:
        for swing in lean.swings:
            other = (
                base.with_other_view(lean.id)
                if swing.to is None
                else base.with_assumptions({lean.id: swing.to})
            )
            found = brief(House(other, house.shelf), leaning.outcome.subject, leaning.roads.sky)
            assert found.picked is not None
            assert ("pairing" in swing.changes) == (found.picked.id != pick), lean.id
            mine, theirs = (found.points.get(id or "") for id in (pick, rival))
            assert swing.margin == (None if mine is None or theirs is None else mine - theirs), lean.id


def test_what_changes_the_pick_comes_first(leans: tuple[Lean, ...]) -> None:
    order = [(not one.changes_pick, not one.changes) for one in leans]
    assert order == sorted(order)


def test_an_answer_that_was_given_leaves_its_fallback_unread(fitted: Callable[..., Outcome]) -> None:
    before, after = fitted(GOLFER), fitted({**GOLFER, "tempo": "smooth"})
    assert "usual-tempo" in read_assumptions(before)
    assert "usual-tempo" not in read_assumptions(after)
