"""What was read of a finished club: against its plan, against the demo, and back up the road."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.problems import Problem
from rules.workbench.as_built import AsBuilt, as_built
from rules.workbench.certified import Certificate, certify, demo_for
from rules.workbench.delivered import as_flown, delivered

if TYPE_CHECKING:
    from rules.facts.subject import OwnedClub, Reading
    from rules.fitting import Outcome
    from rules.ladder.rung import Flown
    from rules.shelf import Shelf
    from rules.workbench import Club


@dataclass(frozen=True, slots=True)
class BuiltView:
    """One finished club as it was read; everything is None while nothing was."""

    reading: Reading | None = None
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


def built_view(outcome: Outcome, club: Club, left: Shelf) -> BuiltView:
    """Return what was read of a club; `left` is the tray once both clubs have taken their pieces.

    Readings that cannot be are told in one sentence and change nothing.
    """
    subject, house = outcome.subject, outcome.house
    reading = subject.readings.get(club.role)
    demo = demo_for(club, subject.trial_clubs, subject.shots)
    try:
        paper = certify(demo, club, reading, house.shelf.shop) if demo is not None else None
        if reading is None:
            return BuiltView(certificate=paper)
        against = as_built(club, reading, left) if club.build is not None else None
        return BuiltView(
            reading=reading,
            against=against,
            owned=delivered(club, reading),
            flown=as_flown(house.base, outcome.golfer, club, reading),
            certificate=paper,
        )
    except Problem as problem:
        return BuiltView(reading=reading, problem=str(problem))
