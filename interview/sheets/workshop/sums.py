"""Ports piece by piece, every mass with its place, and the sums with what they may be out by."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING

from interview.sheets import figures as f
from interview.sheets.paper import NONE, Block, Cell, Line
from interview.sheets.workshop.parts import line
from interview.sheets.workshop.readings import reading_cell, torque_cell
from rules.units import swing_weight_name

if TYPE_CHECKING:
    from interview.views.build import BuildClub
    from interview.views.build.club import PartsView
    from interview.views.build.parts import PartRow, PortRow
    from rules.units import System


def port_block(clubs: Sequence[BuildClub], system: System) -> Block:
    """Return every port of both heads, piece by piece, with its room and its place."""
    rows = zip_longest(*(club.parts.ports if club.parts else () for club in clubs))
    lines = [
        Line(f"Port {number}", tuple(_port(port, system) for port in ports))
        for number, ports in enumerate(rows, 1)
    ]
    if any(club.alteration for club in clubs):
        lines.append(Line("Back into the head", tuple(_put_back(club) for club in clubs)))
    return Block(
        "MASS ADDED: pieces = sum / room, g @ place from butt",
        (*lines, line("All ports", clubs, _all), Line("Screws", tuple(_screws(c, system) for c in clubs))),
    )


def _port(port: PortRow | None, system: System) -> Cell:
    """Return a port: its pieces, their sum, how much it could hold, and where that sits."""
    if port is None:
        return NONE
    room = f"{f.bare_grams(port.capacity)} g"
    if not port.pieces:
        return Cell(f"{port.name} empty / {room}", "tick")
    pieces = "+".join(map(f.bare_grams, port.pieces))
    total = f" = {f.bare_grams(port.mass)}" if len(port.pieces) > 1 else ""
    return Cell(f"{port.name} {pieces}{total} / {room} @ {f.place(port.position, system)}", "tick")


def _screws(club: BuildClub, system: System) -> Cell:
    """Return the torque of the screws; none for a club of which nothing is opened."""
    return NONE if club.parts is None and club.alteration is None else torque_cell(club, system)


def _put_back(club: BuildClub) -> Cell:
    """Return what goes back into the head of his own club."""
    work = club.alteration
    return NONE if work is None else Cell(f.grams(work.put_back), "tick")


def _all(parts: PartsView) -> Cell:
    return Cell(f"{f.grams(parts.added)} (target asks {f.grams(parts.needed)})")


def mass_block(clubs: Sequence[BuildClub], system: System) -> Block:
    """Return the mass of every other part and where it sits, from the butt."""
    labels = ("Bare head", "Cut shaft", "Grip", "Ferrule and glue")
    lines = (
        line(label, clubs, lambda p, at=at: _mass(p.masses[at], system))  # type: ignore[misc]
        for at, label in enumerate(labels)
    )
    return Block("MASS @ PLACE FROM BUTT", tuple(lines))


def _mass(row: PartRow, system: System) -> Cell:
    return Cell(f"{f.grams(row.mass)} @ {f.place(row.position, system)}")


def sum_block(clubs: Sequence[BuildClub], system: System) -> Block:
    """Return what scale, knife edge and pendulum should say, each with its tolerance and its blank."""
    return Block(
        "FINISHED CLUB",
        (
            Line("Target swing weight", tuple(Cell(swing_weight_name(c.view.target)) for c in clubs)),
            Line("Swing weight", tuple(_figure(c, "swing_weight", system) for c in clubs)),
            Line("Total", tuple(_figure(c, "total", system) for c in clubs)),
            Line("Balance point", tuple(_figure(c, "balance_point", system) for c in clubs)),
            line("Inertia about butt", clubs, lambda p: _pendulum(p, system)),
            Line("Left to target", tuple(_left(club) for club in clubs)),
        ),
    )


def _figure(club: BuildClub, what: str, system: System) -> Cell:
    """Return one figure; of his own club what was told."""
    if club.parts is None:
        told = {"swing_weight": club.view.told_balance, "total": club.view.told_total}.get(what)
        symbol = {"swing_weight": "points", "total": "g"}.get(what, "")
        text = "" if told is None else f.figure(told, symbol, system)
        return Cell(text or "not known", "read")
    one = club.parts.figure(what)
    value = f.figure(one.value, one.symbol, system)
    number, _, symbol = value.rpartition(" ")
    about = f.spread(one.spread, one.symbol, system)
    text = f"{number} ±{about} {symbol}" if number else f"{value} ±{about} points"
    return reading_cell(club, what, text, system)


def _pendulum(parts: PartsView, system: System) -> Cell:
    """Return the inertia; the session keeps no reading of it, the paper does."""
    one = parts.figure("inertia")
    number, _, symbol = f.figure(one.value, one.symbol, system).rpartition(" ")
    return Cell(f"{number} ±{f.spread(one.spread, one.symbol, system)} {symbol}", "read")


def _left(club: BuildClub) -> Cell:
    """Return what the sum is off its target."""
    if club.parts is not None:
        return Cell(f"{f.points(club.parts.left)} points")
    return NONE if club.alteration is None else Cell(f"{f.points(club.alteration.left)} points")
