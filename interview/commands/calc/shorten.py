"""`turfpair calc shorten`: a club cut down at the butt, by the exact sum and by the bench rule."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from rules.bench.balance import mass_per_point
from rules.bench.build import SETBACK
from rules.bench.rules_of_thumb import HEAD_PER_POINT
from rules.bench.shorten import Shortening, shorten
from rules.bench.tape import tape_length
from rules.units import UNITS, System, words

HELP = "Points lost when a club is cut down at the butt, and the head mass that gives them back."


def configure(parser: ArgumentParser) -> None:
    """Add the two lengths and the parts."""
    parser.add_argument("--from", dest="before", metavar="LENGTH", required=True, help="length now")
    parser.add_argument("--to", dest="after", metavar="LENGTH", required=True, help="length wanted")
    parser.add_argument("--head-mass", metavar="MASS", required=True, help="mass of the head")
    parser.add_argument("--shaft-mass", metavar="MASS", required=True, help="mass of the shaft as it is now")
    parser.add_argument("--grip-mass", metavar="MASS", help="mass of the grip, which goes back on")
    parser.add_argument(
        "--setback",
        metavar="LENGTH",
        default="0 in",
        help="how far short of the length mark the added mass sits (0 in: at the mark)",
    )


def compute(args: Namespace) -> dict[str, Any]:
    """Work the cut out both ways."""
    cut = _cut(args)
    gram = UNITS["g"]
    return {
        "points_change": tidy(cut.points_change),
        "restore_g": tidy(gram.from_si(cut.restore)),
        "grams_per_point": tidy(gram.from_si(cut.mass_per_point)),
        "rule_of_thumb": {
            "points_change": tidy(cut.rule_points_change),
            "restore_g": tidy(gram.from_si(cut.rule_restore)),
        },
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say both answers side by side, which to trust, and what to watch."""
    cut, units = _cut(args), system(args)
    before, after = quantity(args.before, "in", "--from"), quantity(args.after, "in", "--to")
    rows = [
        ("points lost", f"{abs(cut.points_change):.1f}", f"{abs(cut.rule_points_change):.1f}"),
        ("mass to put back", _grams(cut.restore, units), _grams(cut.rule_restore, units)),
        ("mass of a point", words(cut.mass_per_point, "g", units, decimals=2), _grams(HEAD_PER_POINT, units)),
    ]
    heading = f"From {words(before, 'in', units)} to {words(after, 'in', units)}"
    return "\n".join(
        (heading, table(("", "exact sum", "bench rule"), rows), "", note(*_notes(cut, units, args)))
    )


def _notes(cut: Shortening, units: System, args: Namespace) -> list[str]:
    """Which to trust and why, then the cautions."""
    notes = [
        "Trust the exact sum: the bench rule (3 points for half an inch, 2 g a point) is right for a club of "
        f"39 in, and its {_grams(cut.rule_restore, units)} would make this one read "
        f"{cut.rule_overshoot:.1f} points too heavy.",
        f"The piece that comes off takes {_grams(cut.shaft_lost, units)} of shaft with it.",
    ]
    if quantity(args.setback, "in", "--setback") == 0:
        at_centre = -cut.points_change * mass_per_point(quantity(args.after, "in", "--to") - SETBACK)
        notes.append(
            "This counts the mass at the length mark; put in at the head's centre, "
            f"{words(SETBACK, 'in', units, decimals=2)} short of it or so, it is {_grams(at_centre, units)}."
        )
    tape = words(tape_length(cut.restore), "in", units, decimals=1)
    notes.append(
        f"Check it on the scale: tape the mass on ({tape} of half-inch lead tape), weigh it and hit it, then "
        "make it permanent."
    )
    if cut.too_much:
        notes.append(
            "CAUTION: more than 1 in off one club. That much added mass brings problems of its own; prefer a "
            "heavier head, or a more lofted head made for the shorter length."
        )
    return notes


def _grams(mass: float, units: System) -> str:
    """Write a mass to a tenth of a gram."""
    return words(mass, "g", units)


def _cut(args: Namespace) -> Shortening:
    """Read the options and work out the cut."""
    if args.grip_mass is not None:
        quantity(args.grip_mass, "g", "--grip-mass")
    return shorten(
        quantity(args.before, "in", "--from"),
        quantity(args.after, "in", "--to"),
        quantity(args.head_mass, "g", "--head-mass"),
        quantity(args.shaft_mass, "g", "--shaft-mass"),
        setback=quantity(args.setback, "in", "--setback"),
    )
