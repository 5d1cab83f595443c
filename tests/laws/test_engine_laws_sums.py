"""The parts that the engine's sums are made of, each against brute force or a plain reading of its words."""

from __future__ import annotations

import itertools
import os
from pathlib import Path
from random import Random
from runpy import run_path
from types import SimpleNamespace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.engine.amounts import final, limited, rounded
from rules.engine.cases import MOST_CASES, count_cases, unfold
from rules.engine.language import Atom, Decision, Fact, Group, Source
from rules.engine.ramps import Ramp
from rules.engine.tables import Tables
from rules.engine.truth import BEST, MAY, MUST, Bound, all_of, any_of

ENGINE = Path(__file__).parents[1] / "engine"
plainly = SimpleNamespace(**run_path(str(ENGINE / "engine_plain.py"), run_name="engine_plain"))
MANY = settings(max_examples=int(os.environ.get("TURFPAIR_EXAMPLES", "40")), deadline=None)
RANDOM = st.randoms(use_true_random=True)
SOURCE = Source("common_practice", {})


@given(RANDOM)
@MANY
def test_a_group_is_kleenes_strong_and_or(rng: Random) -> None:
    """Bit by bit: all is the least of its parts and any the greatest, absent in between."""
    parts = [rng.randint(0, 63) for _ in range(rng.randint(1, 4))]
    for bit in (MAY, MUST, BEST):
        every, some = all_of(parts), any_of(parts)
        assert bool(every & bit) == all(part & bit for part in parts)
        assert bool(every & bit << 3) == any(part & bit << 3 for part in parts)
        assert bool(some & bit) == any(part & bit for part in parts)
        assert bool(some & bit << 3) == all(part & bit << 3 for part in parts)


def condition(rng: Random, depth: int = 0) -> Any:
    """A random condition on facts named by letters."""
    if depth == 3 or rng.random() < 0.4:
        return Atom(rng.choice("abcd"), "is", "x")
    parts = tuple(condition(rng, depth + 1) for _ in range(rng.randint(1, 3)))
    return Group(rng.choice(("all", "any", "none")), parts)


def kleene(one: Any, truth: dict[str, bool | None]) -> bool | None:
    """Return the truth of a condition, its comparisons being true, false or absent."""
    if isinstance(one, Atom):
        return truth[one.fact]
    found = [kleene(part, truth) for part in one.parts]
    if one.op == "all":
        return False if False in found else None if None in found else True
    some = True if True in found else None if None in found else False
    return some if one.op == "any" or some is None else not some


@given(RANDOM)
@MANY
def test_unfolding_changes_no_truth(rng: Random) -> None:
    one = condition(rng)
    count = count_cases(one)
    if count > MOST_CASES:
        assert count == MOST_CASES + 1
        return
    for wanted in (True, False):
        cases = unfold(one, wanted)
        assert len(cases) == count_cases(one, wanted) or count_cases(one, wanted) > MOST_CASES
        assert all(len(set(case)) == len(case) for case in cases)
        for values in itertools.product((True, False, None), repeat=4):
            truth = dict(zip("abcd", values, strict=True))
            holds = any(all(truth[atom.fact] is must for atom, must in case) for case in cases)
            assert holds == (kleene(one, truth) is wanted)


def test_cases_are_counted_no_farther_than_is_too_many() -> None:
    many = tuple(Atom("a", "is", "x") for _ in range(66))
    pairs = tuple(Group("any", many[:2]) for _ in range(7))
    assert count_cases(Group("any", many)) == count_cases(Group("all", pairs)) == MOST_CASES + 1
    assert count_cases(Group("any", many[:MOST_CASES])) == MOST_CASES == count_cases(Group("all", pairs[:6]))
    assert count_cases(None) == count_cases(many[0]) == count_cases(Group("all", many)) == 1
    assert count_cases(Group("none", many[:3]), wanted=False) == 3


@given(RANDOM)
@MANY
def test_a_bound_is_the_comparison_that_its_words_say(rng: Random) -> None:
    """At the threshold, and nearer and farther from it than nine digits."""
    low, high = sorted((rng.choice((0.0, -3.0, 7.25, 1e6)), rng.choice((0.5, 8.0, -1.0, 2e6))))
    span = rng.choice((1.0, 50.0))
    fact = Fact("f", "s", "number", "", (), (0.0, span), "t", "t", SOURCE, (0.0, span))
    for op in ("is", "is_not", "below", "at_most", "above", "at_least", "between"):
        ends = (low, high) if op == "between" else (low, low)
        bound = Bound(op, *ends, span)
        for end in ends:
            hair = 1e-9 * max(abs(end), span)
            for x in (
                end - 3 * hair,
                end - 0.5 * hair,
                end,
                end + 0.5 * hair,
                end + 3 * hair,
                low - 9,
                high + 9,
            ):
                assert bound.holds(x) == plainly._number(fact, op, x, *ends), (op, x, ends)


@given(RANDOM)
@MANY
def test_the_extremes_of_a_ramp_are_those_of_a_dense_grid(rng: Random) -> None:
    xs = sorted(rng.sample(range(-20, 60), rng.randint(2, 5)))
    ramp = Ramp("f", tuple((float(x), rng.randint(-5000, 5000)) for x in xs))
    low, high = sorted((rng.uniform(-40, 80), rng.choice((*map(float, xs), rng.uniform(-40, 80)))))
    grid = [low + (high - low) * i / 300 for i in range(301)] + [
        x for x in map(float, xs) if low <= x <= high
    ]
    told = [ramp.value(x) for x in (*grid, high)]
    assert ramp.extremes(low, high) == (min(told), max(told))
    same = Ramp("f", ramp.at)
    assert (same, hash(same)) == (ramp, hash(ramp))
    assert Ramp("g", ramp.at) != ramp
    assert Ramp("f", ramp.at[:-1]) != ramp
    assert ramp != ramp.at


@given(RANDOM)
@MANY
def test_tables_add_up_the_bits_of_a_mask(rng: Random) -> None:
    bits = rng.randint(1, 40)
    fixed = {1 << i: rng.randint(-9000, 9000) for i in range(bits) if rng.random() < 0.7}
    tables = Tables(fixed, bits)
    for mask in (0, (1 << bits) - 1, *(rng.randrange(1 << bits) for _ in range(8))):
        assert tables.sum(mask) == sum(amount for bit, amount in fixed.items() if bit & mask)


@given(RANDOM)
@MANY
def test_an_amount_goes_to_the_nearest_step_between_its_limits(rng: Random) -> None:
    """By brute force over every step: the nearest, the higher of two, and none where none lies between."""
    step = rng.choice((1, 5, 250, 300))
    low = rng.randint(-2000, 2000)
    high = low + rng.randint(1, 1500)
    decision = Decision("a", "s", 1, "amount", "t", "t", SOURCE, "m", None, "x", (low, high), step, step)
    steps = [n * step for n in range(low // step - 2, high // step + 3) if low <= n * step <= high]
    for value in (rng.randint(low - 900, high + 900), low, high, (low + high) // 2):
        held = min(max(value, low), high)
        assert limited(decision, value) == held
        wanted = min(steps, key=lambda at: (abs(at - held), -at)) if steps else held
        assert rounded(decision, held) == final(decision, value) == wanted


@given(RANDOM, st.floats(-100, 200), st.floats(0, 1e-3))
@MANY
def test_ramps_have_no_cliffs(rng: Random, x: float, step: float) -> None:
    xs = sorted(rng.sample(range(-50, 150), rng.randint(2, 6)))
    ramp = Ramp("f", tuple((float(at), rng.randint(-9000, 9000)) for at in xs))
    steepest = max(abs(slope) for _, _, slope in ramp.segments)
    assert abs(ramp.value(x + step) - ramp.value(x)) <= steepest * step + 1
    low, high = ramp.extremes(x, x + 40)
    assert all(low <= ramp.value(x + 40 * i / 50) <= high for i in range(51))
    for at, result in ramp.at:
        assert ramp.value(at) == result
