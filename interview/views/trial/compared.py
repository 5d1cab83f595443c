"""Clubs compared, in words: what was seen, whether it is more than luck, and how many balls would tell."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import millimetres
from rules.evidence.needed import MOST

if TYPE_CHECKING:
    from interview.views.trial.said import Told
    from rules.evidence.comparing import Comparison, Measure
    from rules.evidence.permutation import Difference
    from rules.evidence.trial import Trial

_WAYS = {"carry": ("farther", "shorter"), "side": ("off", "nearer"), "scatter": ("wider", "tighter")}
"""Words for more and for less of a measure."""
_NOTHING = 0.0005
"""m: a difference below this is none."""


def compared(trial: Trial, told: Told) -> None:
    """Write every comparison, club by club, in its declared order."""
    if len(trial.clubs) < 2:
        return
    told.page.heading(told.phrase("compare.heading", against=trial.clubs[0].club))
    asked = sum(one.difference is not None for one in trial.comparisons)
    if asked > 1:
        level = told.share(trial.rules.level)
        told.page.say(told.phrase("compare.several", count=asked, level=level), indent=2)
    for club in trial.clubs[1:]:
        told.page.say(club.club, indent=2)
        for one in trial.comparisons:
            if one.club == club.club and not (told.customer and one.verdict in ("not_noted", "not_alike")):
                told.page.point(sentence(trial, one, told))


def sentence(trial: Trial, one: Comparison, told: Told) -> str:
    """Return one comparison in words."""
    if one.verdict in ("not_noted", "not_alike"):
        return told.phrase(f"verdict.{one.verdict}", measure=told.phrase(f"measure.{one.measure}"))
    if one.difference is None:
        measure = told.phrase(f"measure.{one.measure}")
        return f"{measure}: {told.phrase('verdict.open_few', more=one.more)}"
    return f"{_seen(trial, one, one.difference, told)} {_verdict(one, one.difference, told)}"


def _seen(trial: Trial, one: Comparison, found: Difference, told: Told) -> str:
    """Say what was seen."""
    if one.measure == "usable":
        return _counts(trial, one, told)
    between = _between(one.measure, found, told)
    if abs(found.value) < _NOTHING:
        return told.phrase(f"compare.equal_{one.measure}", between=between)
    way = _WAYS[one.measure][0 if found.value > 0 else 1]
    return told.phrase(
        f"compare.{one.measure}", size=_size(one.measure, abs(found.value), told),
        way=told.phrase(f"compare.{way}"), between=between,
    )  # fmt: skip


def _counts(trial: Trial, one: Comparison, told: Told) -> str:
    """Say how many of how many balls got up with both clubs, off the ground that both were hit from."""
    mine, theirs = (next(c for c in trial.clubs if c.club == name) for name in (one.club, one.against))
    values = {"mine": mine, "theirs": theirs}
    said = {key: 0 if club.usable is None else club.usable.number for key, club in values.items()}
    return told.phrase("compare.usable", **said, of=one.balls[0], of_theirs=one.balls[1])


def _size(measure: Measure, value: float, told: Told) -> str:
    """Write the size of a difference."""
    if measure == "scatter":
        return millimetres(round(value, 4))
    if measure == "usable":
        return told.phrase("aimed.usable", size=max(1, round(6 * value)))
    return told.far(value)


def _between(measure: Measure, found: Difference, told: Told) -> str:
    """Write what the difference may be, the larger side last; nothing for the golfer."""
    if told.customer or not (math.isfinite(found.low) and math.isfinite(found.high)):
        return ""
    ends = (found.low, found.high) if found.value >= 0 else (-found.high, -found.low)
    low, high = (millimetres(e) if measure == "scatter" else told.far(e) for e in ends)
    return told.phrase("between", low=low, high=high)


def _verdict(one: Comparison, found: Difference, told: Told) -> str:
    """Say whether that is more than luck."""
    values = {
        "deals": found.deals if found.deals < _MANY else "all",
        "p": _percent(found.p),
        "corrected": _percent(one.corrected or 0.0),
        "matters": _size(one.measure, one.matters or 0.0, told),
        "aimed": _size(one.measure, one.aimed_at or 0.0, told),
        "more": one.more,
        "most": MOST,
    }
    if one.verdict == "differs":
        return told.phrase(f"verdict.{'better' if one.better else 'worse'}", **values)
    if one.verdict == "same":
        return told.phrase("verdict.same", **values)
    far = one.more is None or (told.customer and one.more > _ONE_DAY)
    return told.phrase("verdict.open_never" if far else "verdict.open", **values)


def _percent(share: float) -> str:
    """Write a share as per cents: two figures where it is small, whole ones where it is not."""
    return f"{100 * share:.2g} %" if share < _SMALL else f"{round(100 * share)} %"


_SMALL = 0.095
_ONE_DAY = 24
"""Balls more with each club than a golfer would want to hear of."""
_MANY = 10**7
"""Ways of dealing balls out beyond which their number says nothing to anybody."""
