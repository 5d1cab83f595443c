"""A quick road decides as the traced one does, and what is kept between roads changes nothing."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.engine import Amount
from rules.facts.answers import Answer
from rules.facts.reading import read_subject
from rules.fitting import House, Outcome, brief, fit, load_house
from rules.inquiry.invented import invented
from rules.inquiry.roads import Roads
from rules.ladder.rung import Rung

HOUSE = load_house()
numbers = st.integers(0, 10**6)


def session(number: int) -> dict[str, Any]:
    return {key: part for key, part in invented(number).items() if key in ("answers", "owned", "shots")}


def fresh() -> House:
    return House(HOUSE.base, HOUSE.shelf)


def told(outcome: Outcome) -> list[object]:
    """All that an outcome says, in words and numbers."""
    found: list[object] = [outcome.questions.worth_asking, sorted(outcome.questions.stakes.items())]
    assert outcome.pairing is not None
    for standing in outcome.pairing.standings:
        found.append((standing.candidate.id, standing.points, standing.low, standing.high))
    for rung in outcome.rungs:
        found.append((rung.id, rung.flown, rung.spec))
        for decision in rung.decisions.values():
            of = decision if isinstance(decision, Amount) else decision.pick
            assert of is not None
            lines = [(line.points, line.adjust, line.text(), line.teaches()) for line in of.lines]
            found.append((lines, decision.settled))
    found += [notice.text() for notice in outcome.notices]
    return found


@settings(max_examples=12, deadline=None)
@given(numbers, st.lists(numbers, min_size=1, max_size=3), st.data())
def test_what_is_kept_between_roads_changes_nothing(first: int, others: list[int], data: Any) -> None:
    """One answer after another is taken from other golfers; each road is as one in a house just opened."""
    kept, here = fresh(), session(first)
    fit(kept, read_subject(kept.base.facts, here))
    for number in others:
        answers = session(number)["answers"]
        id = data.draw(st.sampled_from(sorted(answers) or ["hand"]))
        here = {**here, "answers": {**here["answers"], id: answers.get(id, "right")}}
        subject = read_subject(kept.base.facts, here)
        assert told(fit(kept, subject)) == told(fit(fresh(), subject))


@settings(max_examples=10, deadline=None)
@given(numbers, st.lists(numbers, min_size=4, max_size=8), st.data())
def test_roads_that_are_kept_are_those_that_would_be_run(first: int, others: list[int], data: Any) -> None:
    """Answers come and go on one and the same run of roads; each is as the first road of a run of its own."""
    subject = read_subject(HOUSE.base.facts, session(first))
    outcome = fit(HOUSE, subject)
    density, pairs = outcome.golfer.density, tuple(outcome.pairs)
    kept, changed = Roads(fresh(), subject, density).telling(*pairs), dict[str, Answer | None]()
    for number in others:
        answers = read_subject(HOUSE.base.facts, session(number)).answers
        id = data.draw(st.sampled_from([*answers, "hand"]))
        changed = {**(changed if number % 2 else {}), id: answers.get(id)}
        assert kept.run(changed) == Roads(fresh(), subject, density).telling(*pairs).run(changed)


@settings(max_examples=30, deadline=None)
@given(numbers)
def test_a_quick_road_decides_as_the_traced_one_does(number: int) -> None:
    subject = read_subject(HOUSE.base.facts, session(number))
    full, quick = fit(HOUSE, subject), brief(HOUSE, subject)
    assert full.pairing is not None
    assert full.picked is not None
    assert quick.picked is not None
    traced = HOUSE.base.choose("pairing", full.golfer.views, [pair.candidate for pair in full.pairs.values()])
    assert traced.settled == full.pairing.settled
    for standing in traced.standings:
        assert quick.points[standing.candidate.id] == (None if standing.is_ruled_out else standing.points)
    for mine, other in (
        (quick.picked.longer, full.picked.longer),
        (quick.picked.shorter, full.picked.shorter),
    ):
        assert (mine.id, mine.spec, mine.flown) == (other.id, other.spec, other.flown)
    for rung in (one for one in full.rungs if one.owned is None):
        assert_as_traced(rung)
    directions = [club.direction.pick if club.direction else None for club in full.clubs]
    assert quick.ports == tuple(one and one.candidate.id for one in directions)


def assert_as_traced(rung: Rung) -> None:
    """What a rung is made of is what its ledgers come to."""
    for id, decision in rung.decisions.items():
        if isinstance(decision, Amount):
            assert getattr(rung.spec, id) == decision.pick_si
        elif id in ("head", "shaft", "grip"):
            assert decision.pick is not None
            assert getattr(rung.spec, id).id == decision.pick.candidate.id


def test_the_other_hand_gets_the_other_heads_from_a_house_that_has_served_the_first() -> None:
    """Nothing else about him tells the hands apart here, and the places on the ladder have the same names."""
    house, answers = fresh(), {"driver_speed": "90 mph", "handicap": 15, "miss": "both"}
    for hand in ("right", "left", "right"):
        outcome = fit(house, read_subject(house.base.facts, {"answers": {**answers, "hand": hand}}))
        assert {club.rung.spec.head.hand for club in outcome.clubs if club.rung.spec.head} == {hand}
