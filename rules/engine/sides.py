"""Facts read together: those shared by all candidates, or those of one candidate.

Most facts are plain numbers and words, known. They are fetched, looked up and joined inside C functions
(`map`, `reduce`); a loop follows for whatever is open, absent, merely assumed, or a set of words.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Collection, Mapping, Sequence
from functools import reduce
from math import inf
from operator import and_, getitem, itemgetter
from typing import Any, cast

from rules.engine.rows import Rows
from rules.engine.views import ABSENT, Value, View

Best = Mapping[str, Value | None]
"""Plain values by fact; None, or nothing, where the fact is absent."""
Fetch = Callable[[Mapping[str, Any]], tuple[Any, ...]]


Joined = tuple[int, int, int, bool]
"""Which cases survive on the best values, under some answer, under every answer; whether any is open."""


def _fetch(ids: Sequence[str]) -> Fetch:
    """Return what fetches several entries as a tuple; KeyError when one is lacking."""
    if len(ids) > 1:
        return cast(Fetch, itemgetter(*ids))
    if ids:
        (id,) = ids
        return lambda entries: (entries[id],)
    return lambda entries: ()


class Side:
    """The facts of one side, in the order in which they are read: numbers, words, and the rest."""

    __slots__ = ("_cuts", "_fetch", "_number_rows", "_quick", "_rest", "_word_rows", "_words", "ids", "rows")

    def __init__(self, rows: Sequence[Rows]) -> None:
        numbers = [r for r in rows if r.kind == "number" and not r.asks_known]
        words = [r for r in rows if r.kind == "choice" and not r.asks_known]
        self._rest = [r for r in rows if r.kind == "set" or r.asks_known]
        self.rows = [*numbers, *words, *self._rest]
        self.ids = [r.fact.id for r in self.rows]
        """The facts, in reading order."""
        self._words, self._quick = len(numbers), len(numbers) + len(words)
        self._fetch = _fetch(self.ids)
        self._cuts = [r.cuts for r in numbers]
        self._number_rows = [r.by_known for r in numbers]
        self._word_rows = [r.by_known for r in words]

    def look(self, views: Mapping[str, View]) -> Sequence[View]:
        """Return the views of the facts; what is lacking is absent."""
        try:
            return self._fetch(views)
        except KeyError:
            get = views.get
            return [get(id, ABSENT) for id in self.ids]

    def join(self, seen: Sequence[View], full: int) -> Joined:
        """Return which cases survive the facts as seen."""
        if [view[2] for view in seen].count("known") < len(seen):
            return self._one_by_one(seen, full)
        try:
            sure = self._plain([view[0] for view in seen], full)
        except (KeyError, TypeError):
            return self._one_by_one(seen, full)
        if self._rest:
            for rows, view in zip(self._rest, seen[self._quick :], strict=True):
                sure &= rows.best(view)
        return sure, sure, sure, False

    def _plain(self, values: Sequence[Any], mask: int) -> int:
        """Return the cases that survive the plain numbers and words, all of which have a value."""
        rows = map(bisect_right, self._cuts, values)
        mask = reduce(and_, map(getitem, self._number_rows, rows), mask)
        return reduce(and_, map(getitem, self._word_rows, values[self._words :]), mask)

    def _one_by_one(self, seen: Sequence[View], full: int) -> Joined:
        """Return which cases survive, whatever the facts are like."""
        sure = best = may = must = full
        is_open = False
        for row, rows, view in zip(self._best_rows(seen), self.rows, seen, strict=True):
            if view[2] != "open":
                sure &= row
                continue
            is_open = True
            best &= row
            may &= rows.widest if view[1] is rows.fact.widest else rows.may(view)
            must &= rows.untouched_or_gone if view[0] is None else rows.certain
        return best & sure, may & sure, must & sure, is_open

    def _best_rows(self, seen: Sequence[View]) -> list[int]:
        """Return each fact's row on its best value; absent numbers are looked up beyond the last cut."""
        values = [view[0] for view in seen]
        numbers: list[Any] = [inf if value is None else value for value in values[: self._words]]
        rows = list(map(getitem, self._number_rows, map(bisect_right, self._cuts, numbers)))
        try:
            rows += map(getitem, self._word_rows, values[self._words : self._quick])
        except KeyError:
            return [rows.best(view) for rows, view in zip(self.rows, seen, strict=True)]
        rows += [rows.best(view) for rows, view in zip(self._rest, seen[self._quick :], strict=True)]
        return rows

    def mask(self, best: Best, start: int, unknown: Collection[str]) -> int:
        """Return the cases that survive plain best values; on those `unknown` only an assumption stands."""
        try:
            mask = self._plain(self._fetch(best), start)
        except (KeyError, TypeError):
            return self._told(self.rows, best, start, unknown)
        return self._told(self._rest, best, mask, unknown) if self._rest else mask

    @staticmethod
    def _told(rows: Sequence[Rows], best: Best, mask: int, unknown: Collection[str]) -> int:
        """Return the cases that survive where values may be absent or merely assumed."""
        for row in rows:
            value = best.get(row.fact.id)
            mask &= row.absent if value is None else row.at(value, row.fact.id not in unknown)
        return mask
