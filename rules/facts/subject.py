"""The golfer at hand: answers, clubs owned and tried, shots, readings and overrides, all in SI."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from rules.facts.answers import Answer

Kind = Literal["fairway", "hybrid"]
"""Which of the two types of club hit off turf below the driver."""


@dataclass(frozen=True, slots=True)
class OwnedClub:
    """A club the golfer already has; whatever was not said is None."""

    name: str
    kind: Kind
    loft: Answer | None = None
    """Radians; `how` tells stamped (said) from measured."""
    length: float | None = None
    """Playing length, m."""
    swing_weight: float | None = None
    """Points from D0."""
    total: float | None = None
    """Total mass, kg."""
    carry: Answer | None = None
    """Carry, m."""
    liked: Literal["yes", "no", "so_so"] | None = None
    can_add: float | None = None
    """Mass that its head can still take, kg."""
    head: str | None = None
    """Id of the shop's head that it is, if it is one of them."""


@dataclass(frozen=True, slots=True)
class TrialClub:
    """A club hit in a trial and not owned, recorded so that it can be certified against later."""

    name: str
    kind: Kind
    loft: float | None = None
    length: float | None = None
    swing_weight: float | None = None
    total: float | None = None
    balance_point: float | None = None
    face_angle: float | None = None
    shaft: str | None = None
    head: str | None = None


@dataclass(frozen=True, slots=True)
class Shot:
    """One ball of a trial."""

    club: str
    toe: float | None = None
    """Strike toward the toe from face centre, m."""
    high: float | None = None
    """Strike up the face from face centre, m."""
    outcome: Literal["topped", "thin", "fat", "up"] | None = None
    side: float | None = None
    """Right of target, m."""
    carry: float | None = None
    head_speed: float | None = None
    ball_speed: float | None = None
    launch: float | None = None
    spin: float | None = None
    surface: Literal["turf", "mat", "tee"] | None = None
    indoors: bool = False


@dataclass(frozen=True, slots=True)
class Reading:
    """What scale and gauge say of a club: of its parts before assembly, then of the whole.

    Whatever was not read is None.
    """

    total: float | None = None
    balance_point: float | None = None
    length: float | None = None
    loft: float | None = None
    face: float | None = None
    """Face angle, closed positive, rad."""
    lie: float | None = None
    swing_weight: float | None = None
    head: float | None = None
    """Of the bare head before assembly, its ports empty, kg."""
    raw_shaft: float | None = None
    """Of the shaft before it is cut, kg."""
    grip: float | None = None
    """Of the grip, kg."""
    torque: float | None = None
    """To which the screws of its ports were set, N*m."""
    torque_again: float | None = None
    """The same, after its first range session, N*m."""

    @property
    def of_finished(self) -> bool:
        """Whether anything was read of the finished club, not of its parts and screws alone."""
        found = (
            self.total, self.balance_point, self.length, self.loft, self.face, self.lie, self.swing_weight
        )  # fmt: skip
        return any(one is not None for one in found)


@dataclass(frozen=True, slots=True)
class Override:
    """A decision the fitter took against the engine, and why."""

    value: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Subject:
    """Everything the road needs to know of one golfer."""

    answers: Mapping[str, Answer] = field(default_factory=dict)
    owned: tuple[OwnedClub, ...] = ()
    trial_clubs: tuple[TrialClub, ...] = ()
    shots: tuple[Shot, ...] = ()
    readings: Mapping[str, Reading] = field(default_factory=dict)
    overrides: Mapping[str, Override] = field(default_factory=dict)
