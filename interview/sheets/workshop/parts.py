"""Head, shaft and grip as they come to the bench, and what is done to them, in order."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from interview.sheets import figures as f
from interview.sheets.paper import NONE, Block, Cell, Line
from interview.sheets.workshop.readings import reading_cell

if TYPE_CHECKING:
    from interview.views.build import BuildClub
    from interview.views.build.club import PartsView
    from rules.shelf.parts import Shaft
    from rules.units import System

_FITS = {"fits": "fits", "shim": "shim, full depth", "sleeve": "sleeve, full depth", "refused": "NO"}
_UNKNOWN = "not known"
_LOFT_KNOWN = {"measured": "measured", "said": "as stamped", "catalogued": "as catalogued"}


def line(label: str, clubs: Sequence[BuildClub], new: Callable[[PartsView], Cell], own: Cell = NONE) -> Line:
    """Return a line: of clubs built new what `new` gives, of his own clubs `own`."""
    return Line(label, tuple(own if club.parts is None else new(club.parts) for club in clubs))


def head_block(clubs: Sequence[BuildClub], system: System) -> Block:
    """Return the head with its measures, each with a blank where it is to be measured."""
    blank = Cell(_UNKNOWN, "read")
    return Block(
        "HEAD",
        (
            Line("Head (stock id)", tuple(_head(club) for club in clubs)),
            Line("Loft", tuple(_loft(club) for club in clubs)),
            Line("Face angle, soled", tuple(_face(club) for club in clubs)),
            line("Plays, face squared", clubs, _plays),
            Line("Lie", tuple(_lie(club) for club in clubs)),
            Line("Mass, ports empty", tuple(_head_mass(club) or blank for club in clubs)),
            line("Face height", clubs, lambda p: Cell(f.millimetres(p.head.face_height))),
            line("Bore / tip", clubs, _bore),
            line("Hosel / insertion", clubs, lambda p: Cell(_hosel(p, system))),
            line("Bore bottom to ground", clubs, lambda p: Cell(_to_ground(p, system), "read")),
        ),
    )


def _head(club: BuildClub) -> Cell:
    """Return which head it is; of his own club his name for it."""
    if club.parts is None:
        known = f" ({club.view.head})" if club.view.head_label else ""
        return Cell(f"owned: {club.view.owned}{known}")
    return Cell(_named(club.parts.head.label, club.parts.head.id))


def _named(label: str, id: str) -> str:
    """Return a part's label with its id, the label alone where that says the same."""
    return f"{label} ({id})" if label and label != id else id


def _loft(club: BuildClub) -> Cell:
    """Return the loft: of a new head as stamped with what heads are out by, of his own as it is known."""
    parts = club.parts
    if parts is not None:
        tolerance = f.degrees(parts.head.loft_tolerance).split()[0]
        return reading_cell(club, "loft", f"{f.degrees(parts.head.loft).split()[0]} ±{tolerance} deg")
    known = _LOFT_KNOWN.get(club.view.loft_known or "", "usual")
    return Cell(f"{f.degrees(club.view.loft)}, {known}", "read")


def _face(club: BuildClub) -> Cell:
    """Return where the face looks when the head is soled."""
    if club.parts is None:
        known = club.view.face_angle
        return Cell(_UNKNOWN if known is None else f"{f.facing(known)}, as catalogued", "read")
    return reading_cell(club, "face", f.facing(club.parts.head.face_angle))


def _lie(club: BuildClub) -> Cell:
    """Return the lie to set, and the head's own where that is another."""
    parts = club.parts
    if parts is None:
        known = club.view.lie
        return Cell(_UNKNOWN if known is None else f"{f.degrees(known)}, as catalogued", "read")
    wanted = club.view.lie or parts.head.lie
    as_is = "" if abs(wanted - parts.head.lie) < 1e-6 else f" (head {f.degrees(parts.head.lie).split()[0]})"
    return reading_cell(club, "lie", f"{f.degrees(wanted)}{as_is}")


def _plays(parts: PartsView) -> Cell:
    """Return the effective loft by both views."""
    geometry, chart = (f.degrees(v).split()[0] for v in (parts.plays.geometry, parts.plays.bench_rule))
    return Cell(f"{geometry} deg (chart {chart})")


def _head_mass(club: BuildClub) -> Cell | None:
    """Return the bare head with what heads are out by as delivered; None where nothing is known of it."""
    if club.parts is None:
        return None
    head = club.parts.head
    text = f"{f.grams(head.mass).split()[0]} ±{f.bare_grams(head.mass_tolerance)} g"
    return reading_cell(club, "head", text)


def _bore(parts: PartsView) -> Cell:
    """Return how the tip meets the bore."""
    bore, tip = f.thousandths(parts.head.bore).split()[0], f.thousandths(parts.shaft.tip)
    return Cell(f"{bore} / {tip}: {_FITS[parts.tip_fit.verdict]}", "tick")


def _seated(shaft: Shaft) -> str:
    """Return what is seen to when a shaft is fitted dry: what its maker notes of the bore, too."""
    return "; ".join(one for one in ("seated", shaft.bore_note) if one)


def _hosel(parts: PartsView, system: System) -> str:
    return f"{f.length(parts.head.hosel_length, system)} / {f.length(parts.head.insertion, system)}"


def _to_ground(parts: PartsView, system: System) -> str:
    return f.length(parts.head.bore_to_ground, system)


def shaft_block(clubs: Sequence[BuildClub], system: System) -> Block:
    """Return the shaft and its cuts, in the order in which they are made."""
    return Block(
        "SHAFT, IN THIS ORDER",
        (
            line("Shaft (stock id)", clubs, lambda p: Cell(_named(p.shaft.label, p.shaft.id))),
            Line("Raw shaft", tuple(_raw(club, system) for club in clubs)),
            line("1  Tip trim, mark first", clubs, lambda p: Cell(_cut(p.cuts.tip, system), "tick")),
            line("2  Dry fit to the bottom", clubs, lambda p: Cell(_seated(p.shaft), "tick")),
            Line("3  Butt trim", tuple(_butt(club, system) for club in clubs)),
            line("Cut shaft, length", clubs, lambda p: Cell(f.length(p.cuts.length, system), "read")),
            line("Cut shaft, mass", clubs, lambda p: Cell(f.grams(p.cut_mass), "read")),
            line("Logo up or down", clubs, lambda _: Cell("", "read")),
        ),
    )


def _raw(club: BuildClub, system: System) -> Cell:
    """Return flex, raw length, raw mass and where the raw shaft balances."""
    if club.parts is None:
        return NONE
    shaft = club.parts.shaft
    mass = f"{f.grams(shaft.mass).split()[0]} ±{f.bare_grams(shaft.mass_tolerance)} g"
    text = f"{shaft.flex}, {f.length(shaft.raw_length, system)}, {mass}, bal. {shaft.balance * 100:.4g} %"
    return reading_cell(club, "raw_shaft", text)


def _cut(metres: float, system: System) -> str:
    return f.length(metres, system) if metres > 1e-6 else "none"


def _butt(club: BuildClub, system: System) -> Cell:
    """Return what is cut from the butt, of his own club too."""
    if club.parts is not None:
        return Cell(_cut(club.parts.cuts.butt, system), "tick")
    if club.alteration is not None:
        return Cell(f.length(club.alteration.sums.cut, system), "tick")
    return NONE


def length_block(clubs: Sequence[BuildClub], system: System) -> Block:
    """Return the playing length both ways, and the grip with its wraps."""
    return Block(
        "LENGTH AND GRIP",
        (
            Line("Length, 60 deg plane", tuple(_length(club, system) for club in clubs)),
            Line("Same by bench ruler", tuple(Cell(f.length(club.ruler, system), "read") for club in clubs)),
            line("Grip (stock id)", clubs, lambda p: Cell(_named(p.grip.label, p.grip.id)), Cell("as it is")),
            Line("Grip mass; core", tuple(_grip(club) for club in clubs)),
            line("Tape under grip", clubs, _wraps),
        ),
    )


def _length(club: BuildClub, system: System) -> Cell:
    """Return the length sole to grip cap, with the bench's own tolerance."""
    tolerance = "1/16" if system == "imperial" else "0.2"
    text = f"{f.length(club.view.length, system).removesuffix(' in')} ±{tolerance} in"
    if system == "metric":
        text = f"{f.length(club.view.length, system).removesuffix(' cm')} ±{tolerance} cm"
    return reading_cell(club, "length", text, system)


def _grip(club: BuildClub) -> Cell:
    """Return the grip's mass and core."""
    if club.parts is None:
        return NONE
    grip = club.parts.grip
    return reading_cell(club, "grip", f"{f.grams(grip.mass)}; {f.thousandths(grip.core)}")


def _wraps(parts: PartsView) -> Cell:
    """Return the layers of tape: one that holds the grip, and those that build it up."""
    more = f" + {parts.wraps} build-up" if parts.wraps else ""
    return Cell(f"1 two-sided{more}", "tick")
