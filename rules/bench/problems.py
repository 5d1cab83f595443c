"""What goes wrong at the bench, each worded once: what, where, what to do."""

from __future__ import annotations

import math

from rules.problems import Problem
from rules.units import UNITS, swing_weight_name


def _said(value: float, symbol: str) -> str:
    """Write an SI value in one unit, short enough for a sentence."""
    return f"{UNITS[symbol].from_si(value):.6g} {symbol}".strip()


class BenchProblem(Problem):
    """Anything that the bench refuses; `str()` is one sentence."""


class OutOfRange(BenchProblem):
    """A quantity that no club part has: negative, not a number, or absurd."""

    def __init__(self, quantity: str, value: float, low: float, high: float, symbol: str) -> None:
        self.quantity, self.value, self.low, self.high, self.symbol = quantity, value, low, high, symbol
        given = _said(value, symbol) if math.isfinite(value) else "not a finite number"
        super().__init__(
            f"the {quantity} is {given}; it must lie between {_said(low, symbol)} and {_said(high, symbol)}"
        )


class NoParts(BenchProblem):
    """A club of which nothing was given."""

    def __init__(self) -> None:
        super().__init__("a balance needs at least one part with some mass; give the head, shaft and grip")


class TargetOutOfReach(BenchProblem):
    """A balance that the other parts already exceed, so that no head could bring it down."""

    def __init__(self, target: float, least: float) -> None:
        self.target, self.least = target, least
        super().__init__(
            f"no head mass gives {swing_weight_name(target)}: without a head the club already reads "
            f"{swing_weight_name(least)}; choose a higher target or other parts"
        )


class InertiaOutOfReach(BenchProblem):
    """An inertia that the other parts already exceed."""

    def __init__(self, target: float, least: float) -> None:
        self.target, self.least = target, least
        super().__init__(
            f"no head mass gives {_said(target, 'kg*cm2')}: the other parts alone have "
            f"{_said(least, 'kg*cm2')}; choose a higher target or other parts"
        )


class HeadTooNearFulcrum(BenchProblem):
    """A mass at or inside the 14-inch mark, where adding mass does not raise the reading."""

    def __init__(self, position: float) -> None:
        self.position = position
        super().__init__(
            f"mass at {_said(position, 'in')} from the butt does not raise the reading; "
            "give a place beyond 14 in"
        )


class ShaftTooShort(BenchProblem):
    """A raw shaft that cannot give the length asked for after its tip trim."""

    def __init__(self, needed: float, left: float) -> None:
        self.needed, self.left = needed, left
        super().__init__(
            f"the shaft must be {_said(needed, 'in')} long after its tip trim and only "
            f"{_said(left, 'in')} is left; take a longer raw shaft, a shorter club or less tip trim"
        )


class TipTrimTooLong(BenchProblem):
    """A tip trim that leaves less parallel tip than the head takes in."""

    def __init__(self, trim: float, parallel: float, insertion: float) -> None:
        self.trim, self.parallel, self.insertion = trim, parallel, insertion
        super().__init__(
            f"a tip trim of {_said(trim, 'in')} leaves {_said(parallel - trim, 'in')} of parallel tip and "
            f"the head takes {_said(insertion, 'in')}; trim less or take a shaft with a longer parallel tip"
        )


class NotShorter(BenchProblem):
    """A shortening that would lengthen."""

    def __init__(self, before: float, after: float) -> None:
        self.before, self.after = before, after
        super().__init__(
            f"shortening from {_said(before, 'in')} cannot end at {_said(after, 'in')}; "
            "the new length must not exceed the old one"
        )


class InsertionTooDeep(BenchProblem):
    """A shaft that would reach through the sole, or a dry fit shorter than its shaft."""

    def __init__(self, whole: float, part: float, what: str) -> None:
        self.whole, self.part = whole, part
        super().__init__(f"{what}: {_said(part, 'in')} is more than {_said(whole, 'in')}; measure both again")


class WeightTooLong(BenchProblem):
    """A hosel weight that leaves the shaft less than its least insertion."""

    def __init__(self, left: float, least: float) -> None:
        self.left, self.least = left, least
        super().__init__(
            f"this hosel weight leaves {_said(left, 'in')} for the shaft and {_said(least, 'in')} is the "
            "least; take a shorter weight, or put the mass elsewhere"
        )


class BeyondTheRules(BenchProblem):
    """A club length that the Rules of Golf do not allow."""

    def __init__(self, length: float, limit: float, which: str, rule: str) -> None:
        self.length, self.limit, self.rule = length, limit, rule
        super().__init__(
            f"a club of {_said(length, 'in')} does not conform: the {which} is {_said(limit, 'in')} ({rule})"
        )


class DuplicatePort(BenchProblem):
    """Two ports of one head under one name."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(f"the head has two ports called '{name}'; give each its own name")


class UnknownPlace(BenchProblem):
    """A port whose name says nothing about where it is."""

    def __init__(self, name: str, known: tuple[str, ...]) -> None:
        self.name, self.known = name, known
        super().__init__(
            f"where port '{name}' sits is not known; give its place (toeward, upward, backward in mm) "
            f"or use one of {', '.join(known)}"
        )


class TooCold(BenchProblem):
    """A bench too cold for slow epoxy to cure at all dependably."""

    def __init__(self, temperature: float, least: float) -> None:
        self.temperature, self.least = temperature, least
        super().__init__(
            f"at {_said(temperature, 'degF')} slow epoxy does not cure dependably; warm the bench to "
            f"{_said(least, 'degF')} at least before gluing"
        )


class MissingReading(BenchProblem):
    """A finished club without a reading that the arithmetic cannot do without."""

    def __init__(self, club: str, what: str) -> None:
        self.club, self.what = club, what
        super().__init__(f"the club '{club}' has no {what.removeprefix('a ')}; measure it and write it down")


class TooFewReadings(BenchProblem):
    """Too few finished clubs or readings to learn anything from."""

    def __init__(self, readings: int, wanted: int) -> None:
        self.readings, self.wanted = readings, wanted
        many = f"{readings} balance readings of finished clubs are"
        said = "1 balance reading of a finished club is" if readings == 1 else many
        super().__init__(
            f"{said} too few to learn from; weigh at least {wanted} clubs of different length or head mass"
        )


def require(quantity: str, value: float, low: float, high: float, symbol: str) -> float:
    """Return a value that lies within its bounds (SI), or raise OutOfRange; NaN never passes."""
    if not low <= value <= high:
        raise OutOfRange(quantity, value, low, high, symbol)
    return value
