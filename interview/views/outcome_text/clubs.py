"""The two clubs in words: for the fitter as a bench would read them, for the golfer as he would."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.club import BenchView, ClubView, GripView, ShaftView
from interview.views.laws import flight_laws
from interview.views.outcome import OutcomeView
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import (
    degrees,
    distance,
    grams,
    height,
    in_ten,
    length,
    millimetres,
    opened,
    signed,
    spelled,
    spoken_length,
    trimmed,
)
from rules.bench.direction import ways
from rules.units import System, swing_weight_name, unit

if TYPE_CHECKING:
    from rules.workbench.ways_out import WayOut

_LOFT_KNOWN = {
    "measured": "measured", "said": "as said: put it on the gauge", "estimated": "a guess",
    "catalogued": "as catalogued: put it on the gauge",
}  # fmt: skip
_LOFT_UNKNOWN = "usual for such a club; nobody said"
_SQUARE = 0.002
"""A face within a tenth of a degree of square is called square, rad."""
_WEIGHED = 0.0005
"""Half a gram is not worth a word, kg."""
_WAYS = 3
"""Ways out named at most."""


def for_fitter(view: OutcomeView, page: Page) -> None:
    """Write both clubs as a bench would read them."""
    for club in view.clubs:
        page.heading(f"{club.role.upper()} CLUB: {club.label}, {degrees(club.loft)}{_whose(club)}")
        for label, words in _rows(club, view.system):
            page.row(label, words)


def _whose(club: ClubView) -> str:
    """Say whether a club is to be built, kept or altered."""
    if club.owned is None:
        return ", to build"
    return f', own club "{club.owned}", {"altered" if club.cut else "as it is"}'


def _rows(club: ClubView, system: System) -> list[tuple[str, str]]:
    """Return the labelled rows of a club."""
    rows = [("length", _length(club, system))]
    if club.bench is None:
        rows += _own_rows(club)
    else:
        rows[:0] = [("head", _head(club))]
        rows += [("shaft", _shaft(club.shaft, club.bore, system))] if club.shaft else []
        rows += [("grip", _grip(club.grip))] if club.grip else []
        rows += [("mass", _mass(club.bench)), ("balance", _balance(club, club.bench, system))]
        rows += [("instead", _instead(club.bench, system))] if club.bench.ways else []
    return [*rows, ("carry", _carry(club, system)), ("height", _height(club, system))]


def _head(club: ClubView) -> str:
    """Describe the head."""
    face = f"face {millimetres(club.face_height)} tall" if club.face_height else "face not measured"
    lie = f", lie {degrees(club.lie)}" if club.lie else ""
    return f"{club.head_label}: {face}, {facing(club.face_angle or 0.0)}{lie}"


def facing(angle: float) -> str:
    """Say where a face looks when it is set down."""
    if abs(angle) < _SQUARE:
        return "square"
    return f"{degrees(abs(angle))} {'closed' if angle > 0 else 'open'}"


def _length(club: ClubView, system: System) -> str:
    """Say how long a club is, and what comes off one of his own."""
    guess = "" if club.length_known else " (usual for such a club; nobody said)"
    if club.cut:
        before = length(club.length + club.cut, system)
        return f"{length(club.length, system)}, {length(club.cut, system)} less than its {before}{guess}"
    return f"{length(club.length, system)}{guess}"


def _shaft(shaft: ShaftView, bore: float | None, system: System) -> str:
    """Describe the shaft and its cuts."""
    tip = f"{length(shaft.tip_trim, system)} off the tip" if shaft.tip_trim > 1e-6 else "tip uncut"
    butt = f"{length(shaft.butt_trim, system)} off the butt" if shaft.butt_trim > 1e-6 else "butt uncut"
    meets = f"tip {_bore(shaft.tip)} into a bore of {_bore(bore)}" if bore else f"tip {_bore(shaft.tip)}"
    return f"{shaft.label}, {grams(shaft.mass)} uncut; {tip}, {butt}; {meets}"


def _bore(diameter: float) -> str:
    """Write a diameter as the trade does, in thousandths of an inch."""
    return f"{unit('in').from_si(diameter):.3f} in"


def _grip(grip: GripView) -> str:
    """Describe the grip."""
    return f"{grip.label}, {grams(grip.mass)}"


def _mass(bench: BenchView) -> str:
    """Say what goes into which port, piece by piece, and how little it moves."""
    if not bench.ports:
        heavy = bench.needed < -_WEIGHED
        return f"none added; {grams(-bench.needed)} too heavy already" if heavy else "none to add"
    ports = "; ".join(f"{p.name} {grams(p.mass)}{_pieces(p.pieces)}" for p in bench.ports)
    return f"{grams(bench.added)} into the head: {ports}. {_shift(bench)}"


def _pieces(pieces: tuple[float, ...]) -> str:
    """List the pieces of a port where there is more than one."""
    if len(pieces) < 2:
        return ""
    return f" ({' + '.join(trimmed(unit('g').from_si(piece), 1) for piece in pieces)})"


def _shift(bench: BenchView) -> str:
    """Say how far the added mass moves the head's centre of mass."""
    said = [f"{millimetres(far)} {way}" for far, way in ways(bench.shift)]
    return (
        f"The centre of mass moves {', '.join(said)}: small." if said else "The centre of mass hardly moves."
    )


def _balance(club: ClubView, bench: BenchView, system: System) -> str:
    """Give the target and what the sum says, with how far the scale may differ."""
    until = "" if bench.calibrated else " until this bench is calibrated"
    sums = f"{swing_weight_name(bench.balance)} by the sum, give or take {trimmed(bench.spread, 1)} points"
    whole = f"{trimmed(bench.total * 1000, 0)} g in all, balancing {_point(bench.balance_point, system)}"
    return f"target {swing_weight_name(club.target)}; {sums}{until}; {whole} from the butt"


def _instead(bench: BenchView, system: System) -> str:
    """Say what else would bring the club to its target, nearest first; none is chosen."""
    ways = [
        f"{_way(way, system)} reads {swing_weight_name(way.points)}, {signed(way.left, 1)} from target"
        for way in bench.ways[:_WAYS]
    ]
    return f"{'; '.join(ways)}. The choice is yours."


def _way(way: WayOut, system: System) -> str:
    """Name one way out."""
    if way.kind in ("longer", "shorter"):
        return f"a length of {length(way.amount, system)}"
    if way.kind == "head_of_mass":
        return f"a bare head of {grams(way.amount)}"
    return f"{'grip' if way.kind == 'other_grip' else 'head'} {way.label}"


def _point(metres: float, system: System) -> str:
    """Write a balance point to a quarter of an inch, or to a millimetre."""
    quarter = unit("in").factor / 4
    return length(metres if system == "metric" else round(metres / quarter) * quarter, system)


def _own_rows(club: ClubView) -> list[tuple[str, str]]:
    """Return what is known of the balance of one of his own clubs."""
    rows = [("head", f"{_head(club)}, as catalogued")] if club.head_label else []
    rows.append(("loft", _own_loft(club)))
    if club.put_back:
        rows.append(("mass", f"{grams(club.put_back)} back into its head, then read it on the scale"))
    elif club.cut:
        rows.append(("mass", "nothing is known of what its head can take; it will read lighter"))
    told = club.told_balance
    if told is not None:
        before = "by the sum" if club.cut else "as told"
        total = f"; {trimmed(club.told_total * 1000, 0)} g in all" if club.told_total else ""
        rows.append(("balance", f"{swing_weight_name(told)} {before}{total}"))
    return rows


def _own_loft(club: ClubView) -> str:
    """Say how the loft of one of his own clubs is known."""
    return f"{degrees(club.loft)}, {_LOFT_KNOWN.get(club.loft_known or '', _LOFT_UNKNOWN)}"


def _carry(club: ClubView, system: System) -> str:
    """Give the carry over everything, struck clean, and between the laws of flight."""
    flown = club.flown
    low, high = distance(flown.low, system), distance(flown.high, system)
    band = "" if low == high else f" ({low.split()[0]} to {high} by the {flight_laws()})"
    every, clean = distance(flown.expected, system), distance(flown.centred, system)
    return f"{every} over all strikes and lies; {clean} struck clean{band}"


def _height(club: ClubView, system: System) -> str:
    """Give the height, what it is of the height that suits, and how many get up."""
    flown = club.flown
    share = f"{round(flown.height_share * 100)} % of what suits the speed"
    up = f"{round(flown.usable * 100)} balls in 100 get up and go"
    return f"{height(flown.apex, system)} at the top, {share}; {up}"


def for_customer(view: OutcomeView, page: Page) -> None:
    """Write both clubs as their owner would want to hear of them."""
    for club in view.clubs:
        page.heading(f"THE {club.role.upper()} CLUB, {_mine(club)} {club.label.upper()}")
        page.say(" ".join(_told(club, view.system)))


def _mine(club: ClubView) -> str:
    return "A" if club.owned is None else "YOUR OWN"


def _told(club: ClubView, system: System) -> list[str]:
    """Return the sentences on one club."""
    flown = club.flown
    said = []
    if club.cut:
        mass = spelled(grams(club.put_back))
        back = f", with {mass} put back into its head" if club.put_back else ""
        said.append(f"It is made {spoken_length(club.cut, system)} shorter than it is now{back}.")
    elif club.owned is not None:
        said.append("It stays just as it is.")
    carry, top = distance(flown.centred, system, about=True), height(flown.apex, system, about=True)
    said.append(f"Hit well it flies about {carry} and climbs to about {top}.")
    every = distance(flown.expected, system, about=True)
    if every != carry:
        said.append(f"Counting every ball, the good and the bad, expect about {every}.")
    said.append(f"{opened(in_ten(flown.usable))} should get up in the air and fly, from where you play them.")
    return said
