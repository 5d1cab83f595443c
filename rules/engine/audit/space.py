"""All that a few rules can tell apart: for each fact, one value for every way it can bear on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, combinations, pairwise, product
from math import prod
from typing import NamedTuple

from rules.engine.base import RuleBase
from rules.engine.language import Fact, Rule
from rules.engine.plan import Plan
from rules.engine.rows import Rows
from rules.engine.views import Value

MOST_POINTS = 20_000
"""A space of more points than this is not walked."""
MOST_WORDS = 8
"""Words of a set fact whose subsets are all tried."""


class Cell(NamedTuple):
    """One way in which a fact bears on the rules."""

    mask: int
    """Cases that survive it."""
    value: Value | None
    """A value that shows it; None for absent."""
    known: bool
    low: float = 0.0
    high: float = 0.0
    """Ends of the stretch, for a number."""


class Space:
    """The cells of every fact that some rules read."""

    def __init__(self, base: RuleBase, rules: Iterable[Rule]) -> None:
        self.plan = Plan(rules, base.facts, base.assumptions)
        self.cells = {id: list(_cells(rows)) for id, rows in self.plan.rows.items()}

    def holds(self, rule: Rule, mask: int) -> bool:
        """Return whether a rule speaks where certain cases survive."""
        return bool(self.plan.bits[rule.id] & mask)

    def points(self, *, absent: bool = True) -> Iterator[tuple[int, dict[str, Cell]]] | None:
        """Walk every combination of cells that differ in what survives; None when they are too many."""
        choices = [_distinct(cells, absent) for cells in self.cells.values()]
        if prod(len(cells) for cells in choices) > MOST_POINTS:
            return None
        return self._walk(choices)

    def _walk(self, choices: Sequence[Sequence[Cell]]) -> Iterator[tuple[int, dict[str, Cell]]]:
        for cells in product(*choices):
            mask = self.plan.full
            for cell in cells:
                mask &= cell.mask
            yield mask, dict(zip(self.cells, cells, strict=True))


def witness(cells: dict[str, Cell]) -> dict[str, Value]:
    """Return the values that show a combination of cells."""
    return {id: cell.value for id, cell in cells.items() if cell.value is not None}


def _distinct(cells: Sequence[Cell], absent: bool) -> list[Cell]:
    """Return one cell for every mask."""
    found: dict[int, Cell] = {}
    for cell in cells:
        if absent or cell.value is not None:
            found.setdefault(cell.mask, cell)
    return list(found.values())


def _cells(rows: Rows) -> Iterator[Cell]:
    """Yield the cells of one fact, in the order of its values, absent last."""
    for known in (True, False) if rows.asks_known else (True,):
        for value, low, high in _examples(rows):
            yield Cell(rows.at(value, known), value, known, low, high)
    yield Cell(rows.absent, None, False)


def _examples(rows: Rows) -> Iterator[tuple[Value, float, float]]:
    """Yield one value of every stretch inside the fact's range, or every word, or the sets of words."""
    fact = rows.fact
    if fact.kind == "number":
        yield from _stretches(fact, rows.cuts)
        return
    if fact.kind == "choice":
        sets: Iterable[Value] = fact.values
    else:
        words = fact.values[:MOST_WORDS]
        sizes = range(len(words) + 1)
        sets = chain.from_iterable((frozenset(c) for c in combinations(words, n)) for n in sizes)
    for value in sets:
        yield value, 0.0, 0.0


def _stretches(fact: Fact, cuts: Sequence[float]) -> Iterator[tuple[float, float, float]]:
    """Yield the stretches between cuts that lie in the fact's range, each with its middle."""
    low, high = fact.range
    ends = [low, *(cut for cut in cuts if low < cut <= high), high]
    for left, right in pairwise(ends):
        middle = (left + right) / 2
        short = float(f"{middle:.6g}")
        yield (short if left <= short < right else middle), left, right
    if len(ends) > 2 and ends[-2] == high:
        yield high, high, high
