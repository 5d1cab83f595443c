"""Ports against brute force: every way to hand out every piece, ranked as the docstring of `plan` says."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from rules.bench.port_search import solve
from rules.bench.port_task import Piece, Task

Placed = tuple[tuple[int, ...], ...]


def spreads(one: Piece, ports: int) -> list[tuple[int, ...]]:
    """Every way to hand the pieces of one line of stock to the ports."""
    most = 4 if one.count is None else one.count
    every = itertools.product(range(most + 1), repeat=ports)
    return [
        s for s in every if sum(s) <= most and all(fit or not n for fit, n in zip(one.fits, s, strict=True))
    ]


def every_way(task: Task) -> Iterator[Placed]:
    ports = range(len(task.capacities))
    for choice in itertools.product(*(spreads(one, len(ports)) for one in task.stock)):
        counts = list(zip(task.stock, choice, strict=True))
        placed = [sorted((one.mass for one, s in counts for _ in range(s[p])), reverse=True) for p in ports]
        if all(sum(load) <= room for load, room in zip(placed, task.capacities, strict=True)):
            yield tuple(map(tuple, placed))


def rank(task: Task, placed: Placed) -> tuple[Any, ...]:
    loads = [sum(load) for load in placed]
    worth = sum(load * value for load, value in zip(loads, task.values, strict=True))
    return (
        abs(task.need - sum(loads)),
        Fraction(abs(worth) if task.centred else -worth, task.head + sum(loads)),
        sum(map(len, placed)),
        sum(loads),
        [-load for load in loads],
        [[-mass for mass in load] for load in placed],
    )


def best(task: Task) -> Placed:
    return min(every_way(task), key=lambda placed: rank(task, placed))


def random_task(rng: random.Random) -> Task:
    ports = rng.randint(2, 3)
    stock = tuple(
        Piece(
            rng.choice((100, 150, 200, 250, 300, 400)) + rng.choice((0, 0, 0, 7)),
            rng.randint(1, 3),
            tuple(rng.random() < 0.8 for _ in range(ports)),
        )
        for _ in range(rng.randint(2, 3))
    )
    return Task(
        need=50 * rng.randint(1, 36),
        head=20_000,
        capacities=tuple(rng.choice((0, 450, 600, 900, 1200)) for _ in range(ports)),
        values=tuple(rng.randint(-1, 1) * 5000 for _ in range(ports)),
        stock=stock,
        centred=rng.random() < 0.4,
    )


@pytest.mark.parametrize("seed", range(8))
def test_every_plan_is_the_one_brute_force_finds(seed: int) -> None:
    rng = random.Random(seed)
    for _ in range(50):
        task = random_task(rng)
        found = solve(task)
        assert found.proved
        assert found.pieces == best(task), task


def test_unlimited_pieces_against_brute_force() -> None:
    rng = random.Random(99)
    for _ in range(15):
        stock = (Piece(300, None, (True, True)), Piece(rng.choice((225, 450)), None, (True, True)))
        task = Task(rng.randint(1, 900), 21_200, (600, 900), (-3000, rng.randint(-3000, 3000)), stock)
        assert solve(task).pieces == best(task), task
