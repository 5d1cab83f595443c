"""Predictions and their marks: by the standing, by the distance, by what the trace says moved it."""

from __future__ import annotations

import pytest

from rules.engine.ledger import Amount, Choice
from rules.lessons.case import Case, LessonProblem, decided, ledger_of
from rules.lessons.drivers import CONTENDERS, drivers
from rules.lessons.marks import WRONG_COSTS, amount_earned, mark, overall
from rules.lessons.naming import behind, find_fact, nameable, told_behind
from rules.lessons.predict import MOST_REASONS, Prediction, asked, predicted


def choice(case: Case, decision: str) -> Choice:
    found = ledger_of(case, decision)
    assert isinstance(found, Choice)
    return found


def test_every_decision_of_a_case_can_be_asked_and_marked(cases: tuple[Case, ...]) -> None:
    for case in cases:
        for decision in decided(case):
            question, found = asked(case, decision), ledger_of(case, decision)
            right = (
                found.pick if isinstance(found, Amount) else choice(case, decision).standings[0].candidate.id
            )
            assert (question.kind == "amount") == isinstance(found, Amount)
            one = mark(case, Prediction(decision, right, tuple(drivers(case, decision).facts)))
            assert one.right, decision
            assert one.verdict == "sound"
            assert one.total == pytest.approx(1.0)


def test_the_order_of_candidates_tells_nothing(thin: Case) -> None:
    standings = choice(thin, "pairing").standings
    assert asked(thin, "pairing").options == tuple(
        one.candidate.id for one in sorted(standings, key=lambda one: one.place)
    )


def test_a_choice_earns_by_its_standing(thin: Case) -> None:
    """The runner-up trails by 0.711 points, the last of ten rivals in contention by 6.67."""
    found = choice(thin, "pairing")
    pick, second, last = (found.standings[i] for i in (0, 1, CONTENDERS))
    one = mark(thin, Prediction("pairing", second.candidate.id))
    assert one.gap == pick.points - second.points
    assert one.closeness == pytest.approx(1 - (pick.points - second.points) / (pick.points - last.points))
    assert mark(thin, Prediction("pairing", last.candidate.id)).closeness == 0
    assert mark(thin, Prediction("pairing", found.standings[-1].candidate.id)).closeness == 0


def test_a_candidate_that_is_ruled_out_earns_nothing(house: object, cases: tuple[Case, ...]) -> None:
    tried = 0
    for case in cases:
        for decision in decided(case):
            found = ledger_of(case, decision)
            out = [one for one in found.standings if one.is_ruled_out] if isinstance(found, Choice) else []
            for one in out[:1]:
                marked = mark(case, Prediction(decision, one.candidate.id))
                assert (marked.closeness, marked.gap) == (0, None)
                tried += 1
    assert tried


def test_an_amount_earns_by_its_distance_in_materialities(thin: Case) -> None:
    """Length is decided to a quarter of an inch: half an inch off is two of them, 1 1/2 in are six."""
    found = ledger_of(thin, "longer.length")
    assert isinstance(found, Amount)
    assert found.decision.materiality == 250
    earned = [
        mark(thin, Prediction("longer.length", found.pick + off)).closeness for off in (0, 250, 500, 1500)
    ]
    assert earned == pytest.approx([1.0, 1.0, 0.8, 0.0])
    assert mark(thin, Prediction("longer.length", found.pick - 250)).right
    assert not mark(thin, Prediction("longer.length", found.pick - 500)).right
    assert amount_earned(100.0) == 0


def test_reasons_earn_what_they_carried_and_wrong_ones_cost(thin: Case) -> None:
    pick = choice(thin, "pairing").standings[0].candidate.id
    moved = drivers(thin, "pairing")
    heaviest, *_ = moved.facts
    idle = next(id for id in thin.base.facts if id not in moved.facts and id not in moved.stands_for)
    alone = mark(thin, Prediction("pairing", pick, (heaviest,)))
    spoiled = mark(thin, Prediction("pairing", pick, (heaviest, idle)))
    assert alone.carried[heaviest] == pytest.approx(moved.facts[heaviest] / moved.total)
    assert spoiled.wrong == (idle,)
    assert spoiled.reasons == pytest.approx(max(0.0, alone.reasons - WRONG_COSTS))
    assert mark(thin, Prediction("pairing", pick)).reasons == 0


def test_luck_is_told_from_judgement(thin: Case) -> None:
    found = choice(thin, "pairing")
    first, second, last = (found.standings[i].candidate.id for i in (0, 1, -1))
    reasons = tuple(drivers(thin, "pairing").facts)[:MOST_REASONS]
    verdicts = {
        (first, reasons): "sound", (first, ()): "luck", (second, reasons): "judgement",
        (second, ()): "near_guess", (last, reasons): "misjudged", (last, ()): "astray",
    }  # fmt: skip
    for (candidate, named), verdict in verdicts.items():
        assert mark(thin, Prediction("pairing", candidate, named)).verdict == verdict
    judged, lucky = (mark(thin, Prediction("pairing", *one)) for one in ((second, reasons), (first, ())))
    assert judged.total > lucky.total  # near for the right reasons is worth more than right for none


def test_where_nothing_moved_naming_nothing_is_right(thin: Case) -> None:
    found = ledger_of(thin, "longer.lie")
    assert isinstance(found, Amount)
    assert not drivers(thin, "longer.lie").facts
    assert mark(thin, Prediction("longer.lie", found.pick)).total == pytest.approx(1.0)
    assert mark(thin, Prediction("longer.lie", found.pick, ("tempo",))).reasons < 1


def test_a_rule_that_gives_all_alike_moves_nothing(thin: Case) -> None:
    found, moved = choice(thin, "pairing"), drivers(thin, "pairing")
    rivals = [one for one in found.standings if one is not found.pick][:CONTENDERS]
    given = [
        {line.rule.id: line.points for line in one.lines if line.rule}
        for one in (found.standings[0], *rivals)
    ]
    alike = {id for id in given[0] if len({one.get(id) for one in given}) == 1}
    assert alike, "the case holds no such rule; choose another"
    assert not alike & {one.rule.id for one in moved.rules}


def test_the_questions_behind_a_fact_are_those_it_waits_on(thin: Case) -> None:
    assert behind(thin.house)["skill"] == {"handicap", "typical_score"}
    assert told_behind(thin, "skill") == ("handicap",)
    assert "lies" in behind(thin.house)["longer_usable"]
    assert drivers(thin, "longer.length").share(["handicap"]) == pytest.approx(
        drivers(thin, "longer.length").share(["skill"])
    )


def test_predictions_are_read_as_people_type_them(thin: Case) -> None:
    assert predicted(thin, "longer.length", "41 1/2 in").value == 41_500
    assert predicted(thin, "longer.length", "1.05 m").value == 41_339
    assert predicted(thin, "longer.balance", "D1").value == 1_000
    pair = choice(thin, "pairing").standings[0].candidate.id
    assert predicted(thin, "pairing", pair.replace("+", " + ").upper()).value == pair
    named = predicted(thin, "longer.length", "41 in", ("playing standard", "confidence over a fairway", "1"))
    assert named.reasons == ("skill", "confidence_fairway")
    first = asked(thin, "longer.shaft").options[0]
    assert predicted(thin, "longer.shaft", "1").value == first


@pytest.mark.parametrize(
    ("decision", "value", "reasons", "told"),
    [
        ("longer.length", "85 mph", (), "a length is wanted"),
        ("longer.length", "60 in", (), "37 to 43.5 in"),
        ("longer.shaft", "nonsense", (), "is no candidate for the shaft"),
        ("pairing", "a spoon", (), "no pair is called"),
        ("longer.length", "41 in", ("handycap",), "did you mean 'handicap'?"),
        ("longer.length", "41 in", tuple("1234567"), "name the 6 that matter most"),
    ],
)
def test_what_cannot_be_read_is_told_in_a_sentence(
    thin: Case, decision: str, value: str, reasons: tuple[str, ...], told: str
) -> None:
    with pytest.raises(LessonProblem) as found:
        predicted(thin, decision, value, reasons)
    assert told in str(found.value)
    assert "\n" not in str(found.value)


def test_facts_are_found_by_a_beginning_that_fits_one_alone(thin: Case) -> None:
    base = thin.base
    assert find_fact(base, "wrist") == "wrist_to_floor"
    assert find_fact(base, "Confidence over a hybrid") == "confidence_hybrid"
    with pytest.raises(LessonProblem, match="is no fact"):
        find_fact(base, "confidence")
    assert set(nameable(thin, "longer.grip")) <= set(base.facts)


def test_marks_of_a_whole_case_are_their_average(thin: Case) -> None:
    marks = [mark(thin, Prediction("longer.lie", value)) for value in (57_500, 66_000)]
    assert overall(marks) == pytest.approx((marks[0].total + marks[1].total) / 2)
    assert overall(()) == 0
