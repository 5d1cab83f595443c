"""The map of the rule base, the influence of a fact, and flips that are guessed."""

from __future__ import annotations

import pytest

from rules.engine.language import atoms
from rules.facts.answers import Answer
from rules.facts.subject import Subject
from rules.fitting import brief
from rules.house import House
from rules.inquiry.roads import Roads, with_answers
from rules.inquiry.sky import Sky
from rules.lessons.case import Case, LessonProblem
from rules.lessons.flipping import FLIPS_WORTH, flip_task, mark_flip
from rules.lessons.influence import influence
from rules.lessons.map import fact_map, rule_map
from rules.lessons.naming import behind, whole


def test_the_map_holds_every_rule_that_reads_a_question(house: House) -> None:
    """Counted once more from the conditions and ramps of all rules."""
    base = house.base
    for one in rule_map(house):
        reached = {one.fact} | {whole(id) for id, waits in behind(house).items() if one.fact in waits}
        readers = {
            rule.id
            for rule in base.rules.values()
            if reached & {whole(atom.fact) for atom in atoms(rule.when)}
            or (rule.effect.ramp is not None and whole(rule.effect.ramp.fact) in reached)
        }
        assert {reader.rule.id for reader in one.readers} == readers
        assert set(one.decisions) >= {base.rules[id].decision for id in readers} - {None}


def test_tempo_reaches_balance_length_shaft_and_tip(house: House) -> None:
    one = fact_map(house, "tempo")
    assert set(one.decisions) == {"balance", "length", "shaft", "tip"}
    assert "flex_step" in one.derived
    direct = [reader for reader in one.readers if reader.through == "tempo"]
    assert {reader.rule.id for reader in direct} >= {
        "abrupt-start-shortens",
        "smooth-start-wants-less-head",
    }
    assert {reader.decision for reader in one.on("tip")} == {"tip"}


def test_a_part_of_shares_is_mapped_as_its_whole(house: House) -> None:
    assert fact_map(house, "lies.tee") == fact_map(house, "lies")


def test_influence_counts_what_the_road_itself_decides(cases: tuple[Case, ...]) -> None:
    told: list[tuple[int, int]] = []
    found = influence(cases, "tempo", lambda done, of: told.append((done, of)))
    assert told[-1] == (len(cases), len(cases))
    for case, one in zip(cases, found.cases, strict=True):
        roads = Roads(case.house, case.subject, case.outcome.golfer.density)
        now = case.outcome.golfer.known["tempo"].value
        others = [word for word in ("smooth", "medium", "abrupt") if word != now]
        mine = roads.run()
        assert one.tried == len(others)
        assert one.picks == sum(roads.run({"tempo": Answer(word)}).pick != mine.pick for word in others)
    assert found.picks == sum(one.picks > 0 for one in found.cases)
    assert set(found.parts) <= {"balance", "length", "shaft", "tip", "ports", "head", "grip", "lie"}


def test_influence_tells_how_far_the_margin_over_the_runner_up_moves(thin: Case) -> None:
    case = thin
    assert case.outcome.pairing is not None
    assert case.outcome.pairing.runner_up is not None
    pick, rival = case.outcome.pairing.pick, case.outcome.pairing.runner_up.candidate.id
    assert pick is not None

    def margin(subject: Subject) -> int:
        points = brief(case.house, subject, Sky(case.outcome.golfer.density)).points
        return (points[pick.candidate.id] or 0) - (points[rival] or 0)

    fact = case.base.facts["handicap"]
    low, high = fact.plausible if isinstance(fact.plausible, tuple) else fact.range
    now = margin(case.subject)
    moved = [
        abs(margin(with_answers(case.subject, {"handicap": Answer(value)})) - now)
        for value in (low, (low + high) / 2, high)
    ]
    assert influence((case,), "handicap").points == max(moved) > 0


def test_influence_tries_the_ends_and_the_middle_of_a_number_and_each_part_of_shares(
    cases: tuple[Case, ...],
) -> None:
    case = cases[0]
    roads = Roads(case.house, case.subject, case.outcome.golfer.density)
    mine = roads.run()
    fact = case.base.facts["handicap"]
    low, high = fact.plausible if isinstance(fact.plausible, tuple) else fact.range
    (one,) = influence((case,), "handicap").cases
    others = [value for value in (low, (low + high) / 2, high) if value != 18]
    assert one.tried == len(others)
    assert one.picks == sum(roads.run({"handicap": Answer(value)}).pick != mine.pick for value in others)
    (lies,) = influence((case,), "lies").cases
    assert 0 < lies.tried <= len(case.base.facts["lies"].values)
    (contact,) = influence((case,), "contact").cases
    assert contact.tried > 2


def test_what_no_rule_reads_moves_nothing(cases: tuple[Case, ...]) -> None:
    found = influence(cases[:2], "local_length_limit")
    assert (found.picks, found.parts, found.untouched, found.points) == (0, {}, 2, 0)


def test_a_flip_guessed_to_the_point_earns_all_and_one_beyond_it_half_or_more(thin: Case) -> None:
    nearest = mark_flip(thin, "driver_speed", "none").nearest
    assert nearest is not None
    assert isinstance(nearest.to, float)
    at = mark_flip(thin, "driver_speed", f"{nearest.to} m/s")
    beyond = mark_flip(
        thin, "driver_speed", f"{nearest.to * (1.15 if nearest.direction == 'up' else 0.85)} m/s"
    )
    assert at.flips
    assert at.earned == pytest.approx(1.0)
    if beyond.flips:
        assert FLIPS_WORTH <= beyond.earned < at.earned
    stays = mark_flip(thin, "driver_speed", "88 mph")
    assert (stays.flips, stays.earned) == (False, 0)


def test_none_is_right_only_where_there_is_none(thin: Case) -> None:
    marks = {fact: mark_flip(thin, fact, "none") for fact in ("driver_speed", "tempo", "driver_loft")}
    for one in marks.values():
        assert one.earned == float(not one.others)
    assert marks["driver_speed"].earned == 0


def test_flips_to_guess_are_answered_and_repeatable(thin: Case) -> None:
    facts = [flip_task(thin, seed) for seed in (1, 3)]
    assert facts == [flip_task(thin, seed) for seed in (1, 3)]
    assert set(facts) <= set(thin.subject.answers)


@pytest.mark.parametrize(("fact", "text"), [("driver_speed", "red"), ("lies", "none"), ("nothing", "1")])
def test_what_cannot_be_guessed_is_told(thin: Case, fact: str, text: str) -> None:
    with pytest.raises(LessonProblem):
        mark_flip(thin, fact, text)
