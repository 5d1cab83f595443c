"""Whether the stock suffices for loads in several ports together, and with how few pieces."""

from __future__ import annotations

from collections.abc import Iterator

from rules.bench.port_task import Load, Purse, Task


class Share:
    """Whether the stock suffices for given loads together, and the fewest pieces that make them."""

    def __init__(self, task: Task, purse: Purse, loads: tuple[int, ...], alone: list[Load]) -> None:
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
