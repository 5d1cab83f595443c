"""Quantities as a person would round them, in the words of a voice."""

from __future__ import annotations

import re

from rules.units import System, unit, words

_SPELLED = {
    "deg": ("degree", "degrees"), "yd": ("yard", "yards"), "ft": ("foot", "feet"), "in": ("inch", "inches"),
    "g": ("gram", "grams"), "mph": ("mile an hour", "miles an hour"),
    "degF": ("degree Fahrenheit", "degrees Fahrenheit"), "degC": ("degree Celsius", "degrees Celsius"),
}  # fmt: skip
_NUMBER = r"(?<![\d/.])((?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)"
_ABBREVIATED = re.compile(rf"{_NUMBER} (degF|degC|deg|yd|ft|in|g|mph)\b(?! (?:a|the|all|any)\b)")
_FINE_SHARE = re.compile(r"\b(\d{2,}\.\d+) %")


def trimmed(value: float, decimals: int) -> str:
    """Write a number to so many decimals, without trailing noughts and without minus nought."""
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def signed(amount: float, decimals: int = 2) -> str:
    """Write what a line of a ledger moves, with its sign."""
    text = f"{amount:+.{decimals}f}"
    return text.lstrip("+-") if float(text) == 0 else text


def degrees(angle: float) -> str:
    """Write an angle, to a quarter where the shop has quarters."""
    number = trimmed(unit("deg").from_si(angle), 2)
    return f"{number} degree" if number == "1" else f"{number} degrees"


def length(metres: float, system: System) -> str:
    """Write a length of a club as a bench does."""
    return words(metres, "in", system)


def spoken_length(metres: float, system: System) -> str:
    """Write a length of a club as a golfer says it."""
    return spelled(length(metres, system))


def distance(metres: float, system: System, *, about: bool = False) -> str:
    """Write a distance on the course; `about` rounds as people do, to five."""
    number = metres if system == "metric" else unit("yd").from_si(metres)
    name = "m" if system == "metric" else "yd"
    return f"{_five(number)} {'metres' if name == 'm' else 'yards'}" if about else f"{round(number)} {name}"


def height(metres: float, system: System, *, about: bool = False) -> str:
    """Write how high a ball climbs."""
    if system == "metric":
        return f"{round(metres)} {'metres' if about else 'm'}"
    number = unit("ft").from_si(metres)
    return f"{_five(number)} feet" if about else f"{round(number)} ft"


def _five(number: float) -> int:
    """Round to the nearest five."""
    return 5 * round(number / 5)


def grams(mass: float) -> str:
    """Write a small mass."""
    return f"{trimmed(unit('g').from_si(mass), 1)} g"


def millimetres(metres: float) -> str:
    """Write a small length."""
    return f"{trimmed(unit('mm').from_si(metres), 1)} mm"


def in_ten(share: float) -> str:
    """Write a share as balls of ten, as a golfer counts."""
    count = round(share * 10)
    if count == 0:
        return "hardly any of your balls"
    if count >= 10:
        return "nearly all of your balls"
    return f"about {count} in 10 of your balls"


def spelled(sentence: str) -> str:
    """Spell the units of a sentence out, for somebody who does not read abbreviations."""
    return _ABBREVIATED.sub(_in_full, rounded(sentence))


def _in_full(found: re.Match[str]) -> str:
    """Return a quantity with its unit spelled out, one of it in the singular."""
    number, symbol = found.groups()
    one = number == "1" or ("/" in number and " " not in number)
    return f"{number} {_SPELLED[symbol][0 if one else 1]}"


def rounded(sentence: str) -> str:
    """Round the shares in a sentence to whole per cents where they are ten or more."""
    return _FINE_SHARE.sub(lambda found: f"{round(float(found.group(1)))} %", sentence)


def listed(parts: list[str], last: str = "and") -> str:
    """Join words as a person would."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} {last} {parts[-1]}" if parts else ""


def opened(sentence: str) -> str:
    """Begin a sentence with a capital and leave the rest alone."""
    return sentence[:1].upper() + sentence[1:]
