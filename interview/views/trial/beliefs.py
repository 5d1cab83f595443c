"""What the interview believed beside what the balls say, in words, each with its spread."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import opened

if TYPE_CHECKING:
    from interview.views.trial.said import Told
    from rules.evidence.counts import Count
    from rules.evidence.expected import Expected
    from rules.evidence.trial import Trial
    from rules.facts.weighed import Weighed

UNITS = {
    "driver_head_speed": "mph", "attack": "deg", "delivered_loft_change": "deg", "strike_mean_toe": "mm",
    "strike_mean_high": "mm", "strike_sd_toe": "mm", "strike_sd_high": "mm", "mishits_fairway": "%",
    "mishits_hybrid": "%",
}  # fmt: skip
"""The figures that balls may correct, with the unit that each is told in."""
_TELLING = 0.5
"""A golfer hears of what moved by this many of its spreads or more."""


def beliefs(trial: Trial, told: Told) -> None:
    """Write belief and balls side by side."""
    if not trial.beliefs:
        return
    told.page.heading(told.phrase("belief.heading"))
    told.page.say(told.phrase("belief.explain"), indent=2)
    for one in trial.clubs:
        for sentence in _expected(trial, one.club, told):
            told.page.point(sentence)
    for weighed in trial.beliefs:
        if not told.customer:
            told.page.point(opened(row(weighed, told)))
        elif _telling(weighed):
            told.page.point(plainly(weighed.fact, weighed.before.value, weighed.after.value, told))


def _telling(one: Weighed) -> bool:
    """Say whether a golfer would want to hear of it."""
    return abs(one.after.value - one.before.value) >= _TELLING * one.before.spread


def plainly(fact: str, before: float, after: float, told: Told) -> str:
    """Say which way a figure moved, in words a golfer uses."""
    return told.phrase(f"plain.{fact}_{'more' if after > before else 'less'}")


def row(one: Weighed, told: Told) -> str:
    """Return one figure: believed, seen, and what is now counted on."""
    symbol = UNITS[one.fact]
    values = {
        "figure": told.phrase(f"figure.{one.fact}"),
        "before": told.figure(one.fact, one.before.value, symbol),
        "before_spread": told.amount(one.before.spread, symbol),
        "after": told.figure(one.fact, one.after.value, symbol),
        "after_spread": told.amount(one.after.spread, symbol),
        "balls": one.balls,
    }
    if one.seen is None or one.weight is None:
        return told.phrase("belief.pulled", **values)
    return told.phrase(
        "belief.row", **values, seen=told.figure(one.fact, one.seen.value, symbol),
        seen_spread=told.amount(one.seen.spread, symbol), weight=told.share(one.weight),
    )  # fmt: skip


def _expected(trial: Trial, name: str, told: Told) -> list[str]:
    """Return what was expected of one club beside what it did."""
    hope = trial.expected.get(name)
    club = next(one for one in trial.clubs if one.club == name)
    if hope is None:
        return []
    found = [_expected_up(club.usable, hope, name, told)] if club.usable is not None else []
    if club.carry is not None:
        found.append(
            told.phrase(
                "belief.expected_carry", club=name, expected=told.far(hope.carry.value),
                spread=told.far(hope.carry.spread), seen=told.far(club.carry.all.value),
                between=told.between(club.carry.all),
            )
        )  # fmt: skip
    return found


def _expected_up(up: Count, hope: Expected, name: str, told: Told) -> str:
    """Say how many balls were expected to get up, and how many did."""
    share = hope.usable.value
    return told.phrase(
        "belief.expected_up",
        club=name,
        expected=f"{round(10 * share)}" if told.customer else f"{told.share(share)} %",
        up=up.number,
        of=up.of,
        spread=f"{told.share(hope.usable.spread)} %",
        low=told.share(up.low),
        high=told.share(up.high),
    )
