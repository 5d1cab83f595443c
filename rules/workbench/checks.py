"""Finished clubs held against their plan: each figure with what is allowed, and whether it is within."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from rules.bench.balance import FULCRUM, Balance, finished, moment
from rules.bench.build import LENGTH_TOLERANCE, Build
from rules.bench.loft import effective_loft
from rules.units import parse, words
from rules.workbench.faults import ImpossibleReading, ReadingsDisagree
from rules.workbench.spreads import spreads

if TYPE_CHECKING:
    from rules.facts.subject import Reading
    from rules.shelf import Shop
    from rules.workbench.club import Club

GAUGE = parse("0.25 deg", "rad")
"""What an angle gauge reads to (common practice)."""
FACE_ALLOWED = parse("0.5 deg", "rad")
"""House value: a face angle as delivered may be out by this, two readings of the gauge."""
LIE_ALLOWED = parse("1 deg", "rad")
"""House value: a lie may be out by this; a degree of lie turns a lofted face by less than half of one."""
_FARTHEST = {
    "length": parse("3 in", "m"),
    "total": parse("60 g", "kg"),
    "balance_point": parse("3 in", "m"),
    "swing_weight": 25.0,
    "loft": parse("6 deg", "rad"),
}
"""Farther off the plan than this nobody builds by mistake (house values)."""
_AGREE = 1.0
"""Scale against knife edge and total, points: 1 g and 1/16 in on each are worth that."""

Verdict = Literal["unread", "within", "out"]


@dataclass(frozen=True, slots=True)
class Check:
    """One figure of a finished club (SI, points)."""

    what: str
    """length, swing_weight, total, balance_point, loft, face, lie or effective_loft."""
    planned: float
    read: float | None
    """None when it was not read."""
    allowed: float
    """Either way."""
    symbol: str

    @property
    def difference(self) -> float:
        """Read less planned; nought when it was not read."""
        return 0.0 if self.read is None else self.read - self.planned

    @property
    def verdict(self) -> Verdict:
        """Whether it was read and is within what is allowed."""
        if self.read is None:
            return "unread"
        return "within" if abs(self.difference) <= self.allowed + 1e-9 else "out"


def measured(club: Club, build: Build, reading: Reading) -> Balance | None:
    """Return what scale and knife edge say of a club; None when they do not say its moment.

    Total and balance point make the moment; a swing weight alone makes it too, with the planned total.
    Raises ReadingsDisagree where they contradict each other.
    """
    told = reading.swing_weight
    if reading.total is not None and reading.balance_point is not None:
        read = finished(reading.total, reading.balance_point)
        if told is not None and abs(told - read.points) > _AGREE:
            raise ReadingsDisagree(club.role, told, read.points)
        return read
    if told is None:
        return None
    return Balance(build.reading.total if reading.total is None else reading.total, moment(told))


def checks(club: Club, build: Build, reading: Reading, read: Balance | None, shop: Shop) -> tuple[Check, ...]:
    """Return every figure of a built club against its plan; raises ImpossibleReading."""
    about, sums = spreads(build), build.reading
    balance_point = reading.balance_point
    if balance_point is None and read is not None and reading.total is not None:
        balance_point = FULCRUM + read.moment / reading.total
    found = (
        Check("length", build.length, reading.length, LENGTH_TOLERANCE, "in"),
        Check(
            "swing_weight", club.target, None if read is None else read.points,
            shop.swing_weight_tolerance, "points",
        ),
        Check("total", sums.total, reading.total, about.total, "g"),
        Check("balance_point", sums.balance_point, balance_point, about.balance_point, "in"),
        *_angles(club, reading),
    )  # fmt: skip
    for what in _FARTHEST:
        _believe(club, next(check for check in found if check.what == what))
    return found


def _angles(club: Club, reading: Reading) -> tuple[Check, ...]:
    """Return loft, face and lie, and what the loft plays once the face is squared."""
    spec = club.rung.spec
    head = spec.head
    delivered = GAUGE if head is None else max(GAUGE, head.loft_tolerance)
    plan = effective_loft(spec.loft, spec.face_angle, spec.lie).geometry
    plays = effective(club, reading)
    return (
        Check("loft", spec.loft, reading.loft, delivered, "deg"),
        Check("face", spec.face_angle, reading.face, FACE_ALLOWED, "deg"),
        Check("lie", spec.lie, reading.lie, LIE_ALLOWED, "deg"),
        Check("effective_loft", plan, plays, delivered, "deg"),
    )


def effective(club: Club, reading: Reading) -> float | None:
    """Return the loft that a club plays with its face squared, by geometry, rad; None if nothing was read.

    What was not read of loft, face and lie is as planned.
    """
    if reading.loft is None and reading.face is None:
        return None
    spec = club.rung.spec
    loft, face, lie = (
        plan if got is None else got
        for got, plan in (
            (reading.loft, spec.loft), (reading.face, spec.face_angle), (reading.lie, spec.lie)
        )
    )  # fmt: skip
    return effective_loft(loft, face, lie).geometry


def _believe(club: Club, check: Check) -> None:
    """Refuse a reading that is not of this club."""
    if abs(check.difference) > _FARTHEST[check.what]:
        read, planned = (words(v, check.symbol) for v in (check.planned + check.difference, check.planned))
        raise ImpossibleReading(club.role, check.what.replace("_", " "), read, planned)
