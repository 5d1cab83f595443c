"""The audit of a catalogue that loads: what a shop would want to know before it sells from it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain, pairwise
from typing import Literal

from rules.bench.problems import BenchProblem
from rules.bench.tip import fit
from rules.shelf import on_bench
from rules.shelf.bookings import read_bookings
from rules.shelf.parts import Hand, Head, Kind, Port, Shaft, between_nodes
from rules.shelf.shelf import Shelf
from rules.shelf.stock import orders
from rules.units import UNITS, words

Level = Literal["wrong", "note"]
"""wrong: the check answers no; note: worth knowing, the check still answers yes."""

_DEG, _INCH = UNITS["deg"].factor, UNITS["in"].factor
USUAL_LENGTH: dict[Kind, tuple[tuple[float, float], ...]] = {
    "fairway": ((15 * _DEG, 43 * _INCH), (18.5 * _DEG, 42 * _INCH), (25 * _DEG, 41 * _INCH)),
    "hybrid": ((17 * _DEG, 41 * _INCH), (22 * _DEG, 40 * _INCH), (28 * _DEG, 39 * _INCH)),
}
"""Playing lengths sold today by loft (common practice): the longest a head is built to here."""
SHORTER = 1.5 * _INCH
"""How much shorter than that it may be built (house value)."""
LIGHTEST, HEAVIEST = -5.0, 4.0
"""Swing weights between which every target lies: C5 to D4 (house value around common practice)."""
WIDEST_STEP = 4 * _DEG
"""Two clubs about four degrees apart make a pair, so no wider step may gape (common practice)."""
WIDE_STEP = 2.75 * _DEG
"""A step worth a note within one kind of club (house value)."""
MOST_RESTITUTION = 0.83
"""Restitution of a conforming face, as a contact time of 239 + 18 microseconds is usually read."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that the audit has to say."""

    level: Level
    """wrong or note."""
    part: str
    """Which part, such as `head heath-17`."""
    text: str
    """What it is and what to do, in one sentence."""

    def __str__(self) -> str:
        """Word it on one line."""
        return f"{self.part}: {self.text}"


def audit(shelf: Shelf) -> tuple[Finding, ...]:
    """Look a catalogue over: wrongs first, then notes, then every measure left out."""
    found = list(
        chain(
            _twins(shelf), _heads(shelf), _balance(shelf), _ladders(shelf), _tips(shelf), _shafts(shelf),
            _pieces(shelf), _promises(shelf), _gaps(shelf),
        )
    )  # fmt: skip
    return tuple(sorted(found, key=lambda finding: finding.level != "wrong"))


def _wrong(part: str, text: str) -> Finding:
    return Finding("wrong", part, text)


def _note(part: str, text: str) -> Finding:
    return Finding("note", part, text)


def _twins(shelf: Shelf) -> Iterator[Finding]:
    """Find parts under two ids that nobody could tell apart by label."""
    for sort, parts in (("head", shelf.heads), ("shaft", shelf.shafts), ("grip", shelf.grips)):
        first: dict[str, str] = {}
        for part in parts:
            key = part.label.casefold()
            if key in first:
                text = f"has the same label as {first[key]}, '{part.label}'; give one of them another"
                yield _wrong(f"{sort} {part.id}", text)
            first.setdefault(key, part.id)


def _heads(shelf: Shelf) -> Iterator[Finding]:
    """Check what a head's own measures say of each other."""
    for head in shelf.heads:
        where = f"head {head.id}"
        if head.cg_up_face >= head.face_height:
            text = "its centre of mass projects above the top of its face; measure both up the face again"
            yield _wrong(where, text)
        if head.insertion >= head.hosel_length:
            yield _wrong(where, "the shaft would reach through the sole; measure hosel and insertion again")
        if head.restitution > MOST_RESTITUTION:
            text = (
                f"a restitution of {head.restitution:g} is beyond what conforms"
                " (Equipment Rules, Part 2, 4c; look up the current edition)"
            )
            yield _note(where, text)
        yield from _rear_ports(where, head.ports)


def _rear_ports(where: str, ports: Iterable[Port]) -> Iterator[Finding]:
    """Catch a place with the wrong sign: backward and toeward count from the head's centre of mass."""
    signs = {"rear": ("backward", 1), "front": ("backward", -1), "heel": ("toeward", -1),
             "hosel": ("toeward", -1), "toe": ("toeward", 1)}  # fmt: skip
    for port in ports:
        axis, sign = signs.get(port.name, ("backward", 0))
        if sign * getattr(port, axis) < 0:
            text = f"port '{port.name}' sits on the wrong side: {axis} wants the other sign"
            yield _wrong(where, text)


def _balance(shelf: Shelf) -> Iterator[Finding]:
    """Find heads that no shaft and grip here bring into the range of targets."""
    for head in shelf.heads:
        low, high = reach(head, shelf)
        if high < LIGHTEST:
            short = "full ports included, is too light for any target from C5 up"
            yield _wrong(f"head {head.id}", f"{words(head.mass, 'g')}, {short}; weigh it again")
        elif low > HEAVIEST:
            text = f"{words(head.mass, 'g')} is too heavy for any target up to D4; weigh it again"
            yield _wrong(f"head {head.id}", text)


def reach(head: Head, shelf: Shelf) -> tuple[float, float]:
    """Give the lightest and heaviest swing weight (points from D0) a head can be built to.

    Empty ports at the shortest sensible length, full ones at the longest, over the shafts and grips of
    the shelf that go in it; (inf, -inf) when none does.
    """
    longest = between_nodes(USUAL_LENGTH[head.kind], head.loft)
    low, high = float("inf"), float("-inf")
    for shaft in shelf.shafts:
        if shaft.made_for != head.kind or not fit(shaft.tip, head.bore, tip_taper=shaft.taper).allowed:
            continue
        for grip in shelf.grips:
            for length in (longest - SHORTER, longest):
                try:
                    build = on_bench.club(head, shaft, grip, length, shelf)
                except BenchProblem:
                    continue
                points = build.reading.points
                per_point = build.need(points + 1)
                low, high = min(low, points), max(high, points + head.capacity / per_point)
    return low, high


def _ladders(shelf: Shelf) -> Iterator[Finding]:
    """Find steps of loft too wide to fill, hand by hand."""
    hands: tuple[Hand, ...] = ("right", "left")
    for hand in hands:
        heads = [head for head in shelf.heads if head.hand == hand and head.in_stock]
        where = f"{hand}-hand heads"
        if len(heads) < 2:
            how_many = "only one is" if heads else "none is"
            yield _note(where, f"{how_many} in stock, so a {hand}-hander cannot be given a pair")
        for step in _steps(head.loft for head in heads):
            if step[1] - step[0] > WIDEST_STEP + 1e-9:
                yield _wrong(where, f"{_step_words(step)}; a head between them is wanted")
        for kind in ("fairway", "hybrid"):
            for step in _steps(head.loft for head in heads if head.kind == kind):
                if step[1] - step[0] > WIDE_STEP:
                    yield _note(f"{hand}-hand {kind} heads", _step_words(step))


def _steps(lofts: Iterable[float]) -> Iterable[tuple[float, float]]:
    """Pair up neighbouring lofts."""
    return pairwise(sorted(lofts))


def _step_words(step: tuple[float, float]) -> str:
    """Word a wide step."""
    ends = f"{words(step[0], 'deg', decimals=2)} and {words(step[1], 'deg', decimals=2)}"
    return f"nothing lies between {ends}"


def _tips(shelf: Shelf) -> Iterator[Finding]:
    """Find tips without a bore and bores without a tip."""
    for shaft in shelf.shafts:
        bores = {head.bore for head in shelf.heads if head.kind == shaft.made_for}
        if not any(fit(shaft.tip, bore, tip_taper=shaft.taper).verdict == "fits" for bore in bores):
            text = f"no {shaft.made_for} head here has a bore for its {_tip_words(shaft)}"
            yield _wrong(f"shaft {shaft.id}", text)
    for head in shelf.heads:
        shafts = [shaft for shaft in shelf.shafts if shaft.made_for == head.kind]
        if not any(fit(shaft.tip, head.bore, tip_taper=shaft.taper).verdict == "fits" for shaft in shafts):
            text = f"no {head.kind} shaft here has a tip for its bore of {_thousandths(head.bore)}"
            yield _wrong(f"head {head.id}", text)


def _tip_words(shaft: Shaft) -> str:
    """Word a tip: its shape and size."""
    return f"{'taper' if shaft.taper else 'parallel'} tip of {_thousandths(shaft.tip)}"


def _thousandths(diameter: float) -> str:
    """Word a diameter in thousandths of an inch."""
    return f"{diameter / _INCH:.3f} in"


def _shafts(shelf: Shelf) -> Iterator[Finding]:
    """Find shafts that no trim or length leaves long enough."""
    for shaft in shelf.shafts:
        where = f"shaft {shaft.id}"
        trims = [trim for _, trim in shaft.trim]
        if shaft.taper and any(trims):
            yield _wrong(where, "a taper tip is never trimmed at the tip; take its trim out")
        heads = [h for h in shelf.heads if h.kind == shaft.made_for and fit(shaft.tip, h.bore).allowed]
        for head in heads:
            if text := _cannot_be_cut(shaft, head, shelf):
                yield _wrong(where, f"in head {head.id}, {text}")
                break


def _cannot_be_cut(shaft: Shaft, head: Head, shelf: Shelf) -> str:
    """Say why a shaft cannot be cut for a head at its shortest sensible length; empty when it can."""
    if not shelf.grips:
        return ""
    length = between_nodes(USUAL_LENGTH[head.kind], head.loft) - SHORTER
    try:
        on_bench.club(head, shaft, shelf.grips[0], length, shelf)
    except BenchProblem as problem:
        return str(problem)
    return ""


def _pieces(shelf: Shelf) -> Iterator[Finding]:
    """Find ports that nothing in stock goes in, and pieces that go nowhere."""
    stocked = [piece for piece in shelf.pieces if piece.in_stock]
    for head in shelf.heads:
        for port in head.ports:
            if not any(piece.goes_in(port.name) and piece.mass <= port.capacity + 1e-9 for piece in stocked):
                text = f"port '{port.name}' of {words(port.capacity, 'g')} can hold no piece in stock"
                yield _wrong(f"head {head.id}", text)
    ports = {port.name for head in shelf.heads for port in head.ports}
    for piece in shelf.pieces:
        strays = [name for name in piece.fits if name not in ports]
        if strays:
            yield _note(f"piece {piece.id}", f"no head here has a port called {', '.join(strays)}")


def _promises(shelf: Shelf) -> Iterator[Finding]:
    """Find what is promised and not there, after a recount."""
    if not read_bookings(shelf.folder):
        return
    for line in orders(shelf.folder):
        if line.short:
            text = (
                f"{line.booked} are booked and {line.count} counted; order {line.short} or release a booking"
            )
            yield _wrong(f"{line.sort} {line.id}", text)


def _gaps(shelf: Shelf) -> Iterator[Finding]:
    """List the measures left out, as the assumptions they have become; ports left out are none."""
    for head in shelf.heads:
        if not head.ports:
            yield _note(
                f"head {head.id}", "no ports are listed; it is taken to have none and to take no mass"
            )
    for gap in shelf.assumptions():
        said = _diameter if gap.field == "bore" else _amount
        used = said(gap.value, gap.symbol)
        spread = f", between {' and '.join(said(end, gap.symbol) for end in gap.span)}" if gap.span else ""
        yield _note(gap.part, f"{gap.field} was not measured; {used} is assumed{spread}")


def _diameter(value: object, symbol: str) -> str:
    """Word a bore as the trade does: in thousandths."""
    return _thousandths(value) if isinstance(value, float) else str(value)


def _amount(value: object, symbol: str) -> str:
    """Word an SI value in its own unit; words and yes or no as they are written."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, int | float):
        return str(value)
    if symbol == "points":
        return f"{value:g} points"
    return words(float(value), symbol)
