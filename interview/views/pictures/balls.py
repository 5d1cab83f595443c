"""A trial as rows: whose ball it is, every club's balls, what the last one changed, and the face."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.face import face_rows
from interview.views.pictures.ink import Ink, Picture, Row, padded, row, wrapped

if TYPE_CHECKING:
    from interview.views.bay.balls import BallsView, ClubTally
    from interview.views.pictures.glyphs import Glyphs


def balls_rows(view: BallsView, width: int, glyphs: Glyphs, high: int = 22) -> Picture:
    """Return the trial in `width` cells and about `high` rows."""
    rows: list[Row] = [*wrapped(f"{view.turn} ({view.ground})", width, "strong"), Row()]
    rows += [_tally(one, width, glyphs) for one in view.tallies]
    rows.append(Row())
    for text in view.told:
        rows += wrapped(text, width, "plain")
    if view.face is not None:
        rows += face_rows(view.face, width, glyphs, max(8, high - len(rows)))
    return tuple(rows)


def _tally(one: ClubTally, width: int, glyphs: Glyphs) -> Row:
    """Return one club's balls: a full sign for each that got up, an empty one for each that did not."""
    name = max(6, min(24, width // 3))
    balls = glyphs.known * one.up + glyphs.open * (one.of - one.up)
    verdict = {True: "four of six", False: "fewer than four of six", None: ""}[one.passed]
    mark = glyphs.cursor if one.next else " "
    return row(
        Ink(f"{mark} ", "head"),
        Ink(padded(one.club, name), "strong" if one.next else "plain"),
        Ink(f" {padded(balls, 12)} ", "pick"),
        Ink(", ".join(part for part in (one.others, verdict) if part), "dim"),
    )
