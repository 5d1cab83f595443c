"""Every sentence of the bench, whole, beside a list that a person has read.

`tests/golden.py` tells how the list is written anew.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from rules.bench import balance, cuts, direction, ports, problems, rules_of_golf, shorten, tip
from rules.bench.build import Build, Grip, Head, Shaft
from rules.bench.calibrate import FinishedClub, calibrate
from rules.bench.cure import extraction, hold_time, may_play
from rules.bench.ports import Place
from rules.units import UNITS
from tests import golden

GOLDEN = Path(__file__).parent / "bench_words.txt"
INCH, GRAM, OZ_IN = UNITS["in"].factor, UNITS["g"].factor, UNITS["oz*in"].factor
WARM = UNITS["degF"].to_si(72)
TOE = ports.Port.named("toe", 10 * GRAM)

REFUSED: Mapping[str, Callable[[], object]] = {
    "no parts": lambda: balance.balance([]),
    "target below the parts": lambda: balance.head_mass_for(
        -100, [balance.Part(0.3, 20 * INCH)], 42 * INCH
    ),
    "target above any head": lambda: balance.head_mass_for(200, [], 15 * INCH),
    "inertia below the parts": lambda: balance.head_mass_for_inertia(0.01, [balance.Part(0.3, 1.0)], 1.0),
    "inertia above any head": lambda: balance.head_mass_for_inertia(10.0, [], INCH),
    "head inside the mark": lambda: balance.head_mass_for(0, [], 13 * INCH),
    "mass at the mark": lambda: balance.mass_per_point(14 * INCH),
    "shaft too short": lambda: cuts.cuts(40 * INCH, INCH, 40 * INCH),
    "trim too long": lambda: cuts.check_tip(3 * INCH, 2 * INCH, 1.5 * INCH),
    "longer, not shorter": lambda: shorten.shorten(42 * INCH, 43 * INCH, 0.2, 0.06),
    "insertion deeper than the hosel": lambda: cuts.bottom_to_ground(INCH, 2 * INCH),
    "shaft longer than with its head": lambda: cuts.bottom_to_ground_dry(43 * INCH, 42 * INCH),
    "hosel weight too long": lambda: cuts.room_for_weight(1.5 * INCH, INCH),
    "too long for the rules": lambda: rules_of_golf.check_length(49 * INCH),
    "too long for the local rule": lambda: rules_of_golf.check_length(47 * INCH, local_limit=True),
    "too short for the rules": lambda: rules_of_golf.check_length(17 * INCH),
    "two ports of a name": lambda: ports.plan(0.0, [TOE, TOE], [], head_mass=0.2),
    "a port nobody knows": lambda: ports.Port.named("left wing", 0.005),
    "too many pieces": lambda: ports.plan(
        0.0, [TOE], [ports.PieceStock(0.002, 10_001)], head_mass=0.2
    ),
    "too cold": lambda: hold_time(UNITS["degF"].to_si(50)),
    "no length": lambda: FinishedClub("his", 0.2, 0.06, 0.5, 0.05),
    "one reading": lambda: calibrate([_club()]),
    "heads that teach nothing": lambda: calibrate([_club(head=0.002), _club(head=0.002)]),
    "head of a build": lambda: Head(0.6),
    "setback of a build": lambda: Head(0.2, 4 * INCH),
}  # fmt: skip


def _club(head: float = 0.21) -> FinishedClub:
    return FinishedClub("his", head, 0.06, 0.5, 0.05, ruler_length=42 * INCH, moment=213 * OZ_IN)


def _refusals() -> Iterator[tuple[str, str]]:
    for what, call in REFUSED.items():
        try:
            call()
        except problems.BenchProblem as problem:
            yield what, f"{type(problem).__name__}: {problem}"
        else:
            raise AssertionError(f"{what} was not refused")


def _fit(one: tip.TipFit) -> str:
    return f"{one.verdict}, {one.gap * 1000:.3f} mm: {one.text}"


def _tips() -> Iterator[tuple[str, str]]:
    for small, large in ((0.335, 0.335), (0.335, 0.35), (0.335, 0.37), (0.335, 0.4), (0.37, 0.335)):
        yield f"tip {small} in bore {large}", _fit(tip.fit(small * INCH, large * INCH))
    taper = 0.355 * INCH
    yield "parallel in taper", _fit(tip.fit(0.35 * INCH, taper, bore_taper=True))
    yield "taper in parallel", _fit(tip.fit(taper, 0.357 * INCH, tip_taper=True))
    for outside, fixture in ((None, True), (0.5, False), (0.418, True), (0.5, True)):
        hosel = None if outside is None else outside * INCH
        opened = tip.open_bore(0.335 * INCH, 0.37 * INCH, hosel, fixture=fixture)
        yield f"opened, outside {outside}, fixture {fixture}", opened.text


def _shifts() -> Iterator[tuple[str, str]]:
    mm = UNITS["mm"].factor
    for shift in (
        Place(), Place(0.00004, -0.00004, 0.00004), Place(mm), Place(-mm), Place(upward=mm),
        Place(upward=-mm), Place(backward=mm), Place(backward=-mm), Place(1.5 * mm, -0.6 * mm, -0.2 * mm),
        Place(toeward=0.00005),
    ):  # fmt: skip
        yield f"{shift}", direction.effect_words(shift)
    balanced = Place(upward=mm, backward=-350 / 160 * mm)
    yield "lower and back, all but in balance", direction.effect_words(balanced)
    yield "in metric", direction.effect_words(Place(-2 * mm, mm), "metric")


def _cures() -> Iterator[tuple[str, str]]:
    yield "graphite", extraction("graphite").text
    yield "steel", extraction("steel").text
    yield "cured", may_play(24 * 3600, WARM).text
    yield "not cured", may_play(3600, WARM).text


def _held() -> Iterator[tuple[str, str]]:
    for told in calibrate([_club(), _club()]).held:
        yield "held", told


def _part_names() -> Iterator[tuple[str, str]]:
    club = Build(42 * INCH, Head(0.21), Shaft(0.06, 46 * INCH), Grip(0.05))
    yield "parts of a build", ", ".join(part.name for part in club.parts)


def test_every_sentence_is_as_it_was_read() -> None:
    told = [*_refusals(), *_tips(), *_shifts(), *_cures(), *_held(), *_part_names()]
    page = "".join(f"{what}\n    {said}\n" for what, said in told)
    golden.held(GOLDEN, page)
    assert "None" not in "".join(said for _, said in told)


def test_what_was_refused_is_kept_as_numbers_too() -> None:
    """Whoever shows a refusal reads its figures from the problem and not from the sentence."""
    inertia = problems.InertiaOutOfReach(0.2, 0.3)
    assert (inertia.target, inertia.least) == (0.2, 0.3)
    reach = problems.TargetOutOfReach(1.0, 2.0)
    assert (reach.target, reach.least) == (1.0, 2.0)
    assert problems.HeadTooNearFulcrum(0.3).position == 0.3
    short = problems.ShaftTooShort(1.0, 0.9)
    assert (short.needed, short.left) == (1.0, 0.9)
    trim = problems.TipTrimTooLong(0.1, 0.2, 0.3)
    assert (trim.trim, trim.parallel, trim.insertion) == (0.1, 0.2, 0.3)
    shorter = problems.NotShorter(1.0, 1.1)
    assert (shorter.before, shorter.after) == (1.0, 1.1)
    deep = problems.InsertionTooDeep(0.1, 0.2, "so")
    assert (deep.whole, deep.part) == (0.1, 0.2)
    weight = problems.WeightTooLong(0.1, 0.2)
    assert (weight.left, weight.least) == (0.1, 0.2)
    rules = problems.BeyondTheRules(1.3, 1.2, "longest", "a rule")
    assert (rules.length, rules.limit, rules.rule) == (1.3, 1.2, "a rule")
    assert problems.DuplicatePort("toe").name == "toe"
    assert problems.UnknownPlace("fin", ("toe",)).name == "fin"
    assert problems.UnknownPlace("fin", ("toe",)).known == ("toe",)
    cold = problems.TooCold(280.0, 285.0)
    assert (cold.temperature, cold.least) == (280.0, 285.0)
    lacking = problems.MissingReading("his", "a length")
    assert (lacking.club, lacking.what) == ("his", "a length")
    few = problems.TooFewReadings(1, 2)
    assert (few.readings, few.wanted) == (1, 2)
    limits = problems.OutOfRange("mass", 3.0, 1.0, 2.0, "g")
    assert (limits.quantity, limits.value, limits.low, limits.high, limits.symbol) == (
        "mass", 3.0, 1.0, 2.0, "g",
    )  # fmt: skip
