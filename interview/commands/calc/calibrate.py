"""`turfpair calc calibrate`: what a shop's own finished clubs say about setback, glue and ruler.

The file is TOML, one table for each finished club, its parts weighed before assembly:

    [[club]]
    name = "rebuilt 5-wood"       # any name
    head = "218 g"                # bare head
    shaft = "63 g"                # shaft as cut
    shaft_balance = "20.6 in"     # where the cut shaft balances, from its own butt; or shaft_length
    shaft_length = "41.5 in"      # half of it is taken when the balance was not measured
    grip = "50 g"
    grip_balance = "4 in"         # optional
    added = "4 g"                 # weight in the head, optional
    hosel_length = "2.4 in"       # ground to the top of the hosel, optional
    length = "42.9 in"            # by the bench ruler
    plane_length = "43 in"        # sole against a plane of 60 degrees, optional
    total = "339 g"               # the finished club, optional
    swing_weight = "D4.5"         # or balance_point = "30 in" together with total
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace, RawDescriptionHelpFormatter
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from interview.commands.calc import note, quantity, system, table, tidy
from interview.text import one_line
from rules.bench.balance import finished, moment
from rules.bench.build import GRIP_CENTRE
from rules.bench.calibrate import Calibration, FinishedClub, calibrate
from rules.bench.cuts import CAP
from rules.bench.problems import BenchProblem, MissingReading
from rules.engine.document import Document, FileProblem, read_toml
from rules.units import UNITS, UnitError, words

HELP = "Learn setback, ferrule and glue, and ruler offset from your own finished clubs."

_UNITS = {
    "head": "g", "shaft": "g", "grip": "g", "added": "g", "total": "g",
    "shaft_balance": "in", "shaft_length": "in", "grip_balance": "in", "hosel_length": "in",
    "length": "in", "plane_length": "in", "balance_point": "in", "swing_weight": "points",
}  # fmt: skip
"""Every key of a club but its name, with the unit of a bare number."""
_MOST_CLUBS = 500


def configure(parser: ArgumentParser) -> None:
    """Add the file, and show what it looks like."""
    parser.formatter_class = RawDescriptionHelpFormatter
    parser.epilog = (__doc__ or "").partition("\n\n")[2]
    parser.add_argument("clubs", metavar="CLUBS.toml", type=Path, help="finished clubs: parts and readings")


def compute(args: Namespace) -> dict[str, Any]:
    """Fit the clubs; what they cannot tell is null."""
    found = calibrate(read_clubs(args.clubs))
    return {
        "setback_in": _in(found.setback, "in"),
        "glue_and_ferrule_g": _in(found.glue_and_ferrule, "g"),
        "ruler_offset_in": _in(found.ruler_offset, "in"),
        "residual_points": tidy(found.residual_points),
    }


def text(result: dict[str, Any], args: Namespace) -> str:
    """Say what was learned, how surely, what it still misses, and what these clubs cannot tell."""
    found, units = calibrate(read_clubs(args.clubs)), system(args)
    learned = (
        ("setback", found.setback, found.spreads[0], "in"),
        ("ferrule and glue", found.glue_and_ferrule, found.spreads[1], "g"),
        ("ruler reads short by", found.ruler_offset, found.spreads[2], "in"),
    )
    rows = []
    for name, value, spread, unit in learned:
        if value is None or spread is None:
            rows.append((name, "not told", ""))
        else:
            rows.append((name, words(value, unit, units, decimals=2), f"+/- {_short(spread, unit)}"))
    return f"{table(('', 'learned', 'one spread'), rows)}\n\n{note(*_notes(found))}"


def _notes(found: Calibration) -> list[str]:
    """Residual, the club that fits worst, what was held, and what to do next."""
    worst, miss = max(found.misses, key=lambda pair: abs(pair[1]))
    notes = [
        f"With these the sums miss your {len(found.misses)} balance readings by {found.residual_points:.2f} "
        f"points (root mean square); '{worst}' fits worst, by {miss:+.2f}.",
        *found.held,
    ]
    if found.residual_points > 1:
        notes.append(
            "That is more than a scale and a ruler should miss: weigh the worst club and its parts again."
        )
    notes.append("Check it on the scale: build the next club from these figures and compare the reading.")
    return notes


def _short(spread: float, symbol: str) -> str:
    """Write a spread with two decimals at most."""
    return f"{UNITS[symbol].step_from_si(spread):.2f} {symbol}"


def _in(value: float | None, symbol: str) -> float | None:
    """Turn SI into a JSON number, or keep null."""
    return None if value is None else tidy(UNITS[symbol].from_si(value), 6)


def read_clubs(path: Path) -> list[FinishedClub]:
    """Read every club of a file; FileProblem, with line and column, when it is not such a file."""
    document = read_toml(path)
    unknown = sorted(document.data.keys() - {"club"})
    if unknown:
        raise _problem(
            document, (unknown[0],), f"'{unknown[0]}' is not known here; write [[club]] tables", key=True
        )
    tables = document.data.get("club")
    if not isinstance(tables, list) or not tables or not all(isinstance(one, dict) for one in tables):
        raise _problem(document, ("club",), "no [[club]] tables here; write one for each finished club")
    if len(tables) > _MOST_CLUBS:
        raise _problem(document, ("club",), f"more than {_MOST_CLUBS} clubs; split the file")
    return [_club(document, index) for index in range(len(tables))]


def _problem(
    document: Document, at: tuple[str | int, ...], sentence: str, *, key: bool = False
) -> FileProblem:
    """Return the problem of one value in the file, or of its key."""
    return FileProblem(document.path, sentence, *document.position(at, key=key))


def _club(document: Document, index: int) -> FinishedClub:
    """Turn one table into a finished club."""
    given = dict(document.data["club"][index])
    name = one_line(str(given.pop("name", f"club {index + 1}")), 40)
    read = {key: _amount(document, index, key, value) for key, value in given.items()}
    try:
        return _finished(name, read)
    except BenchProblem as problem:
        raise _problem(document, ("club", index), str(problem)) from None


def _finished(name: str, read: dict[str, float]) -> FinishedClub:
    """Put one club together from what was read (SI); MissingReading and OutOfRange."""
    for key in ("head", "shaft", "grip"):
        if key not in read:
            raise MissingReading(name, f"a {key}")
    optional = {key: read[key] for key in ("hosel_length", "added") if key in read}
    return FinishedClub(
        name=name,
        head=read["head"],
        shaft=read["shaft"],
        shaft_centre=_shaft_centre(name, read),
        grip=read["grip"],
        grip_centre=read.get("grip_balance", GRIP_CENTRE),
        ruler_length=read.get("length"),
        plane_length=read.get("plane_length"),
        total=read.get("total"),
        moment=_moment(name, read),
        **optional,
    )


def _amount(document: Document, index: int, key: str, value: Any) -> float:
    """Read one value of a club (SI); an unknown key or an unreadable value is a FileProblem."""
    place = ("club", index, key)
    if key not in _UNITS:
        close = get_close_matches(key, _UNITS, 1)
        hint = f"did you mean '{close[0]}'?" if close else f"the keys are {', '.join(sorted(_UNITS))}"
        raise _problem(document, place, f"'{one_line(key, 40)}' is not a key of a club; {hint}", key=True)
    if not isinstance(value, str | int | float):
        raise _problem(document, place, f"{key}: a number with its unit is wanted, as '10 {_UNITS[key]}'")
    try:
        return quantity(value, _UNITS[key], key)
    except UnitError as problem:
        raise _problem(document, place, str(problem)) from None


def _shaft_centre(name: str, read: dict[str, float]) -> float:
    """Where the cut shaft balances, m from the end of the grip cap."""
    if "shaft_balance" in read:
        return read["shaft_balance"] + CAP
    if "shaft_length" in read:
        return read["shaft_length"] / 2 + CAP
    raise MissingReading(name, "a shaft_balance or shaft_length")


def _moment(name: str, read: dict[str, float]) -> float | None:
    """Moment (kg*m) by the scale, or from total and balance point; None when neither was read."""
    if "swing_weight" in read:
        return moment(read["swing_weight"])
    if "balance_point" not in read:
        return None
    if "total" not in read:
        raise MissingReading(name, "a total to go with its balance point")
    return finished(read["total"], read["balance_point"]).moment
