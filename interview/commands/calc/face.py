"""`turfpair calc face`: what a face loses over a golfer's lies, and the head that the tightest asks for."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from typing import Any

from interview.commands.calc import note, quantity, tidy
from interview.commands.common import house
from interview.views.build.lies import face_lines, face_notes
from rules.facts.lies import LIES, Lies, NamedLie, lies
from rules.fitting import House
from rules.golf.contact import height_up_face
from rules.golf.face_loss import Blow, loss, on_lie
from rules.golf.impact import Clubhead
from rules.golf.quadrature import Face, Lie
from rules.golf.strike import StrikePattern
from rules.shelf.parts import Head
from rules.units import UNITS, UnitError
from rules.workbench.faces import FaceTable, HeadCost, LieCost

HELP = "Ball speed lost over the lies, the face that the tightest that matters asks for, tee and lush lie."

_LIE = re.compile(r"^\s*(?P<name>[\w ]+?)\s*=\s*(?P<share>[^@]+?)\s*$")
_NEAR = UNITS["deg"].to_si(1.0)
_MOST_HEADS = 4


def configure(parser: ArgumentParser) -> None:
    """Add the face, the blow, the golfer's strikes and his lies."""
    parser.add_argument("--loft", metavar="ANGLE", required=True, help="of the head, as '18 deg'")
    parser.add_argument("--face-height", metavar="LENGTH", required=True, help="up the face to its top edge")
    parser.add_argument(
        "--cg-up-face", metavar="LENGTH", required=True,
        help="from the leading edge to where the centre of mass projects",
    )  # fmt: skip
    parser.add_argument(
        "--lie", metavar="'NAME=SHARE'", action="append", required=True,
        help=f"a lie and how often he plays from it: {', '.join(LIES)}",
    )  # fmt: skip
    parser.add_argument("--delivered", metavar="ANGLE", help="loft as delivered (as the head has it)")
    parser.add_argument("--attack", metavar="ANGLE", default="-2 deg", help="up positive (-2 deg)")
    parser.add_argument("--clearance", metavar="LENGTH", default="0 mm", help="leading edge off the ground")
    parser.add_argument(
        "--high", metavar="LENGTH", default="0 mm", help="mean strike above where geometry is"
    )
    parser.add_argument("--scatter-high", metavar="LENGTH", default="6 mm", help="one spread, low to high")
    parser.add_argument("--turf", choices=("firm", "average", "soft"), default="average", help="(average)")
    parser.add_argument("--kind", choices=("fairway", "hybrid"), default="fairway", help="(fairway)")
    parser.add_argument("--hand", choices=("right", "left"), default="right", help="(right)")


def compute(args: Namespace) -> dict[str, Any]:
    """Work the face out."""
    found, millimetre = _table(args), UNITS["mm"]
    tight = found.tightest
    return {
        "loss_percent": tidy(found.loss * 100),
        "tightest_that_matters": tight.name,
        "asked_cg_up_face_mm": tidy(millimetre.from_si(found.asked)),
        "face_height_mm": tidy(millimetre.from_si(found.centred)),
        "lies": {one.name: _lie_json(one) for one in found.lies},
        "heads": [
            {"head": one.head.id, "above_line_mm": tidy(millimetre.from_si(one.tight.above)),
             "loss_percent": tidy(one.loss * 100)}
            for one in found.heads
        ],
    }  # fmt: skip


def _lie_json(one: LieCost) -> dict[str, Any]:
    """Return one lie as a JSON object."""
    millimetre = UNITS["mm"]
    return {
        "share_percent": tidy(one.share * 100),
        "met_mm": tidy(millimetre.from_si(one.on.met)),
        "above_line_mm": tidy(millimetre.from_si(one.on.above)),
        "loss_percent": tidy(one.on.lost * 100),
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Lay the lies out, and say what they ask for."""
    found = _table(args)
    head, *rows = face_lines(found)
    source = (
        "How far a lie raises the ball is a house value with a range; what the golfer's own marks say of his "
        "strikes goes before any spread that is assumed. Check it on the face: tape, six balls, turf."
    )
    return "\n".join((head, *rows, "", note(*face_notes(found), source)))


def _table(args: Namespace) -> FaceTable:
    """Read the options and work the face out; UnitError and Problem for what makes no sense."""
    home = house(args)
    met, shape = _lies(args, home), _face(args)
    pattern = StrikePattern(
        0.0, quantity(args.high, "mm", "--high"), 0.0, quantity(args.scatter_high, "mm", "--scatter-high")
    )
    attack = quantity(args.attack, "deg", "--attack")
    delivered = shape.loft if args.delivered is None else quantity(args.delivered, "deg", "--delivered")
    blow = Blow(delivered, attack, Clubhead(0.215, 0.82, 0.2, 0.020, 1500e-7, 2300e-7))
    tight = height_up_face(shape.loft, met.tightest.middle, attack, shape.clearance)
    every = lies(home.base, dict.fromkeys(LIES, 1.0), args.turf).named
    return FaceTable(
        lies=tuple(_cost(one, met, pattern, shape, blow) for one in every),
        loss=loss(pattern, met.met, shape, blow),
        asked=tight + pattern.mean_high,
        centred=2.0 * tight,
        known=True,
        heads=_heads(args, home, met, pattern, blow),
    )


def _face(args: Namespace) -> Face:
    """Read the face; UnitError where its line lies above its top edge."""
    loft, height = quantity(args.loft, "deg", "--loft"), quantity(args.face_height, "mm", "--face-height")
    line = quantity(args.cg_up_face, "mm", "--cg-up-face")
    if not 0.0 < line < height <= 0.1:
        raise UnitError("--cg-up-face: the line must lie on the face, above nought and below --face-height")
    return Face(loft, height, line, quantity(args.clearance, "mm", "--clearance"))


def _lies(args: Namespace, home: House) -> Lies:
    """Read every --lie."""
    shares: dict[str, float] = {}
    for typed in args.lie:
        match = _LIE.match(typed)
        name = match["name"].strip().lower().replace(" ", "_") if match else ""
        if match is None or name not in LIES:
            raise UnitError(f"--lie: '{typed[:40]}' is not a lie and its share; lies are {', '.join(LIES)}")
        shares[name] = quantity(match["share"], "", "--lie")
    total = sum(shares.values())
    if not (total > 0.0 and min(shares.values()) >= 0.0):
        raise UnitError("--lie: shares are numbers from nought up, one of them above nought")
    return lies(home.base, {name: share / total for name, share in shares.items()}, args.turf)


def _cost(lie: NamedLie, met: Lies, pattern: StrikePattern, shape: Face, blow: Blow) -> LieCost:
    """Return one lie on the face, with his share of it."""
    share = next((one.share for one in met.named if one.name == lie.name), 0.0)
    on = on_lie(pattern, Lie(1.0, lie.low, lie.high), shape, blow)
    return LieCost(lie.name, share, lie.name == met.tightest.name, on)


def _heads(
    args: Namespace, home: House, met: Lies, pattern: StrikePattern, blow: Blow
) -> tuple[HeadCost, ...]:
    """Return heads of the catalogue within a degree of this loft, nearest to what the tightest asks first."""
    loft = quantity(args.loft, "deg", "--loft")
    near = [
        head for head in home.shelf.heads
        if (head.kind, head.hand) == (args.kind, args.hand) and abs(head.loft - loft) <= _NEAR + 1e-9
    ]  # fmt: skip
    found = [_head(head, met, pattern, blow, loft) for head in near if head.in_stock]
    return tuple(sorted(found, key=lambda one: abs(one.tight.above))[:_MOST_HEADS])


def _head(head: Head, met: Lies, pattern: StrikePattern, blow: Blow, loft: float) -> HeadCost:
    """Return one head of the catalogue on his lies, its loft delivered as far off as the one told."""
    shape = Face(head.loft, head.face_height, head.cg_up_face)
    own = Blow(blow.delivered + head.loft - loft, blow.attack, blow.head)
    tight = met.tightest
    on = on_lie(pattern, Lie(1.0, tight.low, tight.high), shape, own)
    return HeadCost(head, loss(pattern, met.met, shape, own), on)
