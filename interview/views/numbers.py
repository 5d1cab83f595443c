"""Numbers for the edge: out of SI, rounded, and never anything that is not a number."""

from __future__ import annotations

import math

from rules.engine.views import Value
from rules.units import unit

Plain = float | str | list[str] | None
"""A fact's value as JSON holds it."""

FINE = 3
"""Decimals kept of a value in its own unit: finer than anything here is known."""


def number(value: float | None, decimals: int = FINE) -> float | None:
    """Round a number; a whole one comes back whole, and what is not finite comes back as None."""
    if value is None or not math.isfinite(value):
        return None
    rounded = round(value, decimals)
    return int(rounded) if rounded == int(rounded) else rounded


def in_unit(si: float | None, symbol: str, decimals: int = FINE) -> float | None:
    """Turn an SI value into a unit and round it."""
    return None if si is None else number(unit(symbol).from_si(si), decimals)


def step_in_unit(si: float, symbol: str, decimals: int = FINE) -> float | None:
    """Turn an SI difference, such as a spread, into a unit and round it."""
    return number(unit(symbol).step_from_si(si), decimals)


def thousandths(value: int | None) -> float | None:
    """Turn whole thousandths into the number that they stand for, exactly as far as decimals go."""
    return None if value is None else number(value / 1000, 3)


def plain(value: Value | None, symbol: str) -> Plain:
    """Turn a fact's value into what JSON holds: a number in a unit, a word, or words in order."""
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, frozenset):
        return sorted(value)
    return in_unit(value, symbol)
