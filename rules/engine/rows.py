"""For one fact of one decision: which cases survive each value the fact can take.

A case of a rule is a bit. For every stretch between thresholds, and every word, a *row* holds the bits
of the cases whose comparisons with this fact all hold there. Evaluating a candidate is then one row a
fact, joined by `and`: all comparisons of all rules with that fact at once.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable
from math import inf, nextafter
from typing import Any, cast

from rules.engine.faults import MisreadView
from rules.engine.language import Fact
from rules.engine.truth import Bound, holds_set, holds_word
from rules.engine.views import CouldBe, Value, View

MOST_REMEMBERED = 4096
"""Rows worked out for sets of words that are kept."""


class Test:
    """One comparison with the fact inside one case."""

    __slots__ = ("bit", "holds", "op", "wanted")

    def __init__(self, bit: int, op: str, wanted: bool, holds: Callable[[Any], bool]) -> None:
        self.bit, self.op, self.wanted, self.holds = bit, op, wanted, holds


class Rows:
    """The rows of one fact."""

    __slots__ = (
        "_may",
        "_tests",
        "absent",
        "asks_known",
        "by_known",
        "by_unknown",
        "certain",
        "cuts",
        "fact",
        "full",
        "kind",
        "untouched",
        "untouched_or_gone",
        "widest",
    )  # fmt: skip

    def __init__(self, fact: Fact, tests: list[Test], follows: int, bounds: list[Bound], full: int) -> None:
        """`follows`: bits of cases whose ramp follows the fact; `bounds`: its numeric comparisons."""
        self.fact, self.full, self.kind = fact, full, fact.kind
        self._tests = tests
        self.absent = self._row(None, False) & ~follows
        """The row while nothing stands in."""
        cuts = {cut for bound in bounds for cut in (bound.low, bound.high)}
        self.cuts = [*sorted(cuts - {inf, -inf}), inf]
        """Where rows change, for a number; beyond the last, which no number reaches, it is absent."""
        self.asks_known = any(test.op in ("known", "unknown") for test in tests)
        """Whether some comparison asks if the fact is known at all."""
        self.by_known = self._all_rows(True)
        """Rows while the fact is known: a list for a number, else by word or set; the absent one too."""
        self.by_unknown = self._all_rows(False) if self.asks_known else self.by_known
        """Rows while an assumption stands in."""
        touched = 0
        for test in tests:
            touched |= test.bit
        self.untouched = full & ~touched
        self.untouched_or_gone = self.untouched & ~follows
        """Cases certain to survive while the fact is open and may end up absent."""
        vanishes = fact.ask is not None and fact.ask.applies is not None
        self.certain = self.untouched_or_gone if vanishes else self.untouched
        """Cases certain to survive while the fact is open and has a best value; a question that may stop
        applying can still leave it absent."""
        self._may: dict[object, int] = {}
        self.widest = self._permitted(self._key(fact.widest))
        """Cases that some value at all lets survive."""

    def _row(self, value: Value | None, known: bool) -> int:
        """Return the cases that survive a value."""
        row = self.full
        for test in self._tests:
            if test.op in ("known", "unknown"):
                if ((test.op == "known") == known) != test.wanted:
                    row &= ~test.bit
            elif value is None or test.holds(value) != test.wanted:
                row &= ~test.bit
        return row

    def _all_rows(self, known: bool) -> Any:
        """Return the rows of every stretch or word; sets are worked out when they come up."""
        if self.kind == "number":
            inside = [nextafter(self.cuts[0], -inf), *self.cuts[:-1]]
            return [*(self._row(x, known) for x in inside), self.absent]
        if self.kind == "choice":
            words: dict[str | None, int] = {word: self._row(word, known) for word in self.fact.values}
            return words | {None: self.absent}
        return {}

    def best(self, view: View) -> int:
        """Return the cases that survive the fact's best value."""
        value = view.best
        if value is None:
            return self.absent
        return self.at(value, view.known if self.asks_known else True)

    def at(self, value: Value, known: bool) -> int:
        """Return the cases that survive a value."""
        rows = self.by_known if known else self.by_unknown
        if self.kind == "number":
            return cast(int, rows[bisect_right(self.cuts, cast(float, value))])
        row = rows.get(value)
        if row is None:
            row = self._unseen(value, known, rows)
        return cast(int, row)

    def _unseen(self, value: Value, known: bool, rows: dict[Value, int]) -> int:
        """Work out the row of a set not met before; refuse a word that the fact cannot be."""
        words: Iterable[str] = (value,) if isinstance(value, str) else cast("frozenset[str]", value)
        for word in words:
            if word not in self.fact.values:
                raise MisreadView(self.fact.id, word, self.fact.values)
        if len(rows) >= MOST_REMEMBERED:
            rows.clear()
        rows[value] = self._row(value, known)
        return rows[value]

    def may(self, view: View) -> int:
        """Return the cases that some answer to an open fact lets survive."""
        if view.could_be is None or view.could_be is self.fact.widest:
            return self.widest
        key = self._key(view.could_be)
        row = self._may.get(key)
        if row is None:
            if len(self._may) >= MOST_REMEMBERED:
                self._may.clear()
            row = self._may[key] = self._permitted(key)
        return row

    def _key(self, could_be: CouldBe) -> object:
        """Return what tells apart all that could be, as far as rows go."""
        if self.kind == "number":
            low, high = cast("tuple[float, float]", could_be)
            return bisect_right(self.cuts, low), bisect_right(self.cuts, high)
        return could_be

    def _permitted(self, key: Any) -> int:
        """Join the rows of everything that could be; absent is always among it."""
        row = self.absent
        if self.kind == "set":
            return row | self._permitted_sets(key)
        for rows in (self.by_known, self.by_unknown):
            found = rows[key[0] : key[1] + 1] if self.kind == "number" else [rows[word] for word in key]
            for one in found:
                row |= one
        return row

    def _permitted_sets(self, could_be: CouldBe) -> int:
        """Return the cases that some set between the certain and the possible words lets survive.

        A case is best served by the largest set that holds none of the words it forbids.
        """
        must, may = cast("tuple[frozenset[str], frozenset[str]]", could_be)
        row = 0
        by_bit: dict[int, list[Test]] = {}
        for test in self._tests:
            by_bit.setdefault(test.bit, []).append(test)
        for bit, tests in by_bit.items():
            plain = [test for test in tests if test.op not in ("known", "unknown")]
            asked = {(test.op == "known") == test.wanted for test in tests if test not in plain}
            forbidden = {w for w in may if any(self._forbids(test, w) for test in plain)}
            best = may - forbidden
            if len(asked) < 2 and must <= best and all(test.holds(best) == test.wanted for test in plain):
                row |= bit
        return row | self.untouched

    @staticmethod
    def _forbids(test: Test, word: str) -> bool:
        """Return whether a test fails for every set that holds a word."""
        return test.holds(frozenset((word,))) != test.wanted and test.holds(frozenset()) == test.wanted


def number_test(bit: int, op: str, wanted: bool, bound: Bound) -> Test:
    """Return a comparison of a number."""
    return Test(bit, op, wanted, bound.holds)


def word_test(bit: int, atom: Any, wanted: bool, compared: object, kind: str) -> Test:
    """Return a comparison of a word or a set of words."""
    compare: Callable[[Any, Any, object], bool] = holds_word if kind == "choice" else holds_set
    return Test(bit, atom.op, wanted, lambda value: compare(atom, value, compared))
