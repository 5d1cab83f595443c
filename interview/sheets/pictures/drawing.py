"""Strokes of a picture. One unit is a millimetre at full size; looks are classes of the page's own style."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from markupsafe import Markup

REM = 25.4 / 7.2
"""The page's own unit at full size, mm: ten points; a page that must shrink shrinks its pictures too."""
Point = tuple[float, float]
"""Right and down, mm."""


class Drawing:
    """A picture of a size in mm, drawn stroke by stroke."""

    def __init__(self, width: float, height: float, title: str) -> None:
        self.width, self.height = width, height
        self._title = title
        self._strokes: list[Markup] = []

    def line(self, a: Point, b: Point, look: str = "ink") -> None:
        """Draw a straight line."""
        self._add('<line class="{}" x1="{}" y1="{}" x2="{}" y2="{}"/>', look, *_mm(*a, *b))

    def path(self, points: Sequence[Point], look: str = "ink", *, close: bool = False) -> None:
        """Draw a line through points."""
        steps = " L".join(" ".join(_mm(*point)) for point in points)
        self._add('<path class="{}" d="M{}{}"/>', look, steps, "Z" if close else "")

    def curve(self, start: Point, bends: Iterable[tuple[Point, Point, Point]], look: str = "ink") -> None:
        """Draw a closed shape of cubic bends."""
        steps = " ".join(f"C{' '.join(_mm(*a, *b, *c))}" for a, b, c in bends)
        self._add('<path class="{}" d="M{} {}Z"/>', look, " ".join(_mm(*start)), steps)

    def circle(self, at: Point, radius: float, look: str = "ink") -> None:
        """Draw a circle."""
        self._add('<circle class="{}" cx="{}" cy="{}" r="{}"/>', look, *_mm(*at, radius))

    def ellipse(self, at: Point, across: float, up: float, look: str = "ink") -> None:
        """Draw an ellipse by its half axes."""
        self._add('<ellipse class="{}" cx="{}" cy="{}" rx="{}" ry="{}"/>', look, *_mm(*at, across, up))

    def box(self, at: Point, width: float, height: float, look: str = "ink") -> None:
        """Draw a rectangle from its upper left corner."""
        self._add('<rect class="{}" x="{}" y="{}" width="{}" height="{}"/>', look, *_mm(*at, width, height))

    def text(self, at: Point, words: str, anchor: str = "start", look: str = "said") -> None:
        """Write words; `anchor` is start, middle or end."""
        self._add('<text class="{}" x="{}" y="{}" text-anchor="{}">{}</text>', look, *_mm(*at), anchor, words)

    def _add(self, pattern: str, *values: str) -> None:
        self._strokes.append(Markup(pattern).format(*values))

    @property
    def svg(self) -> Markup:
        """Return the picture as an SVG element that stands in a page."""
        head = Markup('<svg role="img" viewBox="0 0 {} {}" style="width: {}rem"><title>{}</title>')
        width, height = _mm(self.width, self.height)
        return (
            head.format(width, height, f"{self.width / REM:.3f}", self._title)
            + Markup("").join(self._strokes)
            + Markup("</svg>")
        )


def _mm(*values: float) -> tuple[str, ...]:
    """Write coordinates to a fiftieth of a millimetre."""
    return tuple(f"{value:.2f}" for value in values)
