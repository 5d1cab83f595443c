"""Quantities and their words: text as people type it to SI, and SI back to text.

Inside Turfpair every quantity is SI (m, kg, s, rad, K). This room turns `"42 1/4 in"`, `5'11"` or
`"60 degF"` into SI and back. Factors are the exact definitions of the international yard and pound
(NIST SP 811, 2008, appendix B).
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Literal

System = Literal["imperial", "metric"]
"""How quantities are displayed. It never governs how they are read."""


class UnitError(ValueError):
    """A quantity that cannot be read; the message is one sentence fit for a person."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its symbol, what it measures, and how to reach SI (`si = value * factor + offset`)."""

    symbol: str
    dimension: str
    factor: float = 1.0
    offset: float = 0.0
    decimals: int = 1

    def to_si(self, value: float) -> float:
        """Turn a value in this unit into SI."""
        return value * self.factor + self.offset

    def from_si(self, value: float) -> float:
        """Turn an SI value into this unit."""
        return (value - self.offset) / self.factor

    def step_from_si(self, difference: float) -> float:
        """Turn an SI *difference* into this unit: a spread of 5 K is 9 degF, not -450."""
        return difference / self.factor


_INCH = 0.0254
_OUNCE = 0.028349523125
UNITS: dict[str, Unit] = {
    u.symbol: u
    for u in (
        Unit("m", "length", 1.0, decimals=1),
        Unit("cm", "length", 0.01, decimals=1),
        Unit("mm", "length", 0.001, decimals=1),
        Unit("in", "length", _INCH, decimals=2),
        Unit("ft", "length", 12 * _INCH, decimals=0),
        Unit("yd", "length", 36 * _INCH, decimals=0),
        Unit("kg", "mass", 1.0, decimals=3),
        Unit("g", "mass", 0.001, decimals=1),
        Unit("oz", "mass", _OUNCE, decimals=2),
        Unit("lb", "mass", 16 * _OUNCE, decimals=2),
        Unit("m/s", "speed", 1.0, decimals=1),
        Unit("mph", "speed", 0.44704, decimals=1),
        Unit("km/h", "speed", 1 / 3.6, decimals=0),
        Unit("ft/s", "speed", 12 * _INCH, decimals=0),
        Unit("rad", "angle", 1.0, decimals=3),
        Unit("deg", "angle", math.pi / 180, decimals=1),
        Unit("K", "temperature", 1.0, decimals=0),
        Unit("degC", "temperature", 1.0, 273.15, decimals=0),
        Unit("degF", "temperature", 5 / 9, 273.15 - 32 * 5 / 9, decimals=0),
        Unit("rad/s", "spin", 1.0, decimals=0),
        Unit("rpm", "spin", 2 * math.pi / 60, decimals=0),
        Unit("kg*m2", "inertia", 1.0, decimals=4),
        Unit("kg*cm2", "inertia", 1e-4, decimals=0),
        Unit("g*cm2", "inertia", 1e-7, decimals=0),
        Unit("kg*m", "moment", 1.0, decimals=4),
        Unit("oz*in", "moment", _OUNCE * _INCH, decimals=2),
        Unit("g*in", "moment", 0.001 * _INCH, decimals=0),
        Unit("N*m", "torque", 1.0, decimals=1),
        Unit("in*lbf", "torque", _INCH * 16 * _OUNCE * 9.80665, decimals=0),
        Unit("s", "time", 1.0, decimals=1),
        Unit("min", "time", 60.0, decimals=0),
        Unit("h", "time", 3600.0, decimals=0),
        Unit("d", "time", 86400.0, decimals=0),
        Unit("kg/m3", "density", 1.0, decimals=3),
        Unit("Pa", "pressure", 1.0, decimals=0),
        Unit("", "number", 1.0, decimals=3),
        Unit("%", "number", 0.01, decimals=1),
        Unit("points", "swing weight", 1.0, decimals=1),
        Unit("strokes", "handicap", 1.0, decimals=1),
    )
}
"""Every unit that may be typed, by its symbol."""

_ALIASES = {
    '"': "in", "″": "in", "”": "in", "''": "in", "inch": "in", "inches": "in", "ins": "in",
    "'": "ft", "′": "ft", "’": "ft", "foot": "ft", "feet": "ft",
    "yard": "yd", "yards": "yd", "yds": "yd", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "millimetres": "mm", "millimeters": "mm", "centimetres": "cm", "centimeters": "cm",
    "gram": "g", "grams": "g", "gr": "g", "ounce": "oz", "ounces": "oz", "pounds": "lb", "lbs": "lb",
    "kph": "km/h", "kmh": "km/h", "kmph": "km/h", "mps": "m/s",
    "°": "deg", "degree": "deg", "degrees": "deg",
    "°c": "degC", "c": "degC", "degc": "degC", "°f": "degF", "f": "degF", "degf": "degF",
    "percent": "%", "per cent": "%", "point": "points", "pt": "points", "pts": "points",
    "stroke": "strokes", "hcp": "strokes", "g·cm²": "g*cm2", "g*cm^2": "g*cm2", "kg*cm^2": "kg*cm2",
    "oz·in": "oz*in", "nm": "N*m", "n·m": "N*m", "n*m": "N*m",
    "in-lb": "in*lbf", "in·lb": "in*lbf", "in lb": "in*lbf", "in*lb": "in*lbf", "in-lbf": "in*lbf",
    "hour": "h", "hours": "h", "day": "d", "days": "d", "sec": "s", "seconds": "s",
}  # fmt: skip
_WHOLE = {"yd", "ft"}
"""Distances over ground: shown in whole metres."""
_METRIC = {
    "mph": "km/h", "yd": "m", "ft": "m", "in": "cm", "degF": "degC", "oz": "g", "lb": "kg", "in*lbf": "N*m",
}  # fmt: skip
_IMPERIAL = {"km/h": "mph", "m/s": "mph", "m": "yd", "cm": "in", "degC": "degF", "N*m": "in*lbf"}

_EXAMPLES = {
    "mph": "85 mph", "in": "42 1/4 in", "yd": "180 yd", "g": "212 g", "deg": "15 deg", "mm": "31.5 mm",
    "degF": "60 degF", "degC": "15 degC", "strokes": "18", "points": "D1", "%": "40 %",
}  # fmt: skip

_NUMBER = r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d{1,3})?"
_FRACTION = re.compile(r"^([+-]?)(?:(\d+)[\s-]+)?(\d+)\s*/\s*(\d+)\s*(\D.*)?$")
_PLAIN = re.compile(rf"^({_NUMBER})\s*(.*)$", re.IGNORECASE)
_FEET = re.compile(r"^(\d+)\s*(?:'|′|’|ft|feet|foot)\s*(.*)$", re.IGNORECASE)
_SWING_WEIGHT = re.compile(r"^([A-Ga-g])\s*(\d{1,2}(?:[.,]\d+)?)$")


def unit(symbol: str) -> Unit:
    """Return the unit called `symbol` (aliases allowed); UnitError when there is none."""
    text = symbol.strip()
    if text in UNITS:
        return UNITS[text]
    found = _ALIASES.get(text) or _ALIASES.get(text.lower()) or text.lower()
    if found in UNITS:
        return UNITS[found]
    raise UnitError(f"'{symbol[:40]}' is not a unit that is known here")


def _decimal(text: str) -> float:
    """Read a decimal, a comma allowed; a comma that could mean thousands is refused."""
    if re.search(r",\d{3}(?!\d)", text):
        raise UnitError(f"'{text}' could mean thousands or a decimal; write it without the comma")
    return float(text.replace(",", "."))


def _split(text: str) -> tuple[float, str]:
    """Split typed text into a number and what follows it."""
    fraction = _FRACTION.match(text)
    if fraction:
        sign, whole, over, under, rest = fraction.groups()
        if int(under) == 0:
            raise UnitError(f"'{text}' divides by nothing")
        value = int(whole or 0) + int(over) / int(under)
        return (-value if sign == "-" else value), (rest or "").strip()
    plain = _PLAIN.match(text)
    if not plain:
        raise UnitError(f"'{text[:40]}' does not start with a number")
    return _decimal(plain.group(1)), plain.group(2).strip()


def _feet_and_inches(text: str, default: Unit) -> float | None:
    """Read `5'11"`, `5 ft 11 in` or `6 ft` where a length is wanted; None when it is not so written."""
    match = _FEET.match(text)
    if default.dimension != "length" or not match:
        return None
    rest = match.group(2).strip()
    inches = 0.0
    if rest:
        value, tail = _split(rest)
        if tail and unit(tail).symbol != "in":
            raise UnitError(f"'{text[:40]}' mixes feet with something that is not inches")
        inches = value
    return (int(match.group(1)) * 12 + inches) * _INCH


def swing_weight_points(text: str) -> float:
    """Read a swing weight such as `D1.5` as points from D0 (ten points a letter)."""
    match = _SWING_WEIGHT.match(text.strip())
    if not match or (number := _decimal(match.group(2))) >= 10:
        raise UnitError(f"'{text[:40]}' is not a swing weight such as 'D1.5' (letters A to G, 0 to 9.9)")
    return (ord(match.group(1).upper()) - ord("D")) * 10.0 + number


def swing_weight_name(points: float) -> str:
    """Name points from D0: rounded to a tenth first, then named, so that it never reads D10.0.

    Below A0 and above G9.9 the letters end; the name then keeps the end letter and says by how much.
    """
    tenths = round(points * 10)
    letter = min(max(tenths // 100, -3), 3)
    return f"{chr(ord('D') + letter)}{(tenths - letter * 100) / 10:.1f}"


def parse(value: str | float, default: Unit | str) -> float:
    """Read a quantity as typed and return SI.

    A bare number takes `default`. A unit of another dimension is refused with a sentence that names
    what is wanted. Swing weights read as points from D0; a plus handicap `+3` reads as -3.
    """
    wanted = unit(default) if isinstance(default, str) else default
    if isinstance(value, bool):
        raise UnitError(f"yes or no is not {_a(wanted)}")
    if isinstance(value, int | float):
        number, given = float(value), wanted
    else:
        text = value.strip()
        special = _special(text, wanted)
        if special is not None:
            return special
        number, rest = _split(text)
        given = unit(rest) if rest else wanted
    if given.dimension != wanted.dimension:
        raise UnitError(f"'{value}' is {_a(given)}; {_a(wanted)} is wanted, such as '{_example(wanted)}'")
    if not math.isfinite(number):
        raise UnitError(f"'{value}' is not a finite number")
    if isinstance(value, int | float) or not rest:
        return wanted.to_si(number)
    return given.to_si(number)


def _special(text: str, wanted: Unit) -> float | None:
    """Read what is not written as number and unit: swing weights, plus handicaps, feet and inches."""
    if len(text) > 60:
        raise UnitError("that is far too long for a number with a unit")
    if wanted.dimension == "swing weight" and text[:1].isalpha():
        return swing_weight_points(text)
    if wanted.dimension == "handicap" and text.startswith("+"):
        return -abs(_split(text[1:].strip())[0])
    return _feet_and_inches(text, wanted)


def _a(given: Unit) -> str:
    """Name what a unit measures, with its article."""
    names = {"number": "a plain number or a share", "points": "a swing weight", "angle": "an angle"}
    name = names.get(given.dimension, f"a {given.dimension}")
    return name.replace("a inertia", "an inertia")


def _example(wanted: Unit) -> str:
    """Return a plausible value in a unit, for an error message."""
    return _EXAMPLES.get(wanted.symbol, f"10 {wanted.symbol}".strip())


def shown_in(symbol: str, system: System) -> Unit:
    """Return the unit in which a quantity declared in `symbol` is displayed under a system."""
    swap = _METRIC if system == "metric" else _IMPERIAL
    return UNITS[swap.get(symbol, symbol)]


def _inches(value: float) -> str:
    """Write inches as a bench does: sixteenths as a fraction, anything finer as a decimal."""
    sixteenths = round(value * 16)
    if abs(value * 16 - sixteenths) > 1e-6:
        return _trim(value, 2)
    sign = "-" if sixteenths < 0 else ""
    whole, part = divmod(abs(sixteenths), 16)
    if not part:
        return f"{sign}{whole}"
    shrink = math.gcd(part, 16)
    fraction = f"{part // shrink}/{16 // shrink}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def _trim(value: float, decimals: int) -> str:
    """Write a number to so many decimals, without trailing noughts and without minus nought."""
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def words(value: float, symbol: str, system: System = "imperial", *, decimals: int | None = None) -> str:
    """Write an SI value as a person would, in the unit that belongs to `symbol` under a system."""
    if symbol == "points":
        return swing_weight_name(value)
    if symbol == "strokes":
        return _trim(value, 1) if value >= 0 else f"+{_trim(-value, 1)}"
    shown = shown_in(symbol, system)
    number = shown.from_si(value)
    if shown.symbol == "in" and decimals is None:
        return f"{_inches(number)} in"
    usual = 0 if symbol in _WHOLE else shown.decimals
    text = _trim(number, usual if decimals is None else decimals)
    return f"{text} {shown.symbol}".strip()


def difference_words(value: float, symbol: str, system: System = "imperial") -> str:
    """Write an SI difference (a spread, an adjustment): offsets do not apply, points stay points."""
    if symbol in ("points", "strokes"):
        return f"{_trim(value, 1)} {symbol}"
    shown = shown_in(symbol, system)
    number = shown.step_from_si(value)
    if shown.symbol == "in":
        return f"{_inches(number)} in"
    return f"{_trim(number, shown.decimals)} {shown.symbol}".strip()
