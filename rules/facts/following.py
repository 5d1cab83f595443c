"""Facts that follow from other facts, and that no flight reads: here a new one is called."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from rules.facts.known import Known, assumed
from rules.facts.shape import shape
from rules.facts.speed import driver_head
from rules.facts.wanted import wanted_facts
from rules.golf.speed import best_loft

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import OwnedClub
    from rules.golf.impact import Clubhead

Split = Mapping[str, tuple[Mapping[str, float], Known]]
"""Each question of shares by its id: every part's share, and how the whole stands."""


def following(
    base: RuleBase, known: Mapping[str, Known], split: Split, owned: Sequence[OwnedClub]
) -> dict[str, Known]:
    """Return the facts that follow from answers and from what balls have said of them, by id.

    Each waits on the open questions behind it, as a rule that reads it must.
    """
    return {
        **_share_facts("lies", *split["lies"]),
        **_share_facts("purpose", *split["purpose"]),
        **_lie_facts(*split["lies"]),
        "shape": shape(known["hand"], known["miss"], known["curve"]),
        **wanted_facts(base, known),
        "liked_swing_weight": _liked(owned),
    }


def _share_facts(id: str, parts: Mapping[str, float], whole: Known) -> dict[str, Known]:
    """Return each part of a question of shares as a fact of its own."""
    return {
        f"{id}.{part}": Known(value, whole.how, 0.0, whole.waits, whole.closed)
        for part, value in parts.items()
    }


def _lie_facts(parts: Mapping[str, float], whole: Known) -> dict[str, Known]:
    """Return the sums of lies that rules read."""
    sums = {
        "tight_share": parts["tight_fairway"] + parts["sand"],
        "rough_share": parts["rough"] + parts["heavy_rough"],
        "tee_share": parts["tee"],
        "turf_share": 1 - parts["tee"],
    }
    return {id: Known(min(1.0, max(0.0, value)), "derived", 0.0, whole.waits) for id, value in sums.items()}


def _liked(owned: Sequence[OwnedClub]) -> Known:
    """Return the mean swing weight of the clubs he owns and likes, points from D0; unknown without one."""
    liked = [club.swing_weight for club in owned if club.liked == "yes"]
    read = [points for points in liked if points is not None]
    return Known(sum(read) / len(read), "said", 1.0) if read else Known(None, "assumed", closed=True)


@lru_cache(maxsize=512)
def _best_loft(speed: float, head: Clubhead, air: float) -> float:
    """Remember the driver loft that carries farthest: it takes some thirty flights."""
    return best_loft(speed, air, head)


def driver_facts(base: RuleBase, known: Mapping[str, Known], air: float) -> dict[str, Known]:
    """Return the driver loft that the speed asks for, off a level blow, and how much the driver lacks."""
    speed, loft = known["driver_head_speed"], known["driver_loft"]
    low, high = base.facts["driver_loft_wanted"].range
    delivered = _best_loft(speed.number, driver_head(base), air)
    asked = min(assumed(base, "driver-loft-most"), delivered - assumed(base, "driver-delivered-loft"))
    best = min(high, max(low, asked))
    lacking = best - loft.number if loft.how != "assumed" else 0.0
    return {
        "driver_loft_wanted": Known(best, waits=speed.waits),
        "driver_loft_short": Known(lacking, waits=speed.waits | loft.waits),
    }
