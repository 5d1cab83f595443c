"""The demo that won the trial, recorded in full, and the delivered club certified against it line by line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from rules.bench.build import LENGTH_TOLERANCE
from rules.units import parse
from rules.workbench.checks import FACE_ALLOWED, GAUGE, measured

if TYPE_CHECKING:
    from rules.facts.subject import Reading, Shot, TrialClub
    from rules.shelf import Shop
    from rules.workbench.club import Club

_NEAR = parse("1.5 deg", "rad")
"""A demo farther than this from a club's loft was a demo for another club (house value)."""
_TOTAL_ALLOWED = parse("3 g", "kg")
"""House value: two clubs of one build differ by what heads differ by as delivered."""
_BALANCE_ALLOWED = parse("0.25 in", "m")
"""House value: about a point at the usual total."""

Verdict = Literal["same", "differs", "not recorded", "not read"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the certificate: the demo beside the delivered club (SI, points, or words)."""

    what: str
    demo: float | str | None
    built: float | str | None
    allowed: float
    symbol: str
    """Unit of the figures; empty for words."""

    @property
    def verdict(self) -> Verdict:
        """Whether the two agree; a line that was never recorded of the demo certifies nothing."""
        if self.demo is None:
            return "not recorded"
        if self.built is None:
            return "not read"
        if isinstance(self.demo, str) or isinstance(self.built, str):
            return "same" if self.demo == self.built else "differs"
        return "same" if abs(self.built - self.demo) <= self.allowed + 1e-9 else "differs"


@dataclass(frozen=True, slots=True)
class Certificate:
    """A delivered club against the demo that worked."""

    demo: str
    """Name of the demo."""
    lines: tuple[Line, ...]

    @property
    def same(self) -> bool:
        """Whether every line was recorded, read, and agrees: only then is it the club that worked."""
        return all(line.verdict == "same" for line in self.lines)


def demo_for(club: Club, demos: Sequence[TrialClub], shots: Sequence[Shot] = ()) -> TrialClub | None:
    """Return the demo that a club was built after: the one that most balls got up with, of its kind.

    A demo with the same head goes first, then one within a degree and a half of its loft; None when there
    is no such demo.
    """
    alike = [demo for demo in demos if demo.kind == club.rung.kind and _close(club, demo)]
    up = {demo.name: sum(s.club == demo.name and s.outcome == "up" for s in shots) for demo in alike}
    return max(alike, key=lambda demo: (_same_head(club, demo), up[demo.name]), default=None)


def _same_head(club: Club, demo: TrialClub) -> bool:
    head = club.rung.spec.head
    return head is not None and demo.head == head.id


def _close(club: Club, demo: TrialClub) -> bool:
    if _same_head(club, demo):
        return True
    return demo.loft is not None and abs(demo.loft - club.rung.spec.loft) <= _NEAR + 1e-9


def certify(demo: TrialClub, club: Club, reading: Reading | None, shop: Shop) -> Certificate:
    """Hold a delivered club against the demo; figures are those read of it, never those planned.

    Head and shaft are known from the plan. Raises ReadingsDisagree.
    """
    spec = club.rung.spec
    read = measured(club, club.build, reading) if club.build is not None and reading is not None else None
    total, bp, length, loft, face = (
        getattr(reading, name, None) for name in ("total", "balance_point", "length", "loft", "face")
    )
    return Certificate(
        demo.name,
        (
            Line("head", demo.head, spec.head.id if spec.head else None, 0.0, ""),
            Line("shaft", demo.shaft, spec.shaft.id if spec.shaft else None, 0.0, ""),
            Line("loft", demo.loft, loft, 2 * GAUGE, "deg"),
            Line("face", demo.face_angle, face, FACE_ALLOWED, "deg"),
            Line("length", demo.length, length, LENGTH_TOLERANCE, "in"),
            Line(
                "swing_weight", demo.swing_weight, read.points if read else None,
                shop.swing_weight_tolerance, "points",
            ),
            Line("total", demo.total, total, _TOTAL_ALLOWED, "g"),
            Line("balance_point", demo.balance_point, bp, _BALANCE_ALLOWED, "in"),
        ),
    )  # fmt: skip
