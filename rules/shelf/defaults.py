"""What stands in for a measure that the cataloguer left out, each with a range and a source.

The defaults are data (`rules/catalogue/defaults.toml`): a fixed value with a range, or a straight-line
table against the loft or the face height of the same part with an `either_way`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from rules.shelf.parts import between_nodes

End = Literal["low", "high"]
"""An end of an assumption's range."""
PLACE = ("toeward", "upward", "backward")
"""The three measures of a port's place."""


@dataclass(frozen=True, slots=True)
class Default:
    """One declared default."""

    id: str
    """Its name, as assumptions are named."""
    part: str
    """head, shaft, grip, port, shop or calibration."""
    kind: str
    """fairway or hybrid, or a port's name; empty for any."""
    field: str
    """The field it fills."""
    symbol: str
    """The unit it is shown in; empty for a plain number."""
    value: object
    """SI value, word or truth; None when it is a table."""
    low: float
    """Low end of the range (SI); of a table, how far below it may be."""
    high: float
    """High end of the range (SI); of a table, how far above it may be."""
    nodes: tuple[tuple[float, float], ...]
    """The table, if it is one."""
    against: str
    """The field the table reads."""
    text: str
    """What is assumed, in a sentence."""
    source: str
    """`assumption`, `common_practice` or `memory`."""
    note: str
    """What the source rests on."""

    def fill(self, known: Mapping[str, Any]) -> Any:
        """Give the value for a part of which these fields are known."""
        return between_nodes(self.nodes, known[self.against]) if self.nodes else self.value

    @property
    def swings(self) -> bool:
        """Whether it has a range: a word or a yes has none."""
        return bool(self.nodes) or self.low < self.high

    def span(self, known: Mapping[str, Any]) -> tuple[float, float] | None:
        """Give the plausible range (SI) for a part of which these fields are known; None without one."""
        if not self.swings:
            return None
        if not self.nodes:
            return self.low, self.high
        middle = between_nodes(self.nodes, known[self.against])
        return middle - self.low, middle + self.high


@dataclass(frozen=True, slots=True)
class Assumption:
    """One measure of one part that nobody took: what is used, and what it could be."""

    id: str
    """The default it stands on."""
    part: str
    """Which part, such as `head heath-17`."""
    field: str
    """The field left out."""
    value: object
    """The value used (SI or a word)."""
    span: tuple[float, float] | None
    """Low and high end of what is plausible (SI); None for a word, which has no range."""
    symbol: str
    """The unit it is shown in."""
    text: str
    """What is assumed, in a sentence."""
    source: str
    """Kind of source."""
    note: str
    """What the source rests on."""


@dataclass(frozen=True, slots=True)
class Defaults:
    """All declared defaults, found by part, kind and field."""

    items: tuple[Default, ...]
    """Every default, in file order; those against a field that may be assumed itself come after it."""

    def of(self, part: str, kind: str) -> Iterable[Default]:
        """List what may fill a part of this kind, in file order."""
        return (item for item in self.items if item.part == part and item.kind in ("", kind))

    def complete(self, part: str, kind: str, values: dict[str, Any]) -> frozenset[str]:
        """Fill what is missing in `values` and return the names of the fields filled."""
        filled = set()
        for item in self.of(part, kind):
            if item.field not in values and (not item.nodes or item.against in values):
                values[item.field] = item.fill(values)
                filled.add(item.field)
        return frozenset(filled)

    def find(self, part: str, kind: str, field: str) -> Default | None:
        """Find the default of one field; None when none is declared."""
        return next((item for item in self.of(part, kind) if item.field == field), None)
