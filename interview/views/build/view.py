"""The whole build of an outcome: both clubs, how they match, rules, stock and cure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from interview.views.build.built import built_view, put_right
from interview.views.build.club import BuildClub, build_club
from interview.views.club import club_views
from rules.bench.cure import hold_time
from rules.bench.problems import BenchProblem
from rules.units import UNITS
from rules.workbench.conforming import RuleLine, conforming
from rules.workbench.matched import Matched, match_both, match_liked
from rules.workbench.shared import bill, lacking, left_after

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.shelf import Calibration, Shop
    from rules.shelf.bookings import Bill, Key

_F = UNITS["degF"]
CURE_AT = tuple(_F.to_si(t) for t in (72, 68, 64, 60, 55))
"""Bench temperatures for which a sheet prints the hold, K."""


@dataclass(frozen=True, slots=True)
class Hold:
    """How long a glued club is kept from play at one bench temperature."""

    temperature: float
    """K."""
    time: float
    """s."""


@dataclass(frozen=True, slots=True)
class LadderAsBuilt:
    """Carries of clean strikes with the clubs as they were measured, m."""

    driver: float
    longer: float
    shorter: float
    iron: float | None


@dataclass(frozen=True, slots=True)
class BuildView:
    """Everything that the bench needs of an outcome."""

    clubs: tuple[BuildClub, ...]
    """The longer and the shorter; empty where no pair is possible."""
    matched: tuple[Matched, ...]
    """The longer to the shorter, by swing weight and by inertia; then each to a club he likes."""
    rules: tuple[RuleLine, ...]
    bills: tuple[Bill | None, ...]
    """What each club takes from the shelf; None for his own."""
    lacking: tuple[tuple[Key, int, int], ...]
    """Parts wanted of which there are not enough: which, how many, how many there are."""
    holds: tuple[Hold, ...]
    """Cure by bench temperature."""
    hold_here: Hold | None
    """At this shop's own glue bench; None where it is too cold for glue."""
    shop: Shop
    ladder: LadderAsBuilt | None
    """None while no finished club was read."""
    work: bool
    """Whether anything is built or altered at all."""

    @property
    def calibration(self) -> Calibration:
        """What the shop's own clubs taught it."""
        return self.shop.calibration


def build_view(outcome: Outcome) -> BuildView:
    """Return the build of an outcome; without a pair it has no clubs.

    Where parts were weighed before assembly the plan is put right for them, sums, pieces and all.
    """
    planned, made_right = outcome.clubs, put_right(outcome)
    outcome = replace(
        outcome,
        clubs=tuple(made.club if made else club for club, made in zip(planned, made_right, strict=True)),
    )
    clubs, shelf = outcome.clubs, outcome.house.shelf
    left, shop = left_after(shelf, clubs), shelf.shop
    made = tuple(
        build_club(club, view, built_view(outcome, plan, right, left), shop.calibration.ruler_offset)
        for club, plan, right, view in zip(clubs, planned, made_right, club_views(outcome), strict=True)
    )
    return BuildView(
        clubs=made,
        matched=(*match_both(*clubs), *match_liked(clubs, outcome.subject.owned)) if clubs else (),
        rules=conforming(clubs, outcome.golfer) if clubs else (),
        bills=tuple(map(bill, clubs)),
        lacking=lacking(shelf, clubs),
        holds=tuple(Hold(at, hold_time(at)) for at in CURE_AT),
        hold_here=_hold(shop.glue_bench_temperature),
        shop=shop,
        ladder=_ladder(outcome, made),
        work=any(one.parts is not None or one.alteration is not None for one in made),
    )


def _hold(temperature: float) -> Hold | None:
    """Return the cure at a bench temperature; None where glue is not to be relied on."""
    try:
        return Hold(temperature, hold_time(temperature))
    except BenchProblem:
        return None


def _ladder(outcome: Outcome, clubs: tuple[BuildClub, ...]) -> LadderAsBuilt | None:
    """Return the ladder with what was measured in it; the plan stands for a club that was not read."""
    if not any(one.built.flown for one in clubs):
        return None
    carries = [(one.built.flown or one.view.flown).centred for one in clubs]
    iron = outcome.golfer.iron
    return LadderAsBuilt(
        outcome.golfer.driver.carry, carries[0], carries[1], None if iron is None else iron.number
    )
