"""Ports: small plans by hand, and hundreds against brute force over every way to place every piece."""

from __future__ import annotations

import math

import pytest

from rules.bench.port_search import solve
from rules.bench.port_task import Piece, Task
from rules.bench.ports import PieceStock, Place, Port, PortPlan, plan, shift
from rules.bench.problems import DuplicatePort, OutOfRange, UnknownPlace

GRAM = 0.001
HEEL_TOE = (Port.named("heel", 12 * GRAM), Port.named("toe", 12 * GRAM))
STOCK = tuple(PieceStock(m * GRAM, n) for m, n in ((1.5, 8), (3, 6), (5, 4), (8, None)))
TO_HEEL, TO_TOE = Place(-1), Place(1)


def grams(found: PortPlan) -> dict[str, list[float]]:
    return {name: [round(m / GRAM, 3) for m in masses] for name, masses in found.pieces.items()}


def test_a_slice_goes_to_the_heel_by_hand() -> None:
    # 13 g: the heel holds 12 g; 11.5 + 1.5 is the most that leaves a piece for the rest (12 + 1 has no 1 g)
    found = plan(13 * GRAM, HEEL_TOE, STOCK, TO_HEEL, head_mass=0.212)
    assert grams(found) == {"heel": [5, 5, 1.5], "toe": [1.5]}
    assert found.short_by == pytest.approx(0)
    # toeward: (11.5 * -30 + 1.5 * 30) / 225 = -1.3333 mm; upward: 13 * -10 / 225 = -0.5778 mm
    assert found.cg_shift.toeward * 1000 == pytest.approx(-1.3333, abs=1e-4)
    assert found.cg_shift.upward * 1000 == pytest.approx(-0.5778, abs=1e-4)
    assert found.proved


def test_a_hook_goes_to_the_toe() -> None:
    found = plan(13 * GRAM, HEEL_TOE, STOCK, TO_TOE, head_mass=0.212)
    assert grams(found) == {"heel": [1.5], "toe": [5, 5, 1.5]}


def test_no_miss_leaves_the_head_centred() -> None:
    found = plan(13 * GRAM, HEEL_TOE, STOCK, head_mass=0.212)
    assert grams(found) == {"heel": [5, 1.5], "toe": [5, 1.5]}
    assert found.cg_shift.toeward == pytest.approx(0)


def test_balance_comes_before_direction() -> None:
    # a slicer's 20 g: the heel holds 12; the toe takes the other 8, though it pulls the wrong way
    found = plan(20 * GRAM, HEEL_TOE, STOCK, TO_HEEL, head_mass=0.212)
    assert found.plan == pytest.approx({"heel": 0.012, "toe": 0.008})


def test_the_fewest_pieces_that_do_it() -> None:
    ports = [Port.named("heel", 8 * GRAM)]
    assert grams(plan(8 * GRAM, ports, STOCK, TO_HEEL, head_mass=0.2)) == {"heel": [8]}
    assert grams(plan(6 * GRAM, ports, STOCK, TO_HEEL, head_mass=0.2)) == {"heel": [3, 3]}


def test_pieces_go_only_where_they_fit_and_only_as_often_as_they_are_there() -> None:
    stock = [PieceStock(5 * GRAM, 1), PieceStock(4 * GRAM, 1, ("toe",))]
    found = plan(10 * GRAM, HEEL_TOE, stock, TO_HEEL, head_mass=0.2)
    assert grams(found) == {"heel": [5], "toe": [4]}
    assert found.short_by == pytest.approx(1 * GRAM)


def test_what_ports_cannot_hold_is_left_short() -> None:
    found = plan(40 * GRAM, HEEL_TOE, STOCK, TO_HEEL, head_mass=0.212)
    assert found.added == pytest.approx(24 * GRAM)
    assert found.short_by == pytest.approx(16 * GRAM)


def test_nothing_to_add_or_nothing_to_add_it_with() -> None:
    for need, ports, stock in ((0.0, HEEL_TOE, STOCK), (-0.01, HEEL_TOE, STOCK), (0.01, (), STOCK)):
        found = plan(need, ports, stock, TO_HEEL, head_mass=0.212)
        assert found.added == 0
        assert found.short_by == need
        assert found.proved
        assert found.cg_shift == Place()
    assert plan(0.01, HEEL_TOE, (), TO_HEEL, head_mass=0.212).added == 0


def test_a_mirrored_head_gives_the_mirrored_plan() -> None:
    swapped = [Port(p.name, p.capacity, -p.toeward, p.upward, p.backward) for p in HEEL_TOE]
    one = plan(13 * GRAM, HEEL_TOE, STOCK, TO_HEEL, head_mass=0.212)
    two = plan(13 * GRAM, swapped, STOCK, TO_TOE, head_mass=0.212)
    assert one.pieces == two.pieces
    assert one.cg_shift.toeward == -two.cg_shift.toeward


def test_a_name_that_says_nothing_wants_a_place() -> None:
    with pytest.raises(UnknownPlace, match="heel, toe, rear, front, hosel"):
        Port.named("left wing", 5 * GRAM)


def test_rear_is_back_and_front_is_forward() -> None:
    rear, front = Port.named("rear", 10 * GRAM), Port.named("front", 10 * GRAM)
    assert shift([(rear, 0.01)], 0.2).backward > 0 > shift([(front, 0.01)], 0.2).backward


def test_bad_input_is_refused_in_a_sentence() -> None:
    with pytest.raises(DuplicatePort, match="two ports called 'heel'"):
        plan(0.01, [HEEL_TOE[0], HEEL_TOE[0]], STOCK, head_mass=0.2)
    with pytest.raises(OutOfRange, match="mass to add is not a finite number"):
        plan(math.nan, HEEL_TOE, STOCK, head_mass=0.2)
    with pytest.raises(OutOfRange, match="capacity of port 'rear' is -1 g"):
        plan(0.01, [Port.named("rear", -1 * GRAM)], STOCK, head_mass=0.2)
    with pytest.raises(OutOfRange, match="mass of a piece is -3 g"):
        plan(0.01, HEEL_TOE, [PieceStock(-3 * GRAM)], head_mass=0.2)
    with pytest.raises(OutOfRange, match="head mass"):
        plan(0.01, HEEL_TOE, STOCK, head_mass=0)


def test_a_search_cut_short_says_so_and_still_gives_a_plan_that_fits() -> None:
    stock = tuple(PieceStock(m * GRAM, 30) for m in (0.1, 0.25, 2.05))
    ports = [Port.named(n, c * GRAM) for n, c in (("heel", 12), ("toe", 12), ("rear", 8), ("front", 6))]
    task = Task(
        need=1303,
        head=21_200,
        capacities=(1200, 1200, 800, 600),
        values=(-30_000, 30_000, 0, 0),
        stock=tuple(Piece(m, 30, (True,) * 4) for m in (10, 25, 205)),
    )
    found = solve(task, budget=200)
    assert not found.proved
    assert all(sum(load) <= room for load, room in zip(found.pieces, task.capacities, strict=True))
    assert abs(sum(map(sum, found.pieces)) - 1303) <= 10
    assert plan(13.03 * GRAM, ports, stock, TO_HEEL, head_mass=0.212).proved
