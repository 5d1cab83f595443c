"""Exercises: the same again from their id, and every key worked out a second time by other means."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import combinations

import pytest

from rules.engine.language import Fact
from rules.engine.ledger import Choice
from rules.facts.answers import UNKNOWN, Answer
from rules.golf.speed import carry_ceiling
from rules.inquiry.roads import Roads
from rules.inquiry.values import options
from rules.ladder.flown import flown
from rules.lessons.case import Case, LessonProblem, ledger_of
from rules.lessons.drivers import CONTENDERS
from rules.lessons.exercises import KINDS, Exercise, Figure, Name, answered, make, remake
from rules.lessons.naming import whole

OUNCE, INCH, YARD = 0.028349523125, 0.0254, 0.9144
SEEDS = range(6)


def figure(exercise: Exercise, key: str) -> float:
    found = exercise.values[key]
    assert isinstance(found, Figure)
    return found.value


def named(exercise: Exercise, key: str) -> str:
    found = exercise.values[key]
    assert isinstance(found, Name)
    return found.id


def of(exercise: Exercise, cases: tuple[Case, ...]) -> Case:
    return next(case for case in cases if case.id == exercise.case)


def test_an_exercise_is_the_same_again(cases: tuple[Case, ...]) -> None:
    for kind in KINDS:
        for seed in SEEDS:
            one = make(kind, cases, seed)
            assert one == make(kind, tuple(reversed(cases)), seed)
            assert one == remake(one.id, cases)
            assert one.working
            if one.options:
                assert one.key in [option.id for option in one.options]
                assert answered(one, one.key).earned == 1
            else:
                assert one.amount is not None
                assert answered(one, "100 points" if one.amount.unit == "points" else "400 g").earned == 0


def test_exercises_differ_from_number_to_number(cases: tuple[Case, ...]) -> None:
    for kind in KINDS:
        assert len({make(kind, cases, seed).id.partition(":")[2] for seed in SEEDS}) == len(SEEDS)
    keys = Counter(make("asking", cases, seed).key for seed in range(12))
    assert len(keys) >= 4


def test_the_fact_that_decides_is_the_heaviest_of_the_ledger(cases: tuple[Case, ...]) -> None:
    """Worked out once more from the lines of pick and rivals, rule by rule."""
    tried = 0
    for seed in range(20):
        one = make("deciding", cases, seed)
        found = ledger_of(of(one, cases), named(one, "decision"))
        if not isinstance(found, Choice):
            carried: dict[str, float] = {}
            for line in found.lines:
                read = {whole(id) for id in line.rule.reads} if line.rule else set()
                for id in read:
                    carried[id] = carried.get(id, 0.0) + abs(line.adjust) / len(read)
        else:
            carried = by_hand(found)
        best = max(carried.get(option.id, 0.0) for option in one.options)
        assert carried[one.key] == pytest.approx(best, abs=2.0)
        assert carried[one.key] == pytest.approx(max(carried.values()), abs=2.0)
        tried += 1
    assert tried == 20


def by_hand(found: Choice) -> dict[str, float]:
    """What each fact carried of a choice, thousandths."""
    pick, *rivals = found.standings
    rivals = rivals[: min(CONTENDERS, max(2, -(-len(rivals) // 2)))]
    own = {whole(id) for id in pick.candidate.views}
    carried: dict[str, float] = {}
    for rule in found.standings[0].outcome.run.plan.rules:
        gives = [
            -10_000 if any(line.rule is rule for line in one.ruled_out)
            else sum(line.points for line in one.lines if line.rule is rule)
            for one in (pick, *rivals)
        ]  # fmt: skip
        weight = abs(gives[0] - sum(gives[1:]) / max(1, len(rivals)))
        read = {whole(id) for id in rule.reads}
        falls = read - own or read
        for id in falls:
            carried[id] = carried.get(id, 0.0) + weight / len(falls)
    return carried


def test_what_is_called_needless_changes_nothing_and_the_key_could(cases: tuple[Case, ...]) -> None:
    """Every word of a needless question is tried on the road itself."""
    tried = 0
    for seed in range(12):
        one = make("asking", cases, seed)
        case = of(one, cases)
        stakes = {row.values["fact"].id: row for row in one.working if isinstance(row.values["fact"], Name)}
        assert stakes[one.key].what in ("stake", "always")
        key = stakes[one.key].values["points"]
        for id, row in stakes.items():
            points = row.values["points"]
            assert isinstance(points, Figure)
            assert isinstance(key, Figure)
            assert id == one.key or row.what == "needless" or points.value < key.value
            if row.what == "needless":
                tried += 1
                assert len(picks_over(case, one, case.base.facts[id])) == 1, id
    assert tried


def picks_over(case: Case, one: Exercise, fact: Fact) -> set[str | None]:
    """The pairs picked as a question takes every word, or the ends of its range, at the exercise's place."""
    asked = case.base.facts[one.key].ask
    assert asked is not None
    place = case.base.topics.index(asked.topic)
    answers: dict[str, Answer | None] = dict.fromkeys(case.subject.answers)
    for id, known in case.base.facts.items():
        if known.ask is not None and case.base.topics.index(known.ask.topic) < place:
            answers[id] = UNKNOWN
    answers |= {id: case.subject.answers[id] for id in one.told}
    roads = Roads(case.house, case.subject, case.outcome.golfer.density)
    if fact.kind == "number":
        values = [{fact.id: Answer(end)} for end in fact.range]
    else:
        values = [dict(trial.answers) for trial in options(fact, None)]
    return {roads.run({**answers, **value}).pick for value in values}


def test_just_one_claim_is_beyond_the_ceiling(cases: tuple[Case, ...]) -> None:
    """The rule allows 8 yd; the ceiling is that of the same air."""
    for seed in SEEDS:
        one = make("claim", cases, seed)
        density = of(one, cases).outcome.golfer.density
        beyond = []
        for option in one.options:
            speed, carry = option.values["speed"], option.values["carry"]
            assert isinstance(speed, Figure)
            assert isinstance(carry, Figure)
            if carry.value > carry_ceiling(speed.value, density) + 8 * YARD:
                beyond.append(option.id)
        assert beyond == [one.key]


def test_a_reading_is_the_moment_about_fourteen_inches(cases: tuple[Case, ...]) -> None:
    """Arithmetic written out: sum of ounces times inches beyond 14, less 213.5, over 1.75 (the 14-inch table
    in The Modern Guide to Golf Clubfitting, ch. 13)."""
    topics = set()
    for seed in range(10):
        one = make("reading", cases, seed)
        topics.add(one.topic)
        if one.topic == "finished":
            masses = [(figure(one, "total"), figure(one, "point"))]
        else:
            rows = [row.values for row in one.working if row.what == "part"]
            masses = [(row["mass"].value, row["place"].value) for row in rows]  # type: ignore[union-attr]
        moment = sum(mass / OUNCE * (place / INCH - 14) for mass, place in masses)
        assert one.amount is not None
        assert one.amount.value == pytest.approx((moment - 213.5) / 1.75, abs=1e-6)
        assert answered(one, f"{one.amount.value + 0.4} points").right
        assert 0 < answered(one, f"{one.amount.value + 1.5} points").earned < 1
    assert topics == {"parts", "finished"}


def test_what_goes_back_balances_the_club_again(cases: tuple[Case, ...]) -> None:
    """A uniform shaft cut into a thousand slices, before and after, with the key's mass in the head."""
    for seed in SEEDS:
        one = make("putting_back", cases, seed)
        before, after = figure(one, "before"), figure(one, "after")
        head, shaft = figure(one, "head"), figure(one, "shaft")
        assert one.amount is not None
        back = sliced(before, after, shaft, head + one.amount.value)
        assert back == pytest.approx(sliced(before, before, shaft, head), rel=2e-4)


def sliced(full: float, length: float, shaft: float, head: float) -> float:
    """The moment about 14 in of a club cut from its full length, the shaft in thin slices, kg*m."""
    count = 4000
    places = [(k + 0.5) * full / count - (full - length) for k in range(count)]
    rod = sum(shaft / count * (place - 14 * INCH) for place in places if place > 0)
    return rod + head * (length - 14 * INCH)


def test_sayings_are_settled_by_the_sums(cases: tuple[Case, ...]) -> None:
    """Each verdict is found a second time: by hand, off the ladder, or from flights at other lengths."""
    seen = set()
    for seed in range(16):
        one = make("myth", cases, seed)
        seen.add(one.topic)
        assert one.key == SETTLED[one.topic](one, of(one, cases))
    assert seen == set(SETTLED)


def two_grams(one: Exercise, case: Case) -> str:
    """Three points for half an inch and 2 g a point, on a head of 212 g and a shaft of 65 g at 43 in."""
    cut, length = figure(one, "cut") / INCH, figure(one, "length") / INCH
    lost = 65 * cut / length
    moved = (212 + 65 - lost) * cut + lost * (cut / 2 - 14)
    exact = moved / (length - cut - 14)
    over = (cut / 0.5 * 3 * 2 - exact) * (length - cut - 14) / (1.75 * OUNCE * 1000)
    return "fails" if over >= 0.5 else "holds"


def longer(one: Exercise, case: Case) -> str:
    rung = next(rung for rung in case.outcome.rungs if rung.id == named(one, "club"))
    gains = []
    for speed in ("0.004", "0.008"):
        for scatter in ("0.04", "0.08"):
            laws = {"speed-per-inch": float(speed), "scatter-per-inch": float(scatter)}
            base = case.base.with_assumptions(laws)
            specs = (rung.spec, replace(rung.spec, length=rung.spec.length + INCH))
            now, more = (flown(base, case.outcome.golfer, rung.kind, spec).expected for spec in specs)
            gains.append(more - now)
    return "holds" if min(gains) >= YARD else "fails" if max(gains) < YARD else "open"


def soles(one: Exercise, case: Case) -> str:
    built = [(rung.label, rung.flown.centred) for rung in case.outcome.rungs if rung.state == "new"]
    same = [abs(a[1] - b[1]) for a, b in combinations(built, 2) if a[0] == b[0]]
    other = [abs(a[1] - b[1]) for a, b in combinations(built, 2) if a[0] != b[0]]
    return "fails" if max(same) > min(other) else "holds"


def tape(one: Exercise, case: Case) -> str:
    """From the figures in view: a quarter of what his own strikes do would be noticed."""
    rows = {row.what: row.values for row in one.working}
    bend, own = rows["bend"]["side"], rows["own_spread"]["side"]
    shift = rows["mass_shift"]["shift"]
    assert isinstance(bend, Figure)
    assert isinstance(own, Figure)
    assert isinstance(shift, Figure)
    mass = case.outcome.picked.longer.spec.impact_mass if case.outcome.picked else 0.0
    grams = figure(one, "tape")
    assert shift.value == pytest.approx(grams * 0.030 / (mass + grams))
    marks = case.outcome.golfer.pattern.sd_toe
    assert bend.value / own.value == pytest.approx(
        shift.value / marks, rel=0.15
    )  # small effects are in proportion
    return "fails" if bend.value < 0.25 * own.value else "open"


SETTLED = {"two_grams": two_grams, "longer_farther": longer, "number_on_sole": soles, "tape_bends": tape}


def test_answers_are_read_or_refused_in_a_sentence(cases: tuple[Case, ...]) -> None:
    choice, number = make("claim", cases, 0), make("reading", cases, 0)
    place = [option.id for option in choice.options].index(choice.key) + 1
    assert answered(choice, str(place)).right
    for exercise, text in ((choice, "9"), (choice, ""), (number, "5 mph"), (number, "heavy")):
        with pytest.raises(LessonProblem):
            answered(exercise, text)


@pytest.mark.parametrize(
    "id", ["", "deciding", "deciding:nobody:1", "myth:windy-links:x", "odd:windy-links:1"]
)
def test_an_id_that_leads_nowhere_is_told(cases: tuple[Case, ...], id: str) -> None:
    with pytest.raises(LessonProblem, match="cannot be made again"):
        remake(id, cases)
    with pytest.raises(LessonProblem, match="none of these 0 cases"):
        make("deciding", (), 1)
