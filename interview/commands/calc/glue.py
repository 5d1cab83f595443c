"""`turfpair calc glue`: when a glued club may be hit, and how a glued shaft comes out of its head."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from typing import Any, cast

from interview.commands.calc import note, quantity, system, tidy
from rules.bench.cure import Extraction, Shaft, Verdict, extraction, hold_time, may_play
from rules.units import UNITS, words

HELP = "When a freshly glued club may be hit; heat and pull for a shaft that is to be saved."

_HOUR, _DEGF = UNITS["h"], UNITS["degF"]


def configure(parser: ArgumentParser) -> None:
    """Add the temperature of the bench, and what each further answer wants."""
    parser.add_argument(
        "--temperature", metavar="TEMPERATURE", default="72 degF", help="where the club hangs (72 degF)"
    )
    parser.add_argument("--glued-for", metavar="TIME", help="how long ago it was glued, as '5 h'")
    parser.add_argument("--pull", choices=("graphite", "steel"), help="the shaft that is to come out")


def compute(args: Namespace) -> dict[str, Any]:
    """Return the hold, whether the club may be hit, and the way out; what was not asked is null."""
    verdict, way = _verdict(args), _way(args)
    return {
        "hold_h": tidy(_HOUR.from_si(hold_time(_temperature(args)))),
        "may_play": None if verdict is None else verdict.may_play,
        "wait_h": None if verdict is None else tidy(_HOUR.from_si(verdict.wait)),
        "pull": None if way is None else {
            "heat_degF": [tidy(_DEGF.from_si(end)) for end in (way.heat_from, way.heat_to)],
            "twist": way.twist, "torch": way.torch,
        },
    }  # fmt: skip


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say how long, then whether it may be hit, then the way out."""
    warmth = words(_temperature(args), "degF", system(args), decimals=0)
    said = [f"Slow epoxy at {warmth}: no play for {result['hold_h']:.0f} h, and it hangs still meanwhile."]
    verdict, way = _verdict(args), _way(args)
    said += [] if verdict is None else [verdict.text]
    said += [] if way is None else [way.text]
    return note(*said, "Gloves and moving air with glue. Its maker's own sheet and local codes come first.")


def _temperature(args: Namespace) -> float:
    """Read the temperature of the bench, K."""
    return quantity(args.temperature, "degF", "--temperature")


def _verdict(args: Namespace) -> Verdict | None:
    """Judge a club glued so long ago, where that was asked."""
    if args.glued_for is None:
        return None
    return may_play(quantity(args.glued_for, "h", "--glued-for"), _temperature(args))


def _way(args: Namespace) -> Extraction | None:
    """Return how the shaft comes out, where that was asked."""
    return None if args.pull is None else extraction(cast(Shaft, args.pull))
