"""The balls of a trial, sorted by the club that hit them, with what is known of that club."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from rules.facts.known import assumed
from rules.facts.usual import USUAL_FACE, USUAL_LOFT, usual_head
from rules.golf.impact import Clubhead
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Kind, OwnedClub, Shot, Subject, TrialClub
    from rules.shelf import Shelf
    from rules.shelf.parts import Head

_LOFT_SPREAD = {"measured": parse("0.25 deg", "rad"), "stamped": parse("0.7 deg", "rad")}
"""How far the loft of a club may be from what is told of it: angle gauge 0.25 deg, heads as delivered 1 deg
and more (common practice; as standard deviations an assumption)."""
_UNSAID_SPREAD = parse("2 deg", "rad")
"""How far it may be where nobody told it (assumption)."""


@dataclass(frozen=True, slots=True)
class Tried:
    """One club and the balls hit with it."""

    name: str
    kind: Kind
    loft: float
    """Static, rad; what such clubs usually have where nobody said."""
    loft_spread: float
    head: Clubhead
    """The shop's measures, or those of a usual head."""
    face: float
    """Face height, m."""
    face_known: bool
    """Whether it is the shop's measure; else a usual one stands in."""
    shots: tuple[Shot, ...]
    """In the order in which they were hit."""
    owned: bool = False
    loft_told: bool = True
    """Whether anybody told its loft, or its head's is known."""
    length: float | None = None
    """Playing length, m; None where nobody said."""
    head_id: str | None = None
    """The shop's id of its head, where it is one of them."""

    @property
    def off_ground(self) -> tuple[Shot, ...]:
        """Return the balls that were not teed; one of which nobody said where it lay is taken as off turf."""
        return tuple(shot for shot in self.shots if shot.surface != "tee")

    @property
    def clean(self) -> tuple[Shot, ...]:
        """Return the balls not teed and not noted as mishit: those whose launch tells of the delivery."""
        return tuple(shot for shot in self.off_ground if shot.outcome in (None, "up"))


def tried_clubs(base: RuleBase, subject: Subject, shelf: Shelf | None = None) -> tuple[Tried, ...]:
    """Return every club that balls were hit with, by name, so that the order of the file changes nothing."""
    hit: dict[str, list[Shot]] = {}
    for shot in subject.shots:
        hit.setdefault(shot.club, []).append(shot)
    heads = {head.id: head for head in shelf.heads} if shelf is not None else {}
    clubs: Iterable[OwnedClub | TrialClub] = (*subject.owned, *subject.trial_clubs)
    own = {club.name for club in subject.owned}
    found = []
    for club in clubs:
        if club.name in hit:
            head = heads.get(club.head) if club.head is not None else None
            one = _tried(base, club, head, tuple(hit[club.name]))
            found.append(replace(one, owned=club.name in own))
    return tuple(sorted(found, key=lambda one: one.name))


def _tried(base: RuleBase, club: OwnedClub | TrialClub, head: Head | None, shots: tuple[Shot, ...]) -> Tried:
    loft, spread = _loft(club, head)
    return Tried(
        name=club.name,
        kind=club.kind,
        loft=loft,
        loft_spread=spread,
        head=usual_head(base, club.kind) if head is None else _body(base, head),
        face=USUAL_FACE[club.kind] if head is None else head.face_height,
        face_known=head is not None,
        shots=shots,
        loft_told=club.loft is not None or head is not None,
        length=club.length,
        head_id=None if head is None else head.id,
    )


def _body(base: RuleBase, head: Head) -> Clubhead:
    """Return one of the shop's heads as a free body."""
    return Clubhead(
        head.mass, head.restitution, assumed(base, "spin-grip"), head.cg_depth, head.moi_vertical,
        head.moi_heel_toe,
    )  # fmt: skip


def _loft(club: OwnedClub | TrialClub, head: Head | None) -> tuple[float, float]:
    """Return a club's loft and how far it may be out: as told, else its head's, else a usual one."""
    told = club.loft
    if told is not None and not isinstance(told, float):
        how = "measured" if told.how == "measured" else "stamped"
        return cast(float, told.value), _LOFT_SPREAD[how]
    if told is not None:
        return told, _LOFT_SPREAD["stamped"]
    if head is not None:
        return head.loft, _LOFT_SPREAD["stamped"]
    return USUAL_LOFT[club.kind], _UNSAID_SPREAD
