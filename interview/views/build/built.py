"""What was read of a finished club: against its plan, against the demo, and back up the road."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.problems import Problem
from rules.workbench.as_built import AsBuilt, as_built
from rules.workbench.certified import Certificate, certify, demo_for
from rules.workbench.delivered import as_flown, delivered
from rules.workbench.weighed import Corrected, as_weighed, part_checks, weighed

if TYPE_CHECKING:
    from rules.facts.subject import OwnedClub, Reading
    from rules.fitting import Outcome
    from rules.ladder.rung import Flown
    from rules.shelf import Shelf
    from rules.workbench import Club
    from rules.workbench.checks import Check


@dataclass(frozen=True, slots=True)
class BuiltView:
    """One finished club as it was read; everything is None while nothing was."""

    reading: Reading | None = None
    parts: tuple[Check, ...] = ()
    """Its parts as weighed before assembly against the catalogue, and its screws; empty while unread."""
    put_right: Corrected | None = None
    """The plan put right for parts as weighed; None where none was."""
    against: AsBuilt | None = None
    """Its figures against the plan, and what puts it right."""
    problem: str = ""
    """Why its readings cannot be used, in one sentence; empty when they can."""
    owned: OwnedClub | None = None
    """The club as one that he owns, which is how it goes back up the road."""
    flown: Flown | None = None
    """How it flies as measured."""
    certificate: Certificate | None = None
    """Against the demo that worked; None where no demo of the kind was hit."""


def put_right(outcome: Outcome) -> tuple[Corrected | None, ...]:
    """Return each club's plan as put right for its parts as weighed; None for one that stays as planned.

    Masses that cannot be are left aside here; `built_view` says so.
    """
    usable = {
        club.role: reading
        for club in outcome.clubs
        if (reading := outcome.subject.readings.get(club.role)) is not None and _usable(club, reading)
    }
    return as_weighed(outcome.clubs, usable, outcome.house.shelf)


def _usable(club: Club, reading: Reading) -> bool:
    try:
        part_checks(club, reading)
    except Problem:
        return False
    return True


def built_view(outcome: Outcome, planned: Club, made: Corrected | None, left: Shelf) -> BuiltView:
    """Return what was read of a club; `left` is the tray once both clubs have taken their pieces.

    `made` is its plan put right for parts as weighed. Readings that cannot be are told in one sentence and
    change nothing.
    """
    subject, house = outcome.subject, outcome.house
    club = planned if made is None else made.club
    reading = subject.readings.get(club.role)
    demo = demo_for(club, subject.trial_clubs, subject.shots)
    try:
        paper = certify(demo, club, reading, house.shelf.shop) if demo is not None else None
        if reading is None:
            return BuiltView(certificate=paper)
        parts = _parts(planned, reading)
        if not reading.of_finished:
            return BuiltView(reading=reading, parts=parts, put_right=made, certificate=paper)
        against = as_built(club, reading, left) if club.build is not None else None
        return BuiltView(
            reading=reading,
            parts=parts,
            put_right=made,
            against=against,
            owned=delivered(club, reading),
            flown=as_flown(house.base, outcome.golfer, club, reading),
            certificate=paper,
        )
    except Problem as problem:
        return BuiltView(reading=reading, problem=str(problem))


def _parts(planned: Club, reading: Reading) -> tuple[Check, ...]:
    """Return the parts and screws as read; empty for one of his own clubs of which none was weighed."""
    if planned.build is None and weighed(reading).nothing:
        return ()
    return tuple(check for check in part_checks(planned, reading) if _was_read(check))


def _was_read(check: Check) -> bool:
    """Say whether a figure was read; screws were as soon as they were set."""
    return check.read is not None or check.what == "torque"
