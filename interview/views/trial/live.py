"""What one ball changes, told at once: the tally, what is now believed, and whether the pick moved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome_text.page import Page
from interview.views.trial.beliefs import UNITS, plainly
from interview.views.trial.clubs import kinds
from interview.views.trial.pick import verdict
from interview.views.trial.said import Told
from rules.evidence.change import change, label
from rules.units import parse

if TYPE_CHECKING:
    from interview.session import Voice
    from rules.evidence.protocol import Protocol
    from rules.fitting import Outcome
    from rules.units import System

FIGURES = ("delivered_loft_change", "driver_head_speed", "strike_sd_toe", "strike_mean_high")
"""What is told after a ball, in this order, where it moved enough to be read."""
_PLAIN = {"delivered_loft_change": parse("0.5 deg", "rad"), "strike_sd_toe": parse("1 mm", "m")}
"""What a golfer is told of after a ball, where it moved by this much (SI) or more."""


def live_lines(
    before: Outcome, after: Outcome, protocol: Protocol, voice: Voice = "fitter", units: System = "imperial"
) -> tuple[str, ...]:
    """Return what the last ball of a protocol changed, a sentence a line; empty before the first ball.

    `before` and `after` are the road without that ball and with it.
    """
    if not protocol.balls:
        return ()
    told = Told.on(Page(80), voice, units)
    club = protocol.balls[-1][0]
    return (*_tally(protocol, club, told), *_figures(before, after, told), pick_line(before, after, told))


def moved_lines(
    before: Outcome, after: Outcome, voice: Voice = "fitter", units: System = "imperial"
) -> tuple[str, ...]:
    """Return what a ball changed without the tally of its club: the pick first, then what is believed."""
    told = Told.on(Page(80), voice, units)
    return (pick_line(before, after, told), *_figures(before, after, told))


def _tally(protocol: Protocol, club: str, told: Told) -> tuple[str, ...]:
    """Say how a club's balls stand, and whether four of six is decided."""
    seen = dict(protocol.tally(club))
    failed = {name: count for name, count in seen.items() if name != "up"}
    others = kinds(failed, told)
    line = told.phrase(
        "live.tally", club=club, up=seen["up"], of=sum(seen.values()), kinds=f" ({others})" if others else ""
    )
    passed = protocol.passed(club)
    if passed is None:
        return (line,)
    if protocol.surface != "turf":
        return line, told.phrase("live.not_turf")
    return line, told.phrase("live.passed" if passed else "live.failed")


def _figures(before: Outcome, after: Outcome, told: Told) -> tuple[str, ...]:
    """Say which beliefs moved, as far as it can be read."""
    lines = []
    for fact in _PLAIN if told.customer else FIGURES:
        old, new = before.golfer.number(fact), after.golfer.number(fact)
        shown = [told.figure(fact, value, UNITS[fact]) for value in (old, new)]
        if told.customer and abs(new - old) >= _PLAIN[fact]:
            lines.append(plainly(fact, old, new, told))
        elif not told.customer and shown[0] != shown[1]:
            figure = told.phrase(f"figure.{fact}")
            lines.append(told.phrase("live.moved", figure=figure, before=shown[0], after=shown[1]))
    return tuple(lines)


def pick_line(before: Outcome, after: Outcome, told: Told) -> str:
    """Say whether the pick moved with the last ball."""
    found = change(before, after)
    old, new = label(before), label(after)
    if old is None or new is None:
        return verdict(found, told)
    return told.phrase("live.changed" if found.pick_changed else "live.stays", before=old, after=new)
