"""Laws of the bench: what must hold whatever the club."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.bench.balance import Part, balance, mass_per_point, moment, points
from rules.bench.build import Added, Build, Grip, Head, Shaft
from rules.bench.loft import effective_loft
from rules.bench.ports import PieceStock, Place, Port, PortPlan, plan
from rules.bench.shorten import shorten
from rules.units import UNITS, swing_weight_name, swing_weight_points

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor
DEG = UNITS["deg"].factor
FEW = settings(max_examples=60, deadline=None)


def some(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


PARTS = st.lists(
    st.builds(Part, some(1 * GRAM, 0.3), some(0, 48 * INCH), some(0, 1.2)), min_size=1, max_size=6
)
BUILDS = st.builds(
    lambda length, head, shaft, share, grip: Build(
        length * INCH,
        Head(head * GRAM),
        Shaft(shaft * GRAM, 48 * INCH, share, tip_trim=0.5 * INCH),
        Grip(grip * GRAM),
    ),
    some(38, 45),
    some(180, 260),
    some(45, 120),
    some(0.45, 0.55),
    some(20, 70),
)


@FEW
@given(PARTS)
def test_mass_is_conserved_and_order_does_not_matter(parts: list[Part]) -> None:
    read, back = balance(parts), balance(reversed(parts))
    assert read.total == pytest.approx(sum(part.mass for part in parts))
    assert (read.total, read.moment, read.inertia) == pytest.approx((back.total, back.moment, back.inertia))


@FEW
@given(PARTS)
def test_a_club_balances_at_its_balance_point(parts: list[Part]) -> None:
    at = balance(parts).balance_point
    assert sum(part.mass * (part.position - at) for part in parts) == pytest.approx(0, abs=1e-9)


@FEW
@given(some(-40, 40))
def test_a_name_reads_back_to_a_tenth(exact: float) -> None:
    if -30 < exact < 39.9:
        assert swing_weight_points(swing_weight_name(exact)) == pytest.approx(exact, abs=0.0501)
    assert points(moment(exact)) == pytest.approx(exact, abs=1e-9)


@FEW
@given(BUILDS, some(0.5, 20))
def test_more_head_reads_heavier_and_more_grip_lighter(club: Build, grams: float) -> None:
    heavier = replace(club, head=replace(club.head, mass=club.head.mass + grams * GRAM))
    assert heavier.reading.points > club.reading.points
    gained = heavier.reading.points - club.reading.points
    assert gained == pytest.approx(grams * GRAM / mass_per_point(club.head_position))
    fatter = replace(club, grip=Grip(club.grip.mass + grams * GRAM))
    assert fatter.reading.points < club.reading.points
    assert fatter.reading.total > club.reading.total


@FEW
@given(BUILDS, some(0.125, 2))
def test_longer_reads_heavier(club: Build, inches: float) -> None:
    assert replace(club, length=club.length + inches * INCH).reading.points > club.reading.points


@FEW
@given(BUILDS, some(0, 5))
def test_what_is_needed_is_what_fills_it(club: Build, above: float) -> None:
    target = club.reading.points + above
    assert club.with_added(Added(club.need(target))).reading.points == pytest.approx(target, abs=1e-9)


@FEW
@given(BUILDS)
def test_the_shaft_loses_exactly_its_cuts(club: Build) -> None:
    cut = club.cuts
    assert cut.tip + cut.butt + cut.length == pytest.approx(club.shaft.raw_length)
    assert 0 < club.cut_shaft.mass < club.shaft.mass


@FEW
@given(some(41, 45), some(0.1, 2), some(0.1, 2), some(180, 260), some(45, 120))
def test_two_cuts_are_one(length: float, first: float, second: float, head: float, shaft: float) -> None:
    """An even shaft: cutting twice loses what cutting once by the sum does."""
    whole = shorten(length * INCH, (length - first - second) * INCH, head * GRAM, shaft * GRAM)
    one = shorten(length * INCH, (length - first) * INCH, head * GRAM, shaft * GRAM)
    left = shaft * GRAM - one.shaft_lost
    two = shorten((length - first) * INCH, (length - first - second) * INCH, head * GRAM, left)
    assert one.points_change + two.points_change == pytest.approx(whole.points_change, abs=1e-9)
    assert one.points_change < 0 < one.restore


PIECES = st.lists(
    st.builds(
        PieceStock,
        st.integers(1, 16).map(lambda halves: halves * 0.5 * GRAM),
        st.one_of(st.none(), st.integers(0, 5)),
    ),
    min_size=1,
    max_size=4,
)
NEEDS = st.integers(0, 60).map(lambda halves: halves * 0.5 * GRAM)
WISHES = st.sampled_from([None, Place(-1), Place(1), Place(-1, 0, 0.5), Place(1, -0.5, -0.5), Place(0, 0, 1)])
HEAD = tuple(
    Port.named(name, grams * GRAM) for name, grams in (("heel", 9), ("toe", 6), ("rear", 12), ("hosel", 5))
)


def total(found: PortPlan) -> float:
    return sum(sum(masses) for masses in found.pieces.values())


@FEW
@given(NEEDS, PIECES, WISHES)
def test_a_plan_fits_its_ports_and_its_stock(
    need: float, stock: list[PieceStock], wish: Place | None
) -> None:
    found = plan(need, HEAD, stock, wish, head_mass=0.212)
    for port in HEAD:
        assert sum(found.pieces[port.name]) <= port.capacity + 1e-9
    placed = [round(m / GRAM, 3) for masses in found.pieces.values() for m in masses]
    for mass in set(placed):
        counts = [one.count for one in stock if round(one.mass / GRAM, 3) == mass]
        assert counts
        if None not in counts:
            assert placed.count(mass) <= sum(count or 0 for count in counts)
    assert found.added == pytest.approx(total(found))
    assert found.added + found.short_by == pytest.approx(need)


@FEW
@given(NEEDS, PIECES, WISHES)
def test_a_mirrored_head_takes_the_mirrored_plan(
    need: float, stock: list[PieceStock], wish: Place | None
) -> None:
    mirrored = [Port(p.name, p.capacity, -p.toeward, p.upward, p.backward) for p in HEAD]
    turned = wish and Place(-wish.toeward, wish.upward, wish.backward)
    one = plan(need, HEAD, stock, wish, head_mass=0.212)
    two = plan(need, mirrored, stock, turned, head_mass=0.212)
    assert one.pieces == two.pieces
    assert one.cg_shift.toeward == pytest.approx(-two.cg_shift.toeward, abs=1e-12)
    assert one.cg_shift.backward == two.cg_shift.backward


@FEW
@given(NEEDS, PIECES, WISHES, st.integers(1, 16))
def test_more_stock_never_balances_worse(
    need: float, stock: list[PieceStock], wish: Place | None, halves: int
) -> None:
    before = plan(need, HEAD, stock, wish, head_mass=0.212)
    after = plan(need, HEAD, [*stock, PieceStock(halves * 0.5 * GRAM, 1)], wish, head_mass=0.212)
    assert abs(after.short_by) <= abs(before.short_by) + 1e-12


@FEW
@given(some(13, 30), some(-4, 4), some(0.05, 1), some(52, 62))
def test_a_face_more_closed_plays_more_loft_by_both_views(
    loft: float, closed: float, more: float, lie: float
) -> None:
    less = effective_loft(loft * DEG, closed * DEG, lie * DEG)
    greater = effective_loft(loft * DEG, (closed + more) * DEG, lie * DEG)
    assert greater.geometry > less.geometry
    assert greater.bench_rule > less.bench_rule
    assert greater.geometry - less.geometry < greater.bench_rule - less.bench_rule
