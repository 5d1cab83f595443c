"""A face to scale, seen from the ball: where he meets it on each lie, and his marks.

Only its height and its best height are the head's own; the rest of the outline is a likeness.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.sheets.pictures.drawing import Drawing

if TYPE_CHECKING:
    from interview.views.build.face import FaceView, MetView

WIDTH = 92.0
_SCALE = 0.62
"""Millimetres on paper for one on the face."""
_HALF = 42.0 * _SCALE
"""Half of what a face is drawn wide."""
_ASIDE = 33.0
"""From the edge of the picture at the heel to the middle of the face; the writing stands beside the toe."""
_LEAST = 22.0
"""Height at least left for a face and its hosel, mm."""
_APART = 2.8
"""Least distance between two lines of writing."""
_MARKS_AT_MOST = 60


def face(view: FaceView, label: str) -> Drawing:
    """Return the picture of one face; a left-hander's is mirrored."""
    picture = Drawing(WIDTH, height_of(view), f"Face of the {label}, to scale")
    toe = -1.0 if view.hand == "right" else 1.0
    middle = WIDTH - _ASIDE if toe < 0 else _ASIDE
    _outline(picture, view, middle, toe)
    _best(picture, view, middle)
    _strikes(picture, view, middle, toe)
    _lies(picture, view, middle, toe)
    edge, anchor = (0.0, "start") if toe < 0 else (WIDTH, "end")
    tall = f"{view.height * 1000:.1f} mm tall{'' if view.known else ', usual'}"
    picture.text((edge, 2.9), label, anchor, "strong")
    picture.text((edge, _foot(view) - 0.6), tall, anchor, "small")
    for end, along in (("toe", 0.9), ("heel", -0.9)):
        picture.text((middle + toe * along * _HALF, height_of(view) - 0.4), end, "middle", "small")
    return picture


def height_of(view: FaceView) -> float:
    """Return how high the picture of a face is, mm."""
    return _foot(view) + 2.7


def _foot(view: FaceView) -> float:
    """Return how far down the paper the leading edge lies."""
    return max(_LEAST, view.height * 1000 * _SCALE) + 1.8


def _up(view: FaceView, metres: float) -> float:
    """Return how far down the paper a height up the face lies."""
    return _foot(view) - metres * 1000 * _SCALE


def _outline(picture: Drawing, view: FaceView, middle: float, toe: float) -> None:
    """Draw the face: leading edge below, top edge at its measured height, hosel at the heel."""
    foot = _foot(view)
    tall = foot - _up(view, view.height)

    def at(along: float, up: float, above: float = 0.0) -> tuple[float, float]:
        return (middle + toe * along * _HALF, foot - up * tall - above)

    picture.curve(
        at(-0.80, 0.10),
        (
            (at(-0.50, -0.02), at(0.40, -0.02), at(0.66, 0.06)),
            (at(0.94, 0.14), at(1.04, 0.46), at(0.92, 0.66)),
            (at(0.74, 0.92), at(0.34, 1.0), at(0.0, 1.0)),
            (at(-0.34, 1.0), at(-0.66, 0.84), at(-0.86, 0.66)),
            (at(-0.94, 0.48), at(-0.92, 0.20), at(-0.80, 0.10)),
        ),
    )
    picture.path((at(-0.82, 0.71), at(-0.98, 0.71, 6.2), at(-1.13, 0.42, 8.5), at(-0.91, 0.42)))
    picture.line((middle - _HALF, foot), (middle + _HALF, foot), "hair")


def _best(picture: Drawing, view: FaceView, middle: float) -> None:
    """Mark the height at which the head's centre of mass stands behind the ball."""
    y = _up(view, view.cg)
    picture.line((middle - 2.2, y), (middle + 2.2, y), "bold")
    picture.line((middle, y - 2.2), (middle, y + 2.2), "bold")


def _strikes(picture: Drawing, view: FaceView, middle: float, toe: float) -> None:
    """Draw his own marks, and where most strikes fall off the tightest lie that matters."""
    for along, high in view.marks[:_MARKS_AT_MOST]:
        picture.circle((middle + toe * along * 1000 * _SCALE, _up(view, high)), 0.7, "solid")
    tightest = next((one for one in view.met if one.tightest), None)
    if tightest is not None:
        centre = (middle + toe * view.mean_toe * 1000 * _SCALE, _up(view, tightest.height + view.mean_high))
        across, up = view.spread_toe * 1000 * _SCALE, view.spread_high * 1000 * _SCALE
        picture.ellipse(centre, across, up, "dash")


def _lies(picture: Drawing, view: FaceView, middle: float, toe: float) -> None:
    """Mark each lie beside the toe, as high up the face as the ball is met off it."""
    edge, anchor = middle + toe * (_HALF + 1.0), "end" if toe < 0 else "start"
    written = _foot(view) + 2 * _APART
    for one in sorted(view.met, key=lambda met: met.height):
        y = _up(view, one.height)
        picture.line((middle, y), (edge - toe * 0.5, y), "thin" if one.tightest else "dots")
        written = min(y + 0.9, written - _APART)
        look = "strong-small" if one.tightest else "small"
        picture.text((edge + toe * 0.6, written), _words(one), anchor, look)


def _words(one: MetView) -> str:
    return f"{one.height * 1000:.0f} mm {one.lie.replace('_', ' ')}"
