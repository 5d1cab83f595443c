"""A trial as rows: whose ball it is, which key notes what, every club's balls, what the last one changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, legend, padded, row, wrapped

if TYPE_CHECKING:
    from interview.views.bay.balls import BallsView, ClubTally
    from interview.views.pictures.glyphs import Glyphs

_KEYS = (("1", "topped"), ("2", "thin"), ("3", "fat"), ("4", "up"))
_BEFORE = (("arrows, click", "its mark"), (", .", "its side"))


def balls_rows(view: BallsView, width: int, glyphs: Glyphs) -> Picture:
    """Return the trial in `width` cells."""
    rows: list[Row] = [*wrapped(f"{view.turn} {view.ground}", width, "strong")]
    rows += [row(*(Ink(ink.text, "key" if ink.role == "strong" else "plain") for ink in one.inks))
             for one in legend(_KEYS, width)]  # fmt: skip
    rows += wrapped(view.aim, width, "mark") if view.aim else legend(_BEFORE, width)
    rows += [one for text in view.bias for one in wrapped(text, width, "alert")]
    rows += [_tally(one, width, glyphs) for one in view.tallies]
    rows += [one for text in view.told for one in wrapped(text, width, "plain", indent="  ")]
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
