"""What a road tells of the pairs that it is to tell of."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from rules.engine.language import Effect
from rules.facts.answers import Answer
from rules.fitting import Outcome, brief
from rules.inquiry.roads import Roads, with_answers

GOLFER = {"driver_speed": "92 mph", "handicap": 15, "turf_mark": "brush"}
OTHER = {"driver_speed": Answer(36.0)}


def counted(roads: Roads, answers: Mapping[str, Answer | None] | None = None) -> Mapping[str, int | None]:
    """Every pair's points, by a road run for this alone."""
    return brief(roads.house, with_answers(roads.subject, answers or {}), roads.sky).points


def test_the_points_of_some_pairs_are_told_and_those_of_no_other(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    roads = Roads(outcome.house, outcome.subject, outcome.golfer.density)
    first = roads.run()
    assert first.points == {}
    pick = first.pick
    assert pick is not None
    rivals = [id for id, points in counted(roads).items() if points is not None and id != pick]
    for rival in rivals[:2]:
        assert roads.telling(pick, rival, None) is roads
        for answers in (None, OTHER):
            found, all_of_them = roads.run(answers), counted(roads, answers)
            mine, theirs = all_of_them[pick], all_of_them[rival]
            assert found.points == {pick: mine, rival: theirs}
            assert mine is not None
            assert theirs is not None
            assert found.margin(pick, rival) == mine - theirs
    assert roads.telling().run().points == {}


def test_a_pair_that_a_road_does_not_know_or_forbids_leaves_no_margin(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(GOLFER)
    strict = outcome.house.base.with_rule_effect("hybrid-above-wood-is-odd", Effect("rule_out"))
    roads = Roads(outcome.house.with_base(strict), outcome.subject, outcome.golfer.density)
    pick = roads.run().pick
    assert pick is not None
    found = roads.telling(pick, "fairway-99+hybrid-99").run()
    assert set(found.points) == {pick}
    assert found.margin(pick, "fairway-99+hybrid-99") is None
    forbidden = next(id for id, points in counted(roads).items() if points is None)
    found = roads.telling(pick, forbidden).run()
    assert found.points[forbidden] is None
    assert found.margin(pick, forbidden) is None
