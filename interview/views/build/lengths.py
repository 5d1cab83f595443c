"""What each half inch of a club costs: a table, its words, and plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from interview.text import columns
from interview.views.laws import flight_laws
from interview.views.numbers import in_unit, number
from interview.views.outcome_text.quantities import trimmed
from rules.units import System, swing_weight_name, unit, words
from rules.workbench.lengths import length_table

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.workbench.lengths import LengthRow

_INCH = unit("in").factor


class LengthPrices(NamedTuple):
    """One club by half inches."""

    rows: tuple[LengthRow, ...]
    """Shortest first."""
    target: float
    """Swing weight that the club keeps, points from D0."""
    his_own: bool
    marks: int
    """Of his own strikes that the spread rests on; 0 says that it comes from his answers."""
    speed_rate: float
    """Share of head speed that an inch is worth."""
    scatter_rate: float
    """Share of strike scatter that an inch is worth."""


def length_prices(outcome: Outcome, role: str) -> LengthPrices | None:
    """Return a club of the pair by half inches; None where there is no such club."""
    rung = next((club.rung for club in outcome.clubs if club.role == role), None)
    base, golfer = outcome.house.base, outcome.golfer
    if rung is None:
        return None
    rates = (base.assumptions[f"{what}-per-inch"].value for what in ("speed", "scatter"))
    speed, scatter = (float(rate) for rate in rates)  # type: ignore[arg-type]
    rows = length_table(base, outcome.house.shelf, golfer, rung)
    return LengthPrices(rows, rung.spec.balance, rung.owned is not None, golfer.pattern.marks, speed, scatter)


def length_lines(of: LengthPrices, system: System) -> list[str]:
    """Lay the half inches out as a table, the length decided marked."""
    head = ("  length", "speed", "spread", "get up", "all balls", "clean", "to add")
    return columns(head, (_row(row, system) for row in of.rows))


def _row(row: LengthRow, system: System) -> tuple[str, ...]:
    """Write one length; a mass that the ports cannot hold is marked."""
    low, high = (_distance(carry, system) for carry in row.band)
    name = "m" if system == "metric" else "yd"
    return (
        f"{'>' if row.chosen else ' '} {words(row.length, 'in', system)}",
        _speed(row.flown.speed, system),
        f"{row.scatter_toe * 1000:.1f} mm",
        f"{round(row.flown.usable * 100)} %",
        f"{low} {name}" if low == high else f"{low} to {high} {name}",
        f"{_distance(row.flown.centred, system)} {name}",
        f"{row.needed * 1000 + 0.0:.1f} g{' !' if row.holds is False else ''}",
    )


def _speed(metres_a_second: float, system: System) -> str:
    """Write a head speed to a tenth, which is what half an inch is worth."""
    symbol = "km/h" if system == "metric" else "mph"
    return f"{unit(symbol).from_si(metres_a_second):.1f} {symbol}"


def _distance(metres: float, system: System) -> int:
    """Round a carry to whole yards or metres."""
    return round(metres if system == "metric" else unit("yd").from_si(metres))


def length_notes(of: LengthPrices) -> list[str]:
    """Say what the columns hold, and how far to trust them."""
    if of.his_own:
        stays = "The club is cut down; to add: what it wants back to read as it does now"
    else:
        asks = f"what {swing_weight_name(of.target)} asks for at that length"
        stays = f"Head, shaft and grip stay; to add: {asks}"
    beyond = "; ! is more than its head takes, or less than nothing" if _beyond(of) else ""
    strikes = f"from {of.marks} marks on the face" if of.marks else "from answers, not from marks on a face"
    return [
        f"{stays}{beyond}. Spread: your strikes heel to toe, {strikes}. All balls: carry over strikes, lies "
        f"and mishits, by the {flight_laws()}.",
        f"Speed here is one club's own, {trimmed(of.speed_rate * 100, 2)} % an inch (0.4 to 0.8, published "
        "and common practice); from club to club it falls by another law. Strikes spread by "
        f"{trimmed(of.scatter_rate * 100, 1)} % an inch (4 to 8), a house value: no published table was "
        "found.",
    ]


def _beyond(of: LengthPrices) -> bool:
    return any(row.holds is False for row in of.rows)


def length_for_customer(of: LengthPrices, system: System) -> str:
    """Say in one sentence what an inch more would do; empty where no such length was built."""
    now = next(row for row in of.rows if row.chosen)
    longer = next((row for row in of.rows if abs(row.length - now.length - _INCH) < 1e-6), None)
    if longer is None:
        return ""
    carry = _distance(longer.flown.expected - now.flown.expected, system)
    name = "metre" if system == "metric" else "yard"
    change = f"{abs(carry)} {name}{'' if abs(carry) == 1 else 's'} {'more' if carry > 0 else 'less'}"
    wider = round((longer.scatter_toe / now.scatter_toe - 1) * 100)
    return (
        f"An inch longer would swing a little faster and spread your strikes about {wider} % wider; counting "
        f"every ball it would carry {change if carry else 'no farther'}."
    )


def length_data(of: LengthPrices) -> list[dict[str, Any]]:
    """Return the half inches as plain data, units in the keys."""
    return [_data(row) for row in of.rows]


def _data(row: LengthRow) -> dict[str, Any]:
    """Return one length as plain data."""
    return {
        "length_in": in_unit(row.length, "in"),
        "chosen": row.chosen,
        "head_speed_mph": in_unit(row.flown.speed, "mph", 2),
        "scatter_toe_mm": in_unit(row.scatter_toe, "mm", 2),
        "scatter_high_mm": in_unit(row.scatter_high, "mm", 2),
        "usable_share": number(row.flown.usable, 4),
        "carry_yd": {
            "expected": in_unit(row.flown.expected, "yd", 1),
            "centred": in_unit(row.flown.centred, "yd", 1),
            "low": in_unit(row.band[0], "yd", 1),
            "high": in_unit(row.band[1], "yd", 1),
        },
        "mass_needed_g": in_unit(row.needed, "g", 2),
        "ports_hold_it": row.holds,
    }
