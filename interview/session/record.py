"""The session: one frozen record of what was said, tried, read and overruled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, Literal, get_args

from rules.facts.subject import Subject
from rules.units import System

SCHEMA = 1
"""The version of the session file that this program reads and writes."""

Voice = Literal["fitter", "customer", "trainer"]
"""Whom the words are for."""
VOICES: tuple[Voice, ...] = get_args(Voice)
"""Every voice there is."""
SYSTEMS: tuple[System, ...] = get_args(System)
"""Every way of displaying quantities."""
SECTIONS = ("answers", "owned", "trial_clubs", "shots", "readings", "overrides")
"""The parts of a session that the road reads, in the order of the file."""


@dataclass(frozen=True, slots=True)
class Record:
    """What the program keeps with a session, and nobody answers."""

    rules_digest: str = ""
    """Digest of the rule base that last ran; empty when none has."""
    catalogue_digest: str = ""
    """Digest of the catalogue it chose from; empty where that was not noted."""
    read: Mapping[str, str] = field(default_factory=dict)
    """Digest of each section that it read; one that was empty is not there."""
    decided: Mapping[str, str] = field(default_factory=dict)
    """What it decided: by decision the candidate, or the amount with its unit."""
    because: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    """By decision what each rule gave: points, or the amount's unit."""
    consent: bool = False
    """Whether the golfer lets his ticket be kept until `expires`."""
    expires: date | None = None
    """The day after which the session is forgotten."""
    skipped: tuple[str, ...] = ()
    """Questions passed over and still open, in the order they were passed."""


@dataclass(frozen=True, slots=True)
class Session:
    """One fitting. It never changes: the functions of `interview.session.changes` make another.

    `written` holds its parts as a person wrote them, units and all, so that what was said is kept as
    said; `subject` is the same read into SI.
    """

    id: str
    voice: Voice = "fitter"
    units: System = "imperial"
    created: datetime | None = None
    note: str = ""
    record: Record = Record()
    written: Mapping[str, Any] = field(default_factory=dict)
    subject: Subject = field(default_factory=Subject)

    @property
    def answered(self) -> tuple[str, ...]:
        """Return the questions that are answered or closed, in the order they first were."""
        return tuple(self.subject.answers)
