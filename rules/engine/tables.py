"""Adds up the fixed results of many rules at once, a byte of them at a time."""

from __future__ import annotations

from collections.abc import Mapping
from operator import getitem


class Tables:
    """Sums of fixed results for every byte of a mask, so that many rules are added up at once."""

    __slots__ = ("_bytes", "_tables")

    def __init__(self, fixed: Mapping[int, int], bits: int) -> None:
        self._bytes = (bits + 7) // 8
        self._tables = [_table(fixed, 8 * i) for i in range(self._bytes)]

    def sum(self, mask: int) -> int:
        """Add up the fixed results of the cases of a mask."""
        return sum(map(getitem, self._tables, mask.to_bytes(self._bytes, "little")))


def _table(fixed: Mapping[int, int], shift: int) -> list[int]:
    """Return the sums for all values of one byte of a mask."""
    sums = [0]
    for i in range(8):
        amount = fixed.get(1 << (shift + i), 0)
        sums += [amount + already for already in sums]
    return sums
