"""A head from above, its ports to scale from its centre of mass, with what goes into each.

The outline is a likeness; the places are the head's own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.sheets.figures import bare_grams
from interview.sheets.pictures.drawing import Drawing, Point

if TYPE_CHECKING:
    from interview.views.build.club import PartsView
    from interview.views.build.parts import PortRow
    from rules.shelf.parts import Head

WIDTH = 44.0
_SCALE = 0.37
"""Millimetres on paper for one on the head."""
_MIDDLE = 22.0
_TOP = 3.4
_DEEP = {"fairway": 1.32, "hybrid": 1.45}
"""How much deeper than its sole a head is drawn."""
_APART = 2.5


def head(parts: PartsView) -> Drawing:
    """Return the picture of a head with its ports; a left-hander's is mirrored."""
    own = parts.head
    below = _TOP + _deep(own) + 1.0
    high = below + len(parts.ports) * _APART + 1.0
    picture = Drawing(WIDTH, high, f"Head {own.id} from above, ports to scale")
    side = 1.0 if own.hand == "right" else -1.0
    front = _TOP + own.cg_depth * 1000 * _SCALE

    def at(toeward: float, backward: float) -> Point:
        return (_MIDDLE + side * toeward * 1000 * _SCALE, front + backward * 1000 * _SCALE)

    _outline(picture, own, side)
    _cross(picture, at(0.0, 0.0))
    for number, port in enumerate(parts.ports, 1):
        _port(picture, port, at(port.toeward, port.backward), number)
    _labels(picture, parts.ports, below)
    picture.text((_MIDDLE, 2.0), "face", "middle", "tiny")
    ends = ("heel", "toe") if side > 0 else ("toe", "heel")
    picture.text((0.0, 9.0), ends[0], "start", "tiny")
    picture.text((WIDTH, 9.0), ends[1], "end", "tiny")
    return picture


def _deep(own: Head) -> float:
    """Return how deep a head is drawn, mm on paper."""
    return own.sole_width * 1000 * _DEEP[own.kind] * _SCALE


def _outline(picture: Drawing, own: Head, side: float) -> None:
    """Draw a likeness: face ahead, hosel at its measured distance from the centre."""
    deep, y, toe, heel = _deep(own), _TOP, 46 * _SCALE, 40 * _SCALE

    def x(along: float) -> float:
        return _MIDDLE + side * along

    picture.curve(
        (x(-heel), y + 2.0),
        (
            ((x(-heel * 0.6), y - 0.2), (x(toe * 0.6), y - 0.8), (x(toe), y + 1.4)),
            ((x(toe * 1.16), y + deep * 0.35), (x(toe * 0.95), y + deep), (x(0.0), y + deep)),
            ((x(-heel * 0.9), y + deep), (x(-heel * 1.25), y + deep * 0.45), (x(-heel), y + 2.0)),
        ),
        "body",
    )
    hosel = (x(-own.cg_toward_toe * 1000 * _SCALE - 1.2), y + 2.2)
    picture.circle(hosel, 1.8, "ink")
    picture.circle(hosel, 1.0, "hair")


def _cross(picture: Drawing, at: Point) -> None:
    """Mark the empty head's centre of mass."""
    picture.line((at[0] - 1.3, at[1]), (at[0] + 1.3, at[1]), "ink")
    picture.line((at[0], at[1] - 1.3), (at[0], at[1] + 1.3), "ink")


def _port(picture: Drawing, port: PortRow, at: Point, number: int) -> None:
    """Draw a port, filled where mass goes in, with its number."""
    picture.circle(at, 1.9, "port-full" if port.pieces else "port-empty")
    picture.text((at[0], at[1] + 0.85), str(number), "middle", "port-number" if port.pieces else "small")


def _labels(picture: Drawing, ports: tuple[PortRow, ...], below: float) -> None:
    """Write below what goes into each port and where it sits from the centre of mass."""
    for number, port in enumerate(ports, 1):
        total = f"{bare_grams(port.mass)} g" if port.pieces else "empty"
        y = below + number * _APART
        picture.text((0.0, y), f"{number} {port.name} {total}", look="strong-small")
        picture.text((WIDTH, y), _place(port), "end", "tiny")


def _place(port: PortRow) -> str:
    """Write a port's place: toe or heel, up or down, back or forward, mm."""
    ways = ((port.toeward, "toe", "heel"), (port.upward, "up", "down"), (port.backward, "back", "fwd"))
    said = [
        f"{more if far > 0 else less} {abs(far) * 1000:.3g}" for far, more, less in ways if abs(far) > 5e-5
    ]
    return ", ".join(said) or "centre"
