"""A trial in the bay: whose ball is next, how each club's balls stand, and what the last one changed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from interview.views.bay.drawn import face_view
from interview.views.pictures.face import Mark
from interview.views.trial.live import live_lines

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.views.pictures.face import FaceView
    from interview.wording.words import Words
    from rules.evidence.protocol import Protocol
    from rules.fitting import Outcome


@dataclass(frozen=True, slots=True)
class ClubTally:
    """How one club's balls stand."""

    club: str
    up: int
    of: int
    others: str
    """Topped, thin and fat, such as `thin 2, fat 1`; empty without any."""
    passed: bool | None
    """Whether four of six got up; None while that is open."""
    next: bool
    """Whether it is hit next."""


@dataclass(frozen=True, slots=True)
class BallsView:
    """The trial at one moment."""

    turn: str
    tallies: tuple[ClubTally, ...]
    ground: str
    told: tuple[str, ...]
    """What the last ball changed, a sentence a line."""
    face: FaceView | None
    """Where balls were met, and where the next one is marked; None where there is no pair."""


def balls_view(
    wording: Words, protocol: Protocol, chosen: str | None, aim: tuple[float, float] | None,
    before: Outcome | None, state: State,
) -> BallsView:  # fmt: skip
    """Return the view of a trial; `aim` is the mark of the next ball, toe and up from the middle, m."""
    turn = protocol.next
    club = chosen or (turn.club if turn else "")
    units = state.session.units
    told = () if before is None else live_lines(before, state.outcome, protocol, "fitter", units)
    indoors = " indoors" if protocol.indoors else ""
    return BallsView(
        turn=_turn(wording, protocol, chosen),
        tallies=tuple(_tally(protocol, name, name == club) for name in protocol.clubs),
        ground=f"off {'turf' if protocol.surface == 'turf' else f'a {protocol.surface}'}{indoors}",
        told=told,
        face=_face(state, club, aim),
    )


def _turn(wording: Words, protocol: Protocol, chosen: str | None) -> str:
    """Say whose ball is next."""
    turn = protocol.next
    if chosen is not None:
        return wording.say("balls.swap", "fitter", club=chosen)
    if turn is None:
        return "Every club has had its balls."
    said = wording.say(
        "balls.turn", "fitter", club=turn.club, ball=turn.ball, of=turn.of, left=turn.left_in_block
    )
    if turn.new_block and protocol.balls:
        return f"{wording.say('balls.swap', 'fitter', club=turn.club)} {said}"
    return said


def _tally(protocol: Protocol, club: str, is_next: bool) -> ClubTally:
    """Return how one club's balls stand."""
    seen = protocol.tally(club)
    others = ", ".join(f"{name} {count}" for name, count in seen.items() if count and name != "up")
    return ClubTally(club, seen["up"], sum(seen.values()), others, protocol.passed(club), is_next)


def _face(state: State, club: str, aim: tuple[float, float] | None) -> FaceView | None:
    """Return the face that balls of a club are marked on: that of the pair's club of its type."""
    subject, clubs = state.session.subject, state.outcome.clubs
    kinds = {one.name: one.kind for one in subject.owned} | {
        one.name: one.kind for one in subject.trial_clubs
    }
    like = next((one for one in clubs if one.rung.kind == kinds.get(club)), clubs[0] if clubs else None)
    if like is None:
        return None
    view = face_view(state.outcome, like, state.session.units)
    mark = None if aim is None else Mark(aim[0], view.height / 2 + aim[1])
    return replace(view, aim=mark)
