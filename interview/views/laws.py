"""The laws of flight in words: how many there are."""

from __future__ import annotations

from rules.golf.coefficients import LAWS

_COUNTS = {2: "two", 3: "three", 4: "four"}


def flight_laws() -> str:
    """Return how many laws give a band, such as `two flight laws`."""
    return f"{_COUNTS.get(len(LAWS), len(LAWS))} flight laws"
