"""The search behind `ports.plan`, in whole numbers only, so that ties are ties.

Three steps. *Reach*: for each port alone, every load it can hold and the fewest pieces that make it.
*Choose*: over the ports, loads that add up to a total, best worth first, by depth-first search with
bounds. *Share*: whether the stock suffices for those loads together, and with how few pieces. Totals are
tried in order of their distance from the need, so the first that can be built is the nearest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

BUDGET = 40_000
"""Steps after which the search stops and says that it proved nothing (about a tenth of a second)."""
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


class _OutOfSteps(Exception):
    """The budget is spent."""


class _Purse:
    """Counts steps, and stops the search when none are left."""

    def __init__(self, steps: int) -> None:
        self.left = steps

    def spend(self, steps: int = 1) -> None:
        """Use up steps; _OutOfSteps when there are none."""
        self.left -= steps
        if self.left < 0:
            raise _OutOfSteps


def solve(task: Task, budget: int = BUDGET) -> Found:
    """Return the best plan, or the best met before the budget was spent."""
    first = _greedy(task)
    if not task.capacities or task.need <= 0:
        return _found(task, first, proved=True)
    search = _Search(task, _mass(task, first), _Purse(budget))
    try:
        best = search.run()
    except _OutOfSteps:
        return _found(task, search.nearest(first), proved=False)
    return _found(task, best.pieces if best else first, proved=True)


def _found(task: Task, pieces: tuple[Load, ...], *, proved: bool) -> Found:
    """Turn indices into masses."""
    return Found(tuple(tuple(task.ordered[i].mass for i in load) for load in pieces), proved)


def _mass(task: Task, pieces: tuple[Load, ...]) -> int:
    """Mass of all the pieces of a plan."""
    return sum(task.ordered[i].mass for load in pieces for i in load)


def _greedy(task: Task) -> tuple[Load, ...]:
    """Fill the worthiest ports first, heaviest piece first, never past the need: a plan to beat."""
    left = [one.count for one in task.ordered]
    room, short = list(task.capacities), task.need
    filled: list[list[int]] = [[] for _ in room]
    for port in sorted(range(len(room)), key=lambda p: 0 if task.centred else -task.values[p]):
        for index, one in enumerate(task.ordered):
            while task.fits(port, index) and one.mass <= min(room[port], short) and left[index] != 0:
                filled[port].append(index)
                room[port] -= one.mass
                short -= one.mass
                left[index] = None if left[index] is None else (left[index] or 0) - 1
    return tuple(tuple(load) for load in filled)


class _Search:
    """One search: what the ports can hold, bounds over the ports that follow, and the best so far."""

    def __init__(self, task: Task, known: int, purse: _Purse) -> None:
        self.task, self.purse = task, purse
        self.error = abs(task.need - known)
        """No plan farther from the need than this is worth a look."""
        self.best: Choice | None = None
        """The best plan of the total that is being searched."""
        self.chosen: Choice | None = None
        """The best plan of the totals at the same distance."""

    def run(self) -> Choice | None:
        """Search totals from the nearest outward; None when only the plan already known remains."""
        self.reach = [self._reach(port) for port in range(len(self.task.capacities))]
        self.after = self._bounds()
        totals = self._stock_totals() & self.after[0].keys()
        need = self.task.need
        for error in sorted({abs(total - need) for total in totals if abs(total - need) <= self.error}):
            for total in sorted({need - error, need + error} & totals):
                self._choose_total(total)
            if self.chosen:
                return self.chosen
        return None

    def nearest(self, known: tuple[Load, ...]) -> tuple[Load, ...]:
        """Return the best plan met so far, or the one known before."""
        met = self.chosen or self.best
        return met.pieces if met else known

    def _reach(self, port: int) -> dict[int, Load]:
        """Every load of one port, with the fewest pieces that make it (heaviest first on a tie)."""
        room = min(self.task.capacities[port], self.task.need + self.error)
        reach: dict[int, Load] = {0: ()}
        for index, one in enumerate(self.task.ordered):
            if not self.task.fits(port, index):
                continue
            most = room // one.mass if one.count is None else min(one.count, room // one.mass)
            for load, pieces in list(reach.items()):
                for count in range(1, min(most, (room - load) // one.mass) + 1):
                    self._keep(reach, load + count * one.mass, pieces + (index,) * count)
            self.purse.spend(len(reach) // 4)
        return reach

    @staticmethod
    def _keep(reach: dict[int, Load], load: int, pieces: Load) -> None:
        """Keep the better of two ways to make a load: fewer pieces, then heavier ones first."""
        old = reach.get(load)
        if old is None or (len(pieces), pieces) < (len(old), old):
            reach[load] = pieces

    def _bounds(self) -> list[dict[int, tuple[int, int, int]]]:
        """Bounds for each port and what is left to place: least and most worth, and fewest pieces.

        They hold for that port and all that follow it, each port taken as having the stock to itself.
        """
        table: list[dict[int, tuple[int, int, int]]] = [{0: (0, 0, 0)}]
        for port in reversed(range(len(self.reach))):
            table.append(self._bounds_of(port, table[-1]))
        return table[::-1]

    def _bounds_of(
        self, port: int, after: dict[int, tuple[int, int, int]]
    ) -> dict[int, tuple[int, int, int]]:
        """Join one port to the bounds of those that follow it."""
        most, value = self.task.need + self.error, self.task.values[port]
        joined: dict[int, tuple[int, int, int]] = {}
        for load, pieces in self.reach[port].items():
            self.purse.spend(len(after) // 8)
            worth, count = load * value, len(pieces)
            for rest, (low, high, few) in after.items():
                total = load + rest
                if total > most:
                    continue
                low_here, high_here, few_here = low + worth, high + worth, few + count
                old = joined.get(total)
                if old is not None:
                    low_here, high_here = min(old[0], low_here), max(old[1], high_here)
                    few_here = min(old[2], few_here)
                joined[total] = (low_here, high_here, few_here)
        return joined

    def _stock_totals(self) -> set[int]:
        """Every total that the whole stock can make, ports left out of it."""
        most, totals = self.task.need + self.error, {0}
        for one in self.task.ordered:
            count = most // one.mass if one.count is None else min(one.count, most // one.mass)
            steps = [n * one.mass for n in range(count + 1)]
            self.purse.spend(len(totals) * len(steps) // 8)
            totals = {total + step for total in totals for step in steps if total + step <= most}
        return totals

    def _choose_total(self, total: int) -> None:
        """Find the best plan of one total, and keep it if it beats the other total's."""
        self.best = None
        self._choose(0, total, 0, 0, ())
        if self.best and (not self.chosen or self._rank(self.best) < self._rank(self.chosen)):
            self.chosen = self.best

    def _rank(self, choice: Choice) -> tuple[Fraction, int, int]:
        """Rank plans of different totals: the shift itself, pieces, the lighter plan."""
        total = sum(choice.loads)
        return Fraction(choice.worst, self.task.head + total), choice.count, total

    def _worst(self, low: int, high: int) -> int:
        """How bad the worth is at best, when it can be anything from low to high."""
        if not self.task.centred:
            return -high
        return max(low, -high, 0)

    def _choose(self, port: int, left: int, worth: int, count: int, loads: tuple[int, ...]) -> None:
        """Place what is left in the ports from `port` on."""
        self.purse.spend()
        if port == len(self.reach):
            self._leaf(worth, loads)
            return
        value, after = self.task.values[port], self.after[port + 1]
        branches: list[tuple[int, int, int]] = []
        for load, pieces in self.reach[port].items():
            rest = after.get(left - load)
            if rest is not None:
                here = worth + load * value
                bound = self._worst(here + rest[0], here + rest[1])
                branches.append((bound, count + len(pieces) + rest[2], -load))
        for bound, fewest, minus in sorted(branches):
            load = -minus
            if self._hopeless(bound, fewest, (*loads, load)):
                continue
            pieces_here = len(self.reach[port][load])
            self._choose(port + 1, left - load, worth + load * value, count + pieces_here, (*loads, load))

    def _hopeless(self, bound: int, fewest: int, loads: tuple[int, ...]) -> bool:
        """Tell whether nothing below this branch can beat the best plan of this total."""
        best = self.best
        if best is None:
            return False
        if (bound, fewest) != (best.worst, best.count):
            return (bound, fewest) > (best.worst, best.count)
        return loads < best.loads[: len(loads)]

    def _leaf(self, worth: int, loads: tuple[int, ...]) -> None:
        """Keep the plan with these loads if the stock can build it and nothing better is known."""
        pieces = _Share(
            self.task, self.purse, loads, [self.reach[p][load] for p, load in enumerate(loads)]
        ).run()
        if pieces is None:
            return
        made = Choice(self._worst(worth, worth), sum(map(len, pieces)), loads, pieces)
        best = self.best
        if best is None or (made.worst, made.count) < (best.worst, best.count):
            self.best = made
        elif (made.worst, made.count) == (best.worst, best.count) and loads > best.loads:
            self.best = made


class _Share:
    """Whether the stock suffices for given loads together, and the fewest pieces that make them."""

    def __init__(self, task: Task, purse: _Purse, loads: tuple[int, ...], alone: list[Load]) -> None:
        self.task, self.purse, self.loads, self.alone = task, purse, loads, alone
        self.fewest = [sum(map(len, alone[port:])) for port in range(len(alone) + 1)]
        self.best: tuple[Load, ...] | None = None
        self.best_count = 0

    def run(self) -> tuple[Load, ...] | None:
        """Return the pieces for each port, or None when the stock cannot build the loads."""
        left = [one.count for one in self.task.ordered]
        if self._enough(left):
            return tuple(self.alone)
        self._fill(0, left, (), 0)
        return self.best

    def _enough(self, left: list[int | None]) -> bool:
        """Tell whether every port can have the fewest pieces that it could have alone."""
        used: dict[int, int] = {}
        for load in self.alone:
            for index in load:
                used[index] = used.get(index, 0) + 1
        return all((has := left[index]) is None or count <= has for index, count in used.items())

    def _fill(self, port: int, left: list[int | None], done: tuple[Load, ...], count: int) -> None:
        """Fill the ports from `port` on out of the stock that is left."""
        self.purse.spend()
        if self.best is not None and count + self.fewest[port] >= self.best_count:
            return
        if port == len(self.loads):
            self.best, self.best_count = done, count
            return
        for load in self._ways(port, self.loads[port], 0, left):
            rest = list(left)
            for index in load:
                has = rest[index]
                rest[index] = None if has is None else has - 1
            self._fill(port + 1, rest, (*done, load), count + len(load))

    def _ways(self, port: int, mass: int, start: int, left: list[int | None]) -> Iterator[Load]:
        """Every way to make a load from the stock that is left, heaviest pieces first."""
        self.purse.spend()
        if mass == 0:
            yield ()
            return
        if start == len(self.task.ordered):
            return
        one = self.task.ordered[start]
        has = left[start]
        most = mass // one.mass if has is None else min(has, mass // one.mass)
        for count in range(most if self.task.fits(port, start) else 0, -1, -1):
            for rest in self._ways(port, mass - count * one.mass, start + 1, left):
                yield (start,) * count + rest
