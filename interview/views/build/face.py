"""The face of a club to scale: where its ball is met on his lies, and where he has struck it (SI)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.golf.contact import height_up_face
from rules.ladder.flown import face

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.workbench import Club


@dataclass(frozen=True, slots=True)
class MetView:
    """Where the ball is met on one of his lies."""

    lie: str
    share: float
    """Of his shots."""
    height: float
    """Up the face from the leading edge, m."""
    tightest: bool
    """Whether it is the tightest lie that matters to him."""


@dataclass(frozen=True, slots=True)
class FaceView:
    """One face. Heights are up the face from the leading edge; toe is positive, m."""

    role: str
    height: float
    """To the top edge."""
    cg: float
    """Where the head's centre of mass projects."""
    known: bool
    """Whether the head was measured; else a usual one stands in."""
    met: tuple[MetView, ...]
    marks: tuple[tuple[float, float], ...]
    """His own strikes off turf: toeward from face centre, and up the face."""
    spread_toe: float
    """One spread of his strikes, heel to toe."""
    spread_high: float
    mean_toe: float
    mean_high: float
    """Of his strikes, above where geometry puts them."""
    hand: str


def face_view(outcome: Outcome, club: Club) -> FaceView:
    """Return the face of a club with where this golfer meets it."""
    golfer, rung = outcome.golfer, club.rung
    shape = face(rung.kind, rung.spec)
    attack, lies = golfer.number("attack"), golfer.lies
    met = tuple(
        MetView(
            lie.name, lie.share, height_up_face(shape.loft, lie.middle, attack), lie is lies.tightest
        )
        for lie in lies.named
    )  # fmt: skip
    marks = tuple(
        (shot.toe, shape.height / 2 + shot.high)
        for shot in outcome.subject.shots
        if shot.toe is not None and shot.high is not None and shot.surface != "tee"
    )
    pattern = golfer.pattern
    return FaceView(
        club.role, shape.height, shape.cg_up_face, rung.spec.head is not None, met, marks,
        pattern.sd_toe, pattern.sd_high, pattern.mean_toe, pattern.mean_high, golfer.word("hand"),
    )  # fmt: skip
