"""The candidates, best first, each with what speaks against it and for it on either side of a line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.pictures.bars import bar, points_text
from interview.views.pictures.ink import Ink, Picture, Role, Row, cells, clipped, legend, padded, row, wrapped

if TYPE_CHECKING:
    from interview.views.bay.standing import CandidateView, StandingView
    from interview.views.pictures.glyphs import Glyphs

_NUMBER = 7
"""Cells of a number of points."""
_LEAST_BAR = 9
"""Cells that a bar wants at least."""


def standing_rows(view: StandingView, width: int, glyphs: Glyphs) -> Picture:
    """Return how the candidates stand, the pair that was taken first."""
    if view.nothing:
        return wrapped(view.nothing, width, "alert")
    scale = max((max(one.speaks_for, -one.speaks_against) for one in view.candidates), default=1)
    short = _longest(view, short=False) + _NUMBER + 2 + _LEAST_BAR > width
    name = max(4, min(_longest(view, short=short) + 1, width - _NUMBER - 2 - _LEAST_BAR))
    rows = [_candidate(one, scale, name, width, glyphs, short=short) for one in view.candidates]
    if view.more:
        rows.append(row(Ink(clipped(f"and {view.more} more behind", width), "dim")))
    return tuple(rows)


def _longest(view: StandingView, *, short: bool) -> int:
    """Return the cells that the longest name takes."""
    return max((cells(one.short if short else one.name) for one in view.candidates), default=0)


def _candidate(one: CandidateView, scale: int, name: int, width: int, glyphs: Glyphs, *, short: bool) -> Row:
    """Return one candidate: sign, name, points and bar."""
    signs = {"leads": glyphs.leads, "could_win": glyphs.could_win, "beaten": glyphs.beaten, "out": glyphs.out}
    role: Role = "pick" if one.place == "leads" else "plain" if one.place == "could_win" else "dim"
    number = "out" if one.place == "out" else points_text(one.points, glyphs)
    return row(
        Ink(f"{signs[one.place]} ", role),
        Ink(padded(one.short if short else one.name, name), role),
        Ink(f"{padded(number, _NUMBER - 1, right=True)} ", role),
        *bar(-one.speaks_against, one.speaks_for, scale, max(0, width - name - _NUMBER - 2), glyphs),
        target=one.id,
    )


def standing_line(view: StandingView, glyphs: Glyphs) -> str:
    """Return in a few words how far the pick is ahead."""
    if view.nothing:
        return "no pair is possible"
    return "" if view.margin is None else f"{points_text(view.margin, glyphs, sign=False)} ahead"


def firm_line(view: StandingView, glyphs: Glyphs) -> str:
    """Return in a few words how firm the pick is: proved, measured, and as a share."""
    if view.nothing:
        return ""
    firm = "settled" if view.settled else "steady" if view.steady else "not settled"
    if view.steady is False and not view.settled:
        firm = "not steady"
    parts = ["taken by you"] if view.by_hand else [firm]
    if view.sure is not None:
        parts.append(f"sure {view.sure * 100:.0f} %")
    return f" {glyphs.dot} ".join(parts)


def standing_key(width: int, glyphs: Glyphs) -> Picture:
    """Return what the signs of the standing mean."""
    pairs = (
        (glyphs.leads, "leads"), (glyphs.could_win, "could still win"), (glyphs.beaten, "beaten"),
        (glyphs.out, "ruled out"), (glyphs.bar_against, "against"), (glyphs.bar_for, "for"),
    )  # fmt: skip
    return legend(pairs, width)
