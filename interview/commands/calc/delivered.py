"""`turfpair calc delivered`: the loft that a golfer delivers, from launches or from how high he flies it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from rules.golf.air import density
from rules.golf.delivery import Delivery, Estimate, Seen, learn_delivery
from rules.golf.impact import Clubhead
from rules.golf.sight import loft_for_apex
from rules.problems import Problem
from rules.units import UNITS, System, UnitError, words

HELP = "Delivered loft, attack and restitution that best explain a launch; or the loft behind an apex."

_SPREADS = {"ball_speed": ("mph", 1.0), "launch": ("deg", 0.5), "spin": ("rpm", 250.0)}
"""How far the mean of a few launches may be out: unit and one spread (house values)."""
_BELIEVED = {"loft": ("deg", 2.0), "attack": ("deg", 1.5), "restitution": ("", 0.02), "speed": ("mph", 1.0)}
"""How far what is believed before may be out (house values; delivered loft 2 deg is the widest)."""


def configure(parser: ArgumentParser) -> None:
    """Add what is believed, and what was measured or seen."""
    parser.add_argument("--head-speed", metavar="SPEED", required=True, help="of this club")
    parser.add_argument("--loft", metavar="ANGLE", required=True, help="of the club, as the gauge says")
    parser.add_argument("--attack", metavar="ANGLE", default="-2 deg", help="up positive (-2 deg)")
    parser.add_argument("--head-mass", metavar="MASS", default="215 g", help="with its weights (215 g)")
    parser.add_argument("--restitution", metavar="E", default="0.82", help="of this head (0.82)")
    parser.add_argument("--ball-speed", metavar="SPEED", help="mean of clean strikes")
    parser.add_argument("--launch", metavar="ANGLE", help="the same")
    parser.add_argument("--spin", metavar="SPIN", help="the same")
    parser.add_argument("--apex", metavar="HEIGHT", help="how high clean balls climb, where nobody measured")


def _head(args: Namespace) -> Clubhead:
    """Read the head; a clean strike has no lever, so its inertia does not matter."""
    mass = quantity(args.head_mass, "g", "--head-mass")
    return Clubhead(mass, quantity(args.restitution, "", "--restitution"), 0.2)


def _seen(args: Namespace) -> Seen | None:
    """Read what was measured; None when nothing was."""
    found = {}
    for name, (symbol, spread) in _SPREADS.items():
        typed = getattr(args, name)
        if typed is not None:
            value = quantity(typed, symbol, f"--{name.replace('_', '-')}")
            found[name] = Estimate(value, UNITS[symbol].factor * spread)
    return Seen(**found) if found else None


def _believed(args: Namespace) -> Delivery:
    """Return what is believed before anything is seen: the loft of the club, delivered as it is."""
    options = {"speed": "head_speed"}
    parts = {}
    for name, (symbol, spread) in _BELIEVED.items():
        option = options.get(name, name)
        value = quantity(getattr(args, option), symbol, f"--{option.replace('_', '-')}")
        parts[name] = Estimate(value, UNITS[symbol].factor * spread)
    return Delivery(parts["speed"], parts["loft"], parts["attack"], parts["restitution"])


def _found(args: Namespace) -> Delivery:
    """Work out what was delivered; UnitError where neither a launch nor an apex was given."""
    seen, believed = _seen(args), _believed(args)
    if (seen is None) == (args.apex is None):
        raise UnitError(
            "give either a measured launch (--ball-speed, --launch, --spin; any of them) or --apex"
        )
    if seen is not None:
        return learn_delivery(seen, believed, _head(args))
    apex, air = quantity(args.apex, "ft", "--apex"), density(293.15, 0.5, 0.0)
    try:
        loft = loft_for_apex(apex, believed.speed.value, believed.attack.value, _head(args), air)
    except Problem as problem:
        raise UnitError(f"--apex: {problem}") from None
    return Delivery(believed.speed, Estimate(loft, 0.0), believed.attack, believed.restitution)


def compute(args: Namespace) -> dict[str, Any]:
    """Work out what was delivered; spreads are null where an apex alone was given."""
    found, degree = _found(args), UNITS["deg"]
    measured = args.apex is None
    return {
        "delivered_loft_deg": tidy(degree.from_si(found.loft.value)),
        "delivered_less_club_deg": tidy(degree.from_si(found.loft.value - _believed(args).loft.value)),
        "spread_deg": tidy(degree.from_si(found.loft.spread)) if measured else None,
        "attack_deg": tidy(degree.from_si(found.attack.value)),
        "restitution": tidy(found.restitution.value),
        "head_speed_mph": tidy(UNITS["mph"].from_si(found.speed.value)),
        "misfit": tidy(found.misfit) if measured else None,
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Lay what is believed beside what was found, and say how far to trust it."""
    before, after, units = _believed(args), _found(args), system(args)
    rows = [
        ("delivered loft", *_both(before.loft, after.loft, "deg", units)),
        ("attack angle", *_both(before.attack, after.attack, "deg", units)),
        ("head speed", *_both(before.speed, after.speed, "mph", units)),
        ("restitution", f"{before.restitution.value:.3f}", f"{after.restitution.value:.3f}"),
    ]
    return f"{table(('', 'believed', 'found'), rows)}\n\n{note(*_notes(before, after, args, units))}"


def _both(before: Estimate, after: Estimate, symbol: str, units: System) -> tuple[str, str]:
    """Write a quantity before and after."""
    first, second = (words(one.value, symbol, units, decimals=1) for one in (before, after))
    return first, second


def _notes(before: Delivery, after: Delivery, args: Namespace, units: System) -> list[str]:
    """Say what the loft means, and what to doubt."""
    more = UNITS["deg"].from_si(after.loft.value - before.loft.value)
    way = "adds to" if more > 0 else "takes off"
    lines = [
        f"He {way} the club's loft by {abs(more):.1f} deg: fit lofts by what he delivers, not by stamps."
    ]
    if args.apex is None:
        lines.append(
            f"Give or take {UNITS['deg'].from_si(after.loft.spread):.1f} deg. Strikes off the centre lower "
            "ball speed and pass for restitution: use the mean of clean strikes, six at least."
        )
        if after.misfit > 2.0:
            lines.append("CAUTION: these readings do not fit one another or this speed; measure again.")
    else:
        lines.append(
            "From a height alone, by the first law of flight in air of 20 degC at sea level; both laws get "
            "the apex right. A height judged by eye may be a fifth out, some 2 deg of loft: count balls that "
            "get up, and measure launches when you can."
        )
    return lines
