"""Straight lines between nodes, flat beyond the ends: effects without cliffs."""

from __future__ import annotations

from bisect import bisect_right


class Ramp:
    """An effect that follows a fact along straight lines. Results are whole thousandths."""

    __slots__ = ("fact", "slopes", "xs", "ys")

    def __init__(self, fact: str, at: tuple[tuple[float, int], ...]) -> None:
        self.fact = fact
        """The number it follows."""
        self.xs = [x for x, _ in at]
        """Values of the fact, SI, rising."""
        self.ys = [y for _, y in at]
        """Results at them, thousandths."""
        pairs = zip(at, at[1:], strict=False)
        self.slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairs]

    @property
    def at(self) -> tuple[tuple[float, int], ...]:
        """The nodes."""
        return tuple(zip(self.xs, self.ys, strict=True))

    def value(self, x: float) -> int:
        """Return the result at `x`, rounded to a whole thousandth."""
        i = bisect_right(self.xs, x)
        if i == 0:
            return self.ys[0]
        if i == len(self.xs):
            return self.ys[-1]
        return round(self.ys[i - 1] + (x - self.xs[i - 1]) * self.slopes[i - 1])

    def extremes(self, low: float, high: float) -> tuple[int, int]:
        """Return the least and the greatest result between two values of the fact."""
        ends = [self.value(low), self.value(high)]
        ends += [y for x, y in zip(self.xs, self.ys, strict=True) if low < x < high]
        return min(ends), max(ends)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Ramp) and (self.fact, self.xs, self.ys) == (other.fact, other.xs, other.ys)

    def __hash__(self) -> int:
        return hash((self.fact, tuple(self.xs), tuple(self.ys)))

    def __repr__(self) -> str:
        return f"Ramp({self.fact!r}, {self.at!r})"
