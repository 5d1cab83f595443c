"""The search behind `ports.plan`, in whole numbers only, so that ties are ties.

Three steps. *Reach*: for each port alone, every load it can hold and the fewest pieces that make it.
*Choose*: over the ports, loads that add up to a total, best worth first, by depth-first search with
bounds. *Share*: whether the stock suffices for those loads together, and with how few pieces. Totals are
tried in order of their distance from the need, so the first that can be built is the nearest.
"""

from __future__ import annotations

from fractions import Fraction

from rules.bench.port_share import Share
from rules.bench.port_task import Choice, Found, Load, OutOfSteps, Purse, Task

BUDGET = 40_000
"""Steps after which the search stops and says that it proved nothing (about a tenth of a second)."""


def solve(task: Task, budget: int = BUDGET) -> Found:
    """Return the best plan, or the best met before the budget was spent."""
    first = _greedy(task)
    if not task.capacities or task.need <= 0:
        return _found(task, first, proved=True)
    search = _Search(task, _mass(task, first), Purse(budget))
    try:
        best = search.run()
    except OutOfSteps:
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

    def __init__(self, task: Task, known: int, purse: Purse) -> None:
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
                break  # and so are all that follow: they are sorted as plans are ranked
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
        alone = [self.reach[port][load] for port, load in enumerate(loads)]
        pieces = Share(self.task, self.purse, loads, alone).run()
        if pieces is None:
            return
        made = Choice(self._worst(worth, worth), sum(map(len, pieces)), loads, pieces)
        if self.best is None or _order(made) < _order(self.best):
            self.best = made


def _order(choice: Choice) -> tuple[int, int, tuple[int, ...]]:
    """Rank plans of one total: worth, pieces, then more mass in the earlier port."""
    return choice.worst, choice.count, tuple(-load for load in choice.loads)
