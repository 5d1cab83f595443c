"""The ladder of distances: carries of clean strikes on one scale, with bands, and the step below each."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interview.sheets.pictures.drawing import Drawing
from interview.views.laws import flight_laws
from interview.views.outcome_text.quantities import distance

if TYPE_CHECKING:
    from interview.sheets.golfer.sheet import GolferSheet

WIDTH = 92.0
_ROW = 8.4
_TOP = 3.0
_LEFT, _RIGHT = 21.0, 15.0
_BAND = 3.4


class _Rung(NamedTuple):
    """One club of the ladder, m."""

    name: str
    carry: float
    band: tuple[float, float] | None
    every: float | None


def ladder(sheet: GolferSheet) -> Drawing | None:
    """Return the ladder of a sheet; None without a pair."""
    rungs = _rungs(sheet)
    if not rungs:
        return None
    picture = Drawing(WIDTH, _TOP + _ROW * (len(rungs) - 1) + 7.5, "Ladder of distances")
    known = [value for rung in rungs for value in (rung.carry, rung.every, *(rung.band or ())) if value]
    low, high = min(known), max(known)
    margin = max(5.0, 0.06 * (high - low))
    scale: float = (WIDTH - _LEFT - _RIGHT) / (high - low + 2 * margin)

    def across(metres: float) -> float:
        return float(_LEFT + (metres - low + margin) * scale)

    for number, rung in enumerate(rungs):
        _draw(picture, sheet, rung, _TOP + number * _ROW, across)
        if number:
            _step(picture, sheet, rungs[number - 1], rung, _TOP + (number - 0.5) * _ROW)
    _key(picture, any(rung.every for rung in rungs))
    return picture


def _rungs(sheet: GolferSheet) -> list[_Rung]:
    """Return the rungs from the top of the bag down."""
    gaps = sheet.gaps
    if gaps is None:
        return []
    found = [_Rung("driver", gaps.driver, None, None)]
    for name, carry, (least, most, every) in zip(
        sheet.labels, (gaps.longer, gaps.shorter), sheet.bands, strict=True
    ):
        found.append(_Rung(name, carry, (least, most), every))
    if gaps.iron is not None:
        found.append(_Rung("longest iron", gaps.iron, None, None))
    return found


def _draw(picture: Drawing, sheet: GolferSheet, rung: _Rung, y: float, across: _Scale) -> None:
    """Draw one rung: its name, its band, the clean strike, and what all balls come to."""
    picture.line((_LEFT, y), (WIDTH - _RIGHT, y), "hair")
    picture.text((0, y + 1.1), rung.name, look="strong")
    if rung.band is not None:
        start, end = across(rung.band[0]), across(rung.band[1])
        picture.box((start, y - _BAND / 2), max(end - start, 0.8), _BAND, "shade")
    if rung.every is not None:
        picture.circle((across(rung.every), y), 1.1, "hollow")
    picture.circle((across(rung.carry), y), 1.3, "solid")
    picture.text((WIDTH, y + 1.1), distance(rung.carry, sheet.system), "end", "strong")


def _step(picture: Drawing, sheet: GolferSheet, upper: _Rung, lower: _Rung, y: float) -> None:
    """Write the step between two rungs at the right."""
    step = upper.carry - lower.carry
    words = f"{distance(abs(step), sheet.system)} {'less' if step >= 0 else 'MORE'}"
    picture.text((WIDTH, y + 0.9), words, "end", "small")


def _key(picture: Drawing, every: bool) -> None:
    """Say what the signs mean."""
    y = picture.height - 1.6
    picture.circle((1.3, y), 1.1, "solid")
    picture.text((3.6, y + 0.9), "hit well", look="small")
    picture.box((16.5, y - 1.1), 5, 2.2, "shade")
    picture.text((22.6, y + 0.9), flight_laws(), look="small")
    if every:
        picture.circle((46.5, y), 1.1, "hollow")
        picture.text((48.8, y + 0.9), "over all your balls, good and bad", look="small")


if TYPE_CHECKING:
    from collections.abc import Callable

    _Scale = Callable[[float], float]
