"""Many questions put to the same balls: the chance of a false answer is kept for all of them together."""

from __future__ import annotations

from collections.abc import Sequence


def holm(ps: Sequence[float]) -> tuple[float, ...]:
    """Return p-values corrected so that any false alarm among all of them stays as rare as one would be.

    S. Holm, Scandinavian Journal of Statistics 6 (1979) 65: the smallest is multiplied by their number, the
    next by one less, and so on, never falling below one before it, at most 1. It holds however the questions
    hang together.
    """
    order = sorted(range(len(ps)), key=lambda i: ps[i])
    corrected = [0.0] * len(ps)
    floor = 0.0
    for rank, place in enumerate(order):
        floor = max(floor, min(1.0, (len(ps) - rank) * ps[place]))
        corrected[place] = floor
    return tuple(corrected)
