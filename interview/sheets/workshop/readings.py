"""Blanks of the sheet, filled with the readings that were taken, and what these correct."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from interview.sheets import figures as f
from interview.sheets.paper import Cell, Note
from interview.views.outcome_text.quantities import distance
from rules.units import swing_weight_name, words

if TYPE_CHECKING:
    from interview.views.build import BuildClub, BuildView
    from interview.views.build.view import LadderAsBuilt
    from rules.units import System
    from rules.workbench.as_built import AsBuilt
    from rules.workbench.certified import Certificate, Line
    from rules.workbench.checks import Check
    from rules.workbench.moves import Move
    from rules.workbench.weighed import Corrected

_WORDS = {
    "swing_weight": "swing weight",
    "balance_point": "balance point",
    "effective_loft": "loft as it plays",
    "face": "face angle",
    "raw_shaft": "raw shaft",
    "torque": "screws",
}


def name(what: str) -> str:
    """Name a figure."""
    return _WORDS.get(what, what)


def reading_cell(club: BuildClub, what: str, text: str, system: System = "imperial") -> Cell:
    """Return a figure with a blank; where it was read the reading stands in it, flagged when it is out."""
    check = _check(club, what)
    if check is None or check.read is None:
        return Cell(text, "read")
    return Cell(text, "read", shown(what, check.read, check.symbol, system), check.verdict == "out")


def _check(club: BuildClub, what: str) -> Check | None:
    """Return a figure as it was read of the finished club or of a part; None where nobody looked."""
    against = club.built.against
    checks = (*club.built.parts, *(against.checks if against is not None else ()))
    return next((check for check in checks if check.what == what), None)


def torque_cell(club: BuildClub, system: System = "imperial") -> Cell:
    """Return the torque of its screws, as set and after the first range session, with its blank."""
    symbol = "N*m" if system == "metric" else "in*lbf"
    text, check = f"set / after first session, {symbol}", _check(club, "torque")
    if check is None:
        return Cell(text, "read")
    both = [check.planned] + ([] if check.read is None else [check.read])
    return Cell(text, "read", " / ".join(_torque(one, system).split()[0] for one in both), _let_go(check))


def _torque(value: float, system: System) -> str:
    """Write a torque."""
    return words(value, "in*lbf", system, decimals=1)


def _let_go(check: Check) -> bool:
    """Say whether screws turned at less than they were set to."""
    return check.verdict == "out" and check.difference < 0


def shown(what: str, value: float, symbol: str, system: System) -> str:
    """Write a reading."""
    if what == "face":
        return f.facing(value)
    if symbol == "deg":
        return f.degrees(value)
    if what == "length":
        return f.length(value, system)
    return f.figure(value, symbol, system)


def built_notes(view: BuildView, system: System) -> tuple[Note, ...]:
    """Return what the readings say of each club, the certificate, and the gaps as built."""
    found = []
    for club in view.clubs:
        items = tuple(_parts_said(club, system))
        if items:
            found.append(Note(f"PARTS AS WEIGHED, {club.view.role} {club.view.label}", items))
    for club in view.clubs:
        items = tuple(_said(club, system))
        if items:
            found.append(Note(f"AS BUILT, {club.view.role} {club.view.label}", items))
    for club in view.clubs:
        if club.built.certificate is not None:
            paper = club.built.certificate
            title = f"CERTIFIED AGAINST DEMO '{paper.demo}', {club.view.role}"
            found.append(Note(title, (_verdict(paper), *_lines(paper, system))))
    if view.ladder is not None:
        found.append(Note("GAPS AS BUILT", (_gaps(view.ladder, system),)))
    return tuple(found)


def _parts_said(club: BuildClub, system: System) -> Iterator[str]:
    """Yield what the parts weighed and what that changes in the plan, then how the screws hold."""
    built = club.built
    weighed = [check for check in built.parts if check.what != "torque"]
    if weighed:
        yield f"{'; '.join(map(_part, weighed))}."
    if built.put_right is not None:
        yield from _put_right(built.put_right)
    for check in built.parts:
        if check.what == "torque" and _let_go(check) and check.read is not None:
            fell = f"{_torque(check.planned, system)} to {_torque(check.read, system)}"
            yield f"Screws fell from {fell}: look at threads and seats, set them again, look once more."


def _part(check: Check) -> str:
    """Name a part, its mass and how far that is from the catalogue."""
    read = check.planned + check.difference
    off = f.signed_grams(check.difference)
    flag = ", more than such parts are out by" if check.verdict == "out" else ""
    return f"{name(check.what)} {f.grams(read)} ({off}{flag})"


def _put_right(made: Corrected) -> Iterator[str]:
    """Say which pieces come out or go in for parts as weighed; the lines above have them already."""
    target = made.club.target
    before = f"{swing_weight_name(target + made.before)} ({f.points(made.before)})"
    if not made.moves:
        yield f"With the pieces planned: {before}; leave them."
        return
    work = "; ".join(_move(move) for move in made.moves)
    then = f"{swing_weight_name(target + made.left)} ({f.points(made.left)})"
    work = work[:1].upper() + work[1:]
    yield f"With the pieces planned first: {before}. {work}; then {then}, as in the lines."


def _said(club: BuildClub, system: System) -> Iterator[str]:
    """Yield what the readings of one club come to."""
    built = club.built
    if built.problem:
        yield f"Not used: {built.problem}."
        return
    against = built.against
    if against is None:
        return
    out = [_out(check, system) for check in against.out]
    yield f"Out: {'; '.join(out)}." if out else "Every figure that was read is within what is allowed."
    if against.excess is not None:
        yield _excess(against, system)
    yield from _correction(against)
    if built.owned is not None and built.owned.loft is not None and built.owned.loft.how == "measured":
        plays = against.check("effective_loft")
        if plays.read is not None:
            yield f"Back up the road as a club that is owned: plays {f.degrees(plays.read)}."


def _out(check: Check, system: System) -> str:
    """Name a figure that is out, and by how much."""
    if check.symbol == "points":
        by = f"{f.points(check.difference)} points"
    elif check.symbol == "g":
        by = f.signed_grams(check.difference)
    elif check.symbol == "deg":
        by = f"{'+' if check.difference > 0 else '-'}{f.degrees(abs(check.difference))}"
    else:
        by = f"{'+' if check.difference > 0 else '-'}{f.place(abs(check.difference), system)}"
    return f"{name(check.what)} {by}"


def _excess(against: AsBuilt, system: System) -> str:
    """Say how much mass is over, and where."""
    excess = against.excess
    assert excess is not None
    over = f"{f.grams(abs(excess.mass))} {'more' if excess.mass > 0 else 'less'} than the parts"
    if excess.position is None:
        return f"{over}; where it sits wants the balance point."
    if not excess.part:
        return f"{over}; scale and knife edge cannot tell where, so weigh the parts."
    return f"{over}, about {f.place(excess.position, system)} from the butt: the {excess.part}."


def _correction(against: AsBuilt) -> Iterator[str]:
    """Say which pieces come out or go in, and what the club then reads."""
    if against.left is None or against.after is None:
        return
    target = against.check("swing_weight").planned
    now = swing_weight_name(target + against.left)
    if not against.moves:
        if against.on_target:
            yield f"Reads {now}, {f.points(against.left)} off its target: leave it."
        else:
            yield f"Reads {now}, {f.points(against.left)} off its target, and no piece helps: other parts."
        return
    work = "; ".join(_move(move) for move in against.moves)
    then = f"{swing_weight_name(target + against.after)} ({f.points(against.after)})"
    yield f"Reads {now} ({f.points(against.left)}): {work}; then {then}."


def _move(move: Move) -> str:
    return f"{'leave out' if move.out else 'put in'} {f.bare_grams(move.mass)} g, {move.port}"


def _verdict(paper: Certificate) -> str:
    """Say whether the delivered club is the one that worked."""
    if paper.same:
        return "Every line was recorded, read, and agrees: this is the club that worked."
    states = [line.verdict for line in paper.lines]
    counts = ((kind, states.count(kind)) for kind in ("same", "differs", "not recorded", "not read"))
    return f"Not certified: {', '.join(f'{number} {kind}' for kind, number in counts if number)}."


def _lines(paper: Certificate, system: System) -> Iterator[str]:
    """Yield each line: the demo, the built club, and the verdict."""
    for line in paper.lines:
        both = f"{_side(line, line.demo, system)} | {_side(line, line.built, system)}"
        yield f"{name(line.what)}: {both} | {line.verdict}"


def _side(line: Line, value: float | str | None, system: System) -> str:
    if value is None:
        return "–"
    return value if isinstance(value, str) else shown(line.what, value, line.symbol, system)


def _gaps(ladder: LadderAsBuilt, system: System) -> str:
    """Write the ladder with the clubs as they were measured."""
    carries = [("driver", ladder.driver), ("longer", ladder.longer), ("shorter", ladder.shorter)]
    if ladder.iron is not None:
        carries.append(("iron", ladder.iron))
    steps = [f"{one} {distance(carry, system)}" for one, carry in carries]
    between = [distance(upper[1] - lower[1], system) for upper, lower in pairwise(carries)]
    return f"{', '.join(steps)}; steps {', '.join(between)}."
