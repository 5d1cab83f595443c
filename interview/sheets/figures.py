"""Figures as a bench writes them: with their unit, and with what they may be out by."""

from __future__ import annotations

from interview.views.outcome_text.quantities import trimmed
from rules.units import System, difference_words, swing_weight_name, unit, words

_SQUARE = 0.0009
"""A face within a twentieth of a degree of square is called square, rad."""


def length(metres: float, system: System) -> str:
    """Write a length as a ruler shows it: sixteenths where it has them."""
    return words(metres, "in", system)


def place(metres: float, system: System) -> str:
    """Write a place along the shaft to a hundredth of an inch, or to a millimetre."""
    if system == "metric":
        return f"{metres * 100:.1f} cm"
    return f"{unit('in').from_si(metres):.2f} in"


def grams(mass: float, decimals: int = 1) -> str:
    """Write a mass in grams, with its decimals, so that a scale's figure can be laid beside it."""
    return f"{mass * 1000:.{decimals}f} g"


def bare_grams(mass: float) -> str:
    """Write a mass in grams without the unit."""
    return trimmed(mass * 1000, 2)


def degrees(angle: float, decimals: int = 2) -> str:
    """Write an angle."""
    return f"{trimmed(unit('deg').from_si(angle), decimals)} deg"


def facing(angle: float) -> str:
    """Write a face angle, closed positive."""
    if abs(angle) <= _SQUARE:
        return "square"
    return f"{degrees(abs(angle))} {'closed' if angle > 0 else 'open'}"


def millimetres(metres: float) -> str:
    """Write a small length."""
    return f"{trimmed(metres * 1000, 1)} mm"


def thousandths(metres: float) -> str:
    """Write a diameter as the trade does, in thousandths of an inch."""
    return f"{unit('in').from_si(metres):.3f} in".removeprefix("0")


def points(value: float) -> str:
    """Write a difference of swing weight with its sign."""
    text = f"{value:+.1f}"
    return "0.0" if text in ("+0.0", "-0.0") else text


def signed_grams(mass: float) -> str:
    """Write a difference of mass with its sign."""
    text = f"{mass * 1000:+.1f}"
    return f"{'0.0' if text in ('+0.0', '-0.0') else text} g"


def figure(value: float, symbol: str, system: System) -> str:
    """Write one figure of a finished club."""
    if symbol == "points":
        return swing_weight_name(value)
    if symbol == "in":
        return place(value, system)
    if symbol == "g":
        return grams(value)
    return words(value, symbol, system)


def spread(value: float, symbol: str, system: System) -> str:
    """Write what a figure may be out by, without its unit where the figure has it."""
    if symbol == "points":
        return f"{value:.1f}"
    if symbol == "g":
        return f"{value * 1000:.1f}"
    if symbol == "in":
        return (
            difference_words(round(value, 5), "in", system).split()[0]
            if system == "metric"
            else (f"{unit('in').from_si(value):.2f}")
        )
    return f"{unit(symbol).step_from_si(value):.1f}"


def hours(seconds: float) -> str:
    """Write a cure."""
    return f"{round(seconds / 3600)} h"


def temperature(kelvin: float, system: System) -> str:
    """Write a bench temperature."""
    return words(kelvin, "degF", system)
