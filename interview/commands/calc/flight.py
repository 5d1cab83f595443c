"""`turfpair calc flight`: carry, height and descent of a ball from its launch, with an honest band."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from dataclasses import dataclass
from typing import Any, cast

from interview.commands.calc import note, quantity, system, table, tidy
from rules.golf.air import density
from rules.golf.coefficients import Law
from rules.golf.flight import CARRY_BIAS, CARRY_RMS, Flight, Launch, fly
from rules.problems import Problem
from rules.units import UNITS, System, words

HELP = "Carry, height and descent of a ball from how it leaves the face, in still air over flat ground."

_TITLES: dict[Law, str] = {"first": "Bearman & Harvey 1976", "second": "Naruo and others 2004"}


def configure(parser: ArgumentParser) -> None:
    """Add the launch and the air."""
    parser.add_argument("--ball-speed", metavar="SPEED", required=True, help="as '162 mph'")
    parser.add_argument("--launch", metavar="ANGLE", required=True, help="above the horizon, as '9.3 deg'")
    parser.add_argument("--spin", metavar="SPIN", required=True, help="backspin, as '3663 rpm'")
    parser.add_argument("--temperature", metavar="T", default="25 degC", help="of the air (25 degC)")
    parser.add_argument("--humidity", metavar="PERCENT", default="50 %", help="of the air (50 %%)")
    parser.add_argument("--altitude", metavar="HEIGHT", default="0 m", help="above the sea (0 m)")
    parser.add_argument(
        "--law", choices=("first", "second"), default="first", help="published drag and lift (first)"
    )


@dataclass(frozen=True)
class _Flown:
    """The flight asked for, and the other law's beside it."""

    law: Law
    air: float
    main: Flight
    other: Flight


def _flown(args: Namespace) -> _Flown:
    """Read the options and fly the ball by both laws; Problem for a spin that is not backspin."""
    spin = quantity(args.spin, "rpm", "--spin")
    if spin < 0.0:
        raise Problem("--spin: backspin cannot be below 0; the two laws say nothing of topspin")
    launch = Launch(
        quantity(args.ball_speed, "mph", "--ball-speed"), quantity(args.launch, "deg", "--launch"), spin
    )
    air = density(
        quantity(args.temperature, "degC", "--temperature"),
        quantity(args.humidity, "%", "--humidity"),
        quantity(args.altitude, "m", "--altitude"),
    )
    law = cast(Law, args.law)
    return _Flown(law, air, fly(launch, air, law), fly(launch, air, _rival(law)))


def _rival(law: Law) -> Law:
    """Name the other law."""
    return "second" if law == "first" else "first"


def compute(args: Namespace) -> dict[str, Any]:
    """Fly the ball; `clipped` is added, and true, only when it left the range of the law."""
    flown = _flown(args)
    flight, yard = flown.main, UNITS["yd"]
    carries = sorted((flight.carry, flown.other.carry))
    result: dict[str, Any] = {
        "carry_yd": tidy(yard.from_si(flight.carry)),
        "apex_yd": tidy(yard.from_si(flight.apex)),
        "apex_ft": tidy(UNITS["ft"].from_si(flight.apex)),
        "descent_deg": tidy(UNITS["deg"].from_si(flight.descent)),
        "time_s": tidy(flight.time),
        "carry_band_yd": [tidy(yard.from_si(carry)) for carry in carries],
        "law": flown.law,
    }
    return {**result, "clipped": True} if flight.clipped else result


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say the flight by both laws, how it was computed, and what not to believe of it."""
    flown, units = _flown(args), system(args)
    if flown.main.time == 0.0:
        return note("That ball never leaves the ground: it starts level or downward, and runs.")
    rival = _rival(flown.law)
    rows = [
        ("carry", *(words(one.carry, "yd", units, decimals=0) for one in (flown.main, flown.other))),
        ("apex", *(_height(one, units) for one in (flown.main, flown.other))),
        ("descent", *(words(one.descent, "deg", units, decimals=0) for one in (flown.main, flown.other))),
        ("time", *(words(one.time, "s", units, decimals=1) for one in (flown.main, flown.other))),
    ]
    titles = (f"{flown.law} law", f"{rival} law")
    return "\n".join((table(("", *titles), rows), "", note(*_faults(flown, units))))


def _height(flight: Flight, units: System) -> str:
    """Write an apex in feet, or in metres."""
    return words(flight.apex, "ft", units, decimals=0)


def _faults(flown: _Flown, units: System) -> list[str]:
    """How it was computed, and its known faults."""
    rival, law = _rival(flown.law), flown.law
    low, high = sorted((flown.main.carry, flown.other.carry))
    near, far = (words(carry, "yd", units, decimals=0) for carry in (low, high))
    lines = [
        f"Still air of {flown.air:.3f} kg/m3, flat ground, a ball of the size and mass that the rules allow. "
        f"The {law} law is {_TITLES[law]}, the {rival} {_TITLES[rival]}; neither is tuned.",
        f"Believe a carry of {near} to {far}, leaning short: on published tour averages the first law "
        f"carries {_fault('first', units)}, the second {_fault('second', units)}. Trust the first for carry "
        "and either for apex.",
        "Both laws land these clubs about 6 degrees too flat: use the descent to compare two clubs, not as "
        "the truth.",
    ]
    if flown.main.clipped:
        lines.append(
            f"CAUTION: this ball leaves what the {law} law was measured for, and edge values stood in."
        )
    return lines


def _fault(law: Law, units: System) -> str:
    """Say by how much a law carries too far."""
    bias, rms = (words(one[law], "yd", units, decimals=1) for one in (CARRY_BIAS, CARRY_RMS))
    return f"{bias} too far (RMS {rms})"
