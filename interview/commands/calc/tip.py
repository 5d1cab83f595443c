"""`turfpair calc tip`: whether a shaft's tip belongs in a bore; trims, insertion, and opening a bore."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from typing import Any

from interview.commands.calc import note, quantity, system, tidy
from rules.bench.cuts import (
    LEAST_INSERTION,
    Cuts,
    check_tip,
    cut_length,
    cuts,
    room_for_weight,
    trim_at_depth,
)
from rules.bench.problems import require
from rules.bench.rules_of_golf import check_length
from rules.bench.tip import TAPER_BORE_WAYS, Opening, TipFit, fit, open_bore
from rules.units import UNITS, System, UnitError, words

HELP = "Tip against bore, taper against parallel; trim and cuts of a raw shaft; insertion; opening a bore."

_IN = UNITS["in"]


def configure(parser: ArgumentParser) -> None:
    """Add tip and bore, then what each further answer wants."""
    parser.add_argument("--tip", metavar="DIAMETER", required=True, help="of the shaft, as '0.335 in'")
    parser.add_argument("--bore", metavar="DIAMETER", required=True, help="of the hosel, inside")
    parser.add_argument("--taper-tip", action="store_true", help="the tip is a taper")
    parser.add_argument("--taper-bore", action="store_true", help="the bore is a taper")
    opening = parser.add_argument_group("opening the bore to a parallel shaft")
    opening.add_argument("--open-to", metavar="DIAMETER", help="what it is to be opened to")
    opening.add_argument("--hosel-outside", metavar="DIAMETER", help="of the hosel where it is thinnest")
    opening.add_argument("--fixture", action="store_true", help="on a fixture and a drill press")
    weight = parser.add_argument_group("a weight in the hosel")
    weight.add_argument("--bore-depth", metavar="LENGTH", help="of the hosel, for the shaft and the weight")
    weight.add_argument("--hosel-weight", metavar="LENGTH", help="of the weight")
    trim = parser.add_argument_group("cutting a raw shaft, the tip first")
    trim.add_argument("--raw-length", metavar="LENGTH", help="of the raw shaft")
    trim.add_argument("--length", metavar="LENGTH", help="playing length of the club")
    trim.add_argument("--to-ground", metavar="LENGTH", help="bottom of bore to ground")
    trim.add_argument("--trim", metavar="LENGTH", default="0 in", help="by the shaft's note (0 in)")
    trim.add_argument("--note-depth", metavar="LENGTH", help="bottom of bore that the note was made for")
    trim.add_argument("--parallel-tip", metavar="LENGTH", help="length of the parallel tip, uncut")
    trim.add_argument("--insertion", metavar="LENGTH", default="1.125 in", help="of the shaft (1.125 in)")


def compute(args: Namespace) -> dict[str, Any]:
    """Judge the tip, and answer whatever else was asked; what was not asked is null."""
    found, opened, left, cut = _fit(args), _opening(args), _weight(args), _cuts(args)
    return {
        "verdict": found.verdict,
        "gap_in": tidy(_IN.from_si(found.gap)),
        "opening": None if opened is None else {
            "allowed": opened.allowed,
            "wall_mm": None if opened.wall is None else tidy(UNITS["mm"].from_si(opened.wall)),
        },
        "insertion_left_in": None if left is None else tidy(_IN.from_si(left)),
        "cuts_in": None if cut is None else {
            "tip": tidy(_IN.from_si(cut.tip)), "butt": tidy(_IN.from_si(cut.butt)),
            "shaft": tidy(_IN.from_si(cut.length)),
        },
    }  # fmt: skip


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say the verdict first, then the cuts, and what to watch."""
    return note(*_said(args, system(args)))


def _said(args: Namespace, units: System) -> Iterator[str]:
    """Yield the sentences of the note."""
    found, opened, left, cut = _fit(args), _opening(args), _weight(args), _cuts(args)
    gap = "no gap" if abs(found.gap) < 1e-7 else f"{_IN.from_si(found.gap):+.3f} in between them"
    yield f"{found.verdict.upper()}: {_shape(args)}, {gap}. {found.text}"
    if args.taper_bore:
        yield from (line for _, line in TAPER_BORE_WAYS)
    if opened is not None:
        yield opened.text
    if left is not None:
        least = words(LEAST_INSERTION, "in", units)
        yield f"Above the weight {words(left, 'in', units)} of insertion stays; {least} is the least here."
    if cut is not None:
        yield _cuts_said(cut, units)
    yield (
        "Eye protection, a dust mask and extraction; gloves and air for glue. The head maker's own figures "
        "and local codes come first."
    )


def _shape(args: Namespace) -> str:
    """Name tip and bore as the trade does."""
    sorts = ("taper" if taper else "parallel" for taper in (args.taper_tip, args.taper_bore))
    tip, bore = (quantity(getattr(args, one), "in", f"--{one}") for one in ("tip", "bore"))
    first, second = sorts
    return f"{first} tip {_IN.from_si(tip):.3f} in, {second} bore {_IN.from_si(bore):.3f} in"


def _cuts_said(cut: Cuts, units: System) -> str:
    """Say what is cut, in order."""
    tip, butt, left = (words(value, "in", units) for value in (cut.tip, cut.butt, cut.length))
    return f"Cut {tip} off the tip first, push the head home dry, then {butt} off the butt: {left} of shaft."


def _fit(args: Namespace) -> TipFit:
    """Judge tip against bore."""
    tip, bore = quantity(args.tip, "in", "--tip"), quantity(args.bore, "in", "--bore")
    return fit(tip, bore, tip_taper=args.taper_tip, bore_taper=args.taper_bore)


def _given(args: Namespace, *names: str) -> dict[str, float] | None:
    """Read options that go together; None where none of them was given, UnitError for half of them."""
    there = [name for name in names if getattr(args, name) is not None]
    if not there:
        return None
    if len(there) < len(names):
        missing = next(name for name in names if name not in there)
        raise UnitError(
            f"--{missing.replace('_', '-')} is missing: it goes with --{there[0].replace('_', '-')}"
        )
    return {name: quantity(getattr(args, name), "in", f"--{name.replace('_', '-')}") for name in names}


def _opening(args: Namespace) -> Opening | None:
    """Judge opening the bore, where that was asked."""
    if args.open_to is None:
        return None
    outside = args.hosel_outside and quantity(args.hosel_outside, "in", "--hosel-outside")
    bore = quantity(args.bore, "in", "--bore")
    return open_bore(bore, quantity(args.open_to, "in", "--open-to"), outside, fixture=args.fixture)


def _weight(args: Namespace) -> float | None:
    """Return the insertion above a hosel weight, where that was asked."""
    given = _given(args, "bore_depth", "hosel_weight")
    return None if given is None else room_for_weight(given["bore_depth"], given["hosel_weight"])


def _cuts(args: Namespace) -> Cuts | None:
    """Return the cuts of a raw shaft, where that was asked; raises what the bench raises."""
    given = _given(args, "raw_length", "length", "to_ground")
    if given is None:
        return None
    trim, depth = quantity(args.trim, "in", "--trim"), _optional(args, "note_depth")
    if depth is not None:
        trim = trim_at_depth(trim, given["to_ground"], depth)
    parallel = _optional(args, "parallel_tip")
    insertion = require(
        "insertion depth", quantity(args.insertion, "in", "--insertion"), 0, _IN.to_si(6), "in"
    )
    if parallel is not None and not args.taper_tip:
        check_tip(parallel, trim, insertion)
    return cuts(given["raw_length"], trim, cut_length(check_length(given["length"]), given["to_ground"]))


def _optional(args: Namespace, name: str) -> float | None:
    """Read an option that may be missing."""
    typed = getattr(args, name)
    return None if typed is None else quantity(typed, "in", f"--{name.replace('_', '-')}")
