"""What the shop's own finished clubs teach its calibration, printed, and kept if that is asked for."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.commands.common import house, opened
from interview.commands.errors import DONE
from interview.text import counted, one_line
from rules.problems import Problem
from rules.shelf import catalogue_folder
from rules.units import UNITS

if TYPE_CHECKING:
    from rules.bench.calibrate import Calibration, FinishedClub
    from rules.fitting import House

_INCH, _GRAM = UNITS["in"].factor, UNITS["g"].factor


TOO_SCATTERED = 1.0
"""Readings that miss their own fit by more than this are not kept, points (house value)."""


class ReadingsTooScattered(Problem):
    """Finished clubs that do not agree with one another; the shop's file was left as it is."""

    def __init__(self, points: float) -> None:
        self.points = points
        super().__init__(
            f"nothing is kept: these clubs miss their own fit by {points:.1f} points, so read them again"
        )


class NothingRead(Problem):
    """Sessions of which no finished club was read, so that there is nothing to learn from."""

    def __init__(self) -> None:
        super().__init__(
            'none of these sessions holds readings of a new club; enter them under [readings."longer"] first'
        )


def learn(args: Namespace) -> int:
    """Learn from every finished club that was read; with --keep the shop's own file remembers it."""
    from rules.bench.calibrate import calibrate
    from rules.shelf.learned import keep_calibration
    from rules.shelf.stock import DemoIsReadOnly

    folder = catalogue_folder(args.catalogue)
    if args.keep and folder is None:
        raise DemoIsReadOnly
    home = house(args)
    clubs = [club for name in args.sessions_read for club in _finished(args, home, name)]
    if not clubs:
        raise NothingRead
    learned = calibrate(clubs)
    for line in _lines(learned, len(clubs)):
        print(line)
    if args.keep and folder is not None:
        if learned.residual_points > TOO_SCATTERED:
            raise ReadingsTooScattered(learned.residual_points)
        file = keep_calibration(folder, learned, ", ".join(club.name for club in clubs))
        print(one_line(f"Kept in {file}.", 300))
    return DONE


def _finished(args: Namespace, home: House, name: str) -> Iterator[FinishedClub]:
    """Yield the new clubs of a session that were read."""
    from rules.workbench.teach import finished_club
    from rules.workbench.weighed import as_weighed

    session, outcome = opened(args, home, name)
    readings, shelf = session.subject.readings, outcome.house.shelf
    for club, made in zip(outcome.clubs, as_weighed(outcome.clubs, readings, shelf), strict=True):
        reading = readings.get(club.role)
        if reading is not None and reading.of_finished and club.build is not None:
            yield finished_club(f"{session.id} {club.role}", made.club if made else club, reading)


def _lines(learned: Calibration, clubs: int) -> Iterator[str]:
    """Yield what was learned, each with its spread, and what could not be told."""
    yield f"From {counted(clubs, 'finished club')}:"
    figures = (
        ("setback", learned.setback, _INCH, "in", 2),
        ("ferrule and glue", learned.glue_and_ferrule, _GRAM, "g", 1),
        ("ruler offset", learned.ruler_offset, _INCH, "in", 3),
    )
    for (name, value, factor, symbol, decimals), spread in zip(figures, learned.spreads, strict=True):
        if value is not None:
            about = "" if spread is None else f", give or take {spread / factor:.{decimals}f}"
            yield f"  {name:<17} {value / factor:.{decimals}f} {symbol}{about}"
    yield f"  what is left over {learned.residual_points:.2f} points"
    for name, miss in learned.misses:
        yield f"    {one_line(name, 100)}: {miss:+.2f} points"
    yield from learned.held
