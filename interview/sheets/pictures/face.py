"""A face to scale, seen from the ball: where he meets it on each lie, and his marks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.sheets.pictures.drawing import Drawing

if TYPE_CHECKING:
    from interview.views.build.face import FaceView, MetView

WIDTH, HEIGHT = 92.0, 29.5
_SCALE = 0.66
"""Millimetres on paper for one on the face."""
_FACE = 42.0
"""Half of what a face is drawn wide, mm of face; its width is not measured, its height is."""
_MIDDLE = 33.0
_FOOT = 25.6
_APART = 3.0
"""Least distance between two lines of writing, mm."""
_MARKS_AT_MOST = 60


def face(view: FaceView, label: str) -> Drawing:
    """Return the picture of one face; a left-hander's is mirrored."""
    picture = Drawing(WIDTH, HEIGHT, f"Face of the {label}, to scale")
    side = -1.0 if view.hand == "right" else 1.0
    _outline(picture, view, side)
    _best(picture, view)
    _strikes(picture, view, side)
    _lies(picture, view)
    picture.text((0, 3.2), label, look="strong")
    picture.text(
        (0, 6.4), f"{view.height * 1000:.1f} mm tall{'' if view.known else ' (usual)'}", look="small"
    )
    toe, heel = ("toe", "heel") if side < 0 else ("heel", "toe")
    picture.text((_MIDDLE - _FACE * _SCALE, HEIGHT - 0.8), toe, "middle", "small")
    picture.text((_MIDDLE + _FACE * _SCALE, HEIGHT - 0.8), heel, "middle", "small")
    return picture


def _up(metres: float) -> float:
    """Return how far down the paper a height up the face lies."""
    return _FOOT - metres * 1000 * _SCALE


def _outline(picture: Drawing, view: FaceView, side: float) -> None:
    """Draw the face: leading edge below, top edge at its measured height above the middle, hosel at the heel.

    Only the height is the head's own; the rest is a likeness.
    """
    half, tall = _FACE * _SCALE, _FOOT - _up(view.height)

    def at(along: float, up: float) -> tuple[float, float]:
        return (_MIDDLE + side * along * half, _FOOT - up * tall)

    picture.curve(
        at(-0.80, 0.10),
        (
            (at(-0.50, -0.02), at(0.40, -0.02), at(0.66, 0.06)),
            (at(0.94, 0.14), at(1.04, 0.46), at(0.92, 0.66)),
            (at(0.74, 0.92), at(0.34, 1.0), at(0.0, 1.0)),
            (at(-0.34, 1.0), at(-0.66, 0.84), at(-0.86, 0.66)),
            (at(-0.94, 0.48), at(-0.92, 0.20), at(-0.80, 0.10)),
        ),
        "ink",
    )
    picture.path((at(-0.86, 0.66), at(-1.12, 1.12)), "ink")
    picture.path((at(-0.88, 0.26), at(-1.24, 0.98)), "ink")
    picture.line((_MIDDLE - half, _FOOT), (_MIDDLE + half, _FOOT), "hair")


def _best(picture: Drawing, view: FaceView) -> None:
    """Mark the height at which the head's centre of mass stands behind the ball."""
    y = _up(view.cg)
    picture.line((_MIDDLE - 2.4, y), (_MIDDLE + 2.4, y), "bold")
    picture.line((_MIDDLE, y - 2.4), (_MIDDLE, y + 2.4), "bold")


def _strikes(picture: Drawing, view: FaceView, side: float) -> None:
    """Draw his own marks, or where strikes like his are expected off the tightest lie that matters."""
    for toe, high in view.marks[:_MARKS_AT_MOST]:
        picture.circle((_MIDDLE + side * toe * 1000 * _SCALE, _up(high)), 0.7, "solid")
    tightest = next((one for one in view.met if one.tightest), None)
    if tightest is not None:
        centre = (_MIDDLE + side * view.mean_toe * 1000 * _SCALE, _up(tightest.height + view.mean_high))
        across, up = view.spread_toe * 1000 * _SCALE, view.spread_high * 1000 * _SCALE
        picture.ellipse(centre, across, up, "dash")


def _lies(picture: Drawing, view: FaceView) -> None:
    """Mark each lie at the right, as high up the face as the ball is met off it."""
    right = _MIDDLE + _FACE * _SCALE + 2.0
    written = _FOOT + 2 * _APART
    for one in sorted(view.met, key=lambda met: met.height):
        y = _up(one.height)
        picture.line((_MIDDLE, y), (right - 1.0, y), "thin" if one.tightest else "dots")
        written = min(y + 0.9, written - _APART)
        picture.text((right, written), _words(one), look="strong-small" if one.tightest else "small")


def _words(one: MetView) -> str:
    return f"{one.height * 1000:.0f} mm {one.lie.replace('_', ' ')}"
