"""What a head's face costs on this golfer's lies, and the head that his tightest lie asks for.

Ball speed alone, by impact: no flight. Other heads of the same place stand beside it, each in the same mass.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.facts.known import assumed
from rules.facts.lies import LIES, lies
from rules.golf.contact import height_up_face
from rules.golf.face_loss import Blow, LieLoss, loss, on_lie
from rules.golf.quadrature import Face, Lie
from rules.ladder.flown import clubhead, face
from rules.ladder.meeting import free_head
from rules.ladder.options import by_loft

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.golfer import Golfer
    from rules.facts.lies import NamedLie
    from rules.ladder.rung import Rung
    from rules.shelf import Shelf
    from rules.shelf.parts import Head


@dataclass(frozen=True, slots=True)
class LieCost:
    """One lie on the face."""

    name: str
    share: float
    """Of his shots; nought for a lie that he does not meet."""
    tightest: bool
    """Whether it is the tightest lie that matters to him."""
    on: LieLoss


@dataclass(frozen=True, slots=True)
class HeadCost:
    """One head of the same place on his lies."""

    head: Head
    loss: float
    """Share of ball speed lost over all his lies."""
    tight: LieLoss
    """On the tightest lie that matters."""


@dataclass(frozen=True, slots=True)
class FaceTable:
    """A face over the golfer's lies (SI)."""

    lies: tuple[LieCost, ...]
    """Every lie there is, tightest first, those that he does not meet too."""
    loss: float
    """Share of ball speed lost over the lies that he meets."""
    asked: float
    """Where on the face the tightest lie that matters asks the centre of mass to project, m up the face."""
    centred: float
    """Height of the face that is met at its centre there, m: a cross-check, for fairway woods."""
    known: bool
    """Whether the head was measured; else a usual one stands in."""
    heads: tuple[HeadCost, ...]
    """Heads of this place in stock, the one nearest to what the tightest lie asks for first."""

    @property
    def tightest(self) -> LieCost:
        """The tightest lie that matters."""
        return next(one for one in self.lies if one.tightest)

    def lie(self, name: str) -> LieCost:
        """Return one lie."""
        return next(one for one in self.lies if one.name == name)


def face_table(base: RuleBase, shelf: Shelf, golfer: Golfer, rung: Rung) -> FaceTable:
    """Return what a rung's face costs this golfer, lie by lie, and the heads that could take its place."""
    attack, pattern = golfer.number("attack"), golfer.pattern
    shape = face(rung.kind, rung.spec)
    blow = Blow(_delivered(golfer, shape.loft), attack, clubhead(base, rung.kind, rung.spec))
    tight = golfer.lies.tightest
    met = height_up_face(shape.loft, tight.middle, attack)
    return FaceTable(
        lies=tuple(_cost(golfer, lie, shape, blow) for lie in _every(base, golfer)),
        loss=loss(pattern, golfer.lies.met, shape, blow),
        asked=met + pattern.mean_high,
        centred=2.0 * met,
        known=rung.spec.head is not None,
        heads=_heads(base, shelf, golfer, rung),
    )


def _delivered(golfer: Golfer, loft: float) -> float:
    """Return the loft that this golfer delivers with a head, rad."""
    return loft + golfer.number("delivered_loft_change")


def _every(base: RuleBase, golfer: Golfer) -> tuple[NamedLie, ...]:
    """Return every lie there is with its heights on this golfer's turf, tightest first."""
    return lies(base, dict.fromkeys(LIES, 1.0), golfer.word("turf")).named


def _cost(golfer: Golfer, lie: NamedLie, shape: Face, blow: Blow) -> LieCost:
    """Return one lie on a face, with his share of it."""
    share = next((one.share for one in golfer.lies.named if one.name == lie.name), 0.0)
    on = on_lie(golfer.pattern, Lie(1.0, lie.low, lie.high), shape, blow)
    return LieCost(lie.name, share, lie.name == golfer.lies.tightest.name, on)


def _heads(base: RuleBase, shelf: Shelf, golfer: Golfer, rung: Rung) -> tuple[HeadCost, ...]:
    """Return the heads in stock of a rung's place, nearest to what his tightest lie asks for first."""
    head = rung.spec.head
    if head is None or rung.owned is not None:
        return ()
    group = next(group for group in by_loft(shelf.heads_for(head.hand)).values() if head in group)
    found = [_head(base, golfer, one) for one in group]
    return tuple(sorted(found, key=lambda one: abs(one.tight.above)))


def _head(base: RuleBase, golfer: Golfer, head: Head) -> HeadCost:
    """Return one head on his lies."""
    shape = Face(head.loft, head.face_height, head.cg_up_face)
    body = free_head(head, assumed(base, "spin-grip"))
    blow = Blow(_delivered(golfer, head.loft), golfer.number("attack"), body)
    tight = golfer.lies.tightest
    on = on_lie(golfer.pattern, Lie(1.0, tight.low, tight.high), shape, blow)
    return HeadCost(head, loss(golfer.pattern, golfer.lies.met, shape, blow), on)
