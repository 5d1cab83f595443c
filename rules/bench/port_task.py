"""What the port search works on: one question in whole numbers, its stock, and the steps it may take."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

Load = tuple[int, ...]
"""What one port holds: indices into the stock ordered by mass, heaviest first."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One line of stock: mass in hundredths of a gram, count (None: no limit), and the ports it fits."""

    mass: int
    count: int | None
    fits: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """The best plan found: the masses in each port, and whether it is proved to be the best."""

    pieces: tuple[tuple[int, ...], ...]
    proved: bool


@dataclass(frozen=True)
class Task:
    """One question to the search, in hundredths of a gram and micrometres."""

    need: int
    head: int
    capacities: tuple[int, ...]
    values: tuple[int, ...]
    """Worth of each port per mass: more is better, or a sum nearer to nought when `centred`."""
    stock: tuple[Piece, ...]
    centred: bool = False

    @cached_property
    def ordered(self) -> tuple[Piece, ...]:
        """Return the stock, heaviest first."""
        return tuple(sorted(self.stock, key=lambda one: -one.mass))

    def fits(self, port: int, index: int) -> bool:
        """Tell whether a piece of the ordered stock goes into a port at all."""
        one = self.ordered[index]
        return one.fits[port] and one.mass <= self.capacities[port]


@dataclass(frozen=True, slots=True)
class Choice:
    """A plan that the stock can build, and how it ranks (less is better)."""

    worst: int
    """How bad its worth is."""
    count: int
    """Pieces."""
    loads: tuple[int, ...]
    """Mass in each port."""
    pieces: tuple[Load, ...]


class OutOfSteps(Exception):  # noqa: N818  # not an error: the search has simply done enough
    """The budget is spent."""


class Purse:
    """Counts steps, and stops the search when none are left."""

    def __init__(self, steps: int) -> None:
        self.left = steps

    def spend(self, steps: int = 1) -> None:
        """Use up steps; OutOfSteps when there are none."""
        self.left -= steps
        if self.left < 0:
            raise OutOfSteps
