"""Straight lines between nodes, flat beyond the ends: effects without cliffs."""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise


class Ramp:
    """An effect that follows a fact along straight lines. Results are whole thousandths."""

    __slots__ = ("at", "fact", "segments", "xs")

    def __init__(self, fact: str, at: tuple[tuple[float, int], ...]) -> None:
        self.fact = fact
        """The number it follows."""
        self.at = at
        """Its nodes: value of the fact in SI, rising; result in thousandths."""
        self.xs = [x for x, _ in at]
        """Values of the fact at the nodes."""
        inner = [(a[0], a[1], (b[1] - a[1]) / (b[0] - a[0])) for a, b in pairwise(at)]
        self.segments: list[tuple[float, float, float]] = [(*at[0], 0.0), *inner, (*at[-1], 0.0)]
        """Each stretch, by how many nodes lie at or below: its start, the result there, the slope."""

    def value(self, x: float) -> int:
        """Return the result at `x`, rounded to a whole thousandth."""
        start, result, slope = self.segments[bisect_right(self.xs, x)]
        return round(result + (x - start) * slope)

    def extremes(self, low: float, high: float) -> tuple[int, int]:
        """Return the least and the greatest result between two values of the fact."""
        ends = [self.value(low), self.value(high)]
        ends += [y for x, y in self.at if low < x < high]
        return min(ends), max(ends)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Ramp) and (self.fact, self.at) == (other.fact, other.at)

    def __hash__(self) -> int:
        return hash((self.fact, self.at))

    def __repr__(self) -> str:
        return f"Ramp({self.fact!r}, {self.at!r})"
