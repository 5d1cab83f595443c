"""A trial in the bay: whose ball is next, how each club's balls stand, and what the last one changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple, cast

from interview.views.bay.drawn import face_view
from interview.views.pictures.face import Mark
from interview.views.trial.live import moved_lines
from rules.units import words

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.views.pictures.face import FaceView
    from interview.wording.words import Words
    from rules.evidence.protocol import Ball, Protocol
    from rules.fitting import Outcome
    from rules.units import System


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


class Aim(NamedTuple):
    """What is said of the next ball before it is noted. SI."""

    mark: tuple[float, float] | None = None
    """Toward the toe and up from the middle of the face."""
    side: float | None = None
    """Right of the line."""


@dataclass(frozen=True, slots=True)
class BallsView:
    """The trial at one moment."""

    turn: str
    tallies: tuple[ClubTally, ...]
    ground: str
    aim: str
    """Where the next ball's mark and side are put, in words; empty where nowhere."""
    told: tuple[str, ...]
    """What the last ball changed, a sentence a line."""
    bias: tuple[str, ...]
    """What is known to be wrong with balls off this ground."""
    face: FaceView | None
    """Where balls were met, and where the next one is marked; None where there is no pair."""


def balls_view(
    wording: Words, protocol: Protocol, chosen: str | None, aim: Aim, before: Outcome | None, state: State
) -> BallsView:  # fmt: skip
    """Return the view of a trial."""
    turn = protocol.next
    club = chosen or (turn.club if turn else "")
    units = state.session.units
    told = () if before is None else moved_lines(before, state.outcome, "fitter", units)
    indoors = " indoors" if protocol.indoors else ""
    return BallsView(
        turn=_turn(wording, protocol, chosen),
        tallies=tuple(_tally(protocol, name, name == club) for name in protocol.clubs),
        ground=f"Off {'turf' if protocol.surface == 'turf' else f'a {protocol.surface}'}{indoors}.",
        aim=_aimed(aim, units),
        told=told,
        bias=tuple(_bias(wording, protocol)),
        face=_face(state, club, aim.mark),
    )


def _aimed(aim: Aim, units: System) -> str:
    """Say where the next ball's mark and side are put."""
    told = list(_seen(aim.mark, aim.side, units))
    return f"Next ball: {'; '.join(told)}." if told else ""


def ball_words(ball: Ball, units: System) -> str:
    """Return one ball as it was understood: what became of it, its carry, its side and its mark."""
    mark = None if ball.toe is None or ball.high is None else (ball.toe, ball.high)
    carry = "" if ball.carry is None else words(ball.carry, "yd", units)
    return "; ".join(part for part in (ball.outcome, carry, *_seen(mark, ball.side, units)) if part)


def _seen(mark: tuple[float, float] | None, side: float | None, units: System) -> Iterator[str]:
    """Yield where on the face a ball was met, and on which side of the line it ended. SI."""
    if mark is not None:
        toe, high = (round(1000 * part) for part in mark)
        across = f"{abs(toe)} mm {'toe' if toe > 0 else 'heel'}" if toe else ""
        up = f"{abs(high)} mm {'high' if high > 0 else 'low'}" if high else ""
        yield ", ".join(part for part in (across, up) if part) or "the middle of the face"
    if side:
        yield f"{words(abs(side), 'yd', units)} {'right' if side > 0 else 'left'}"


def _bias(wording: Words, protocol: Protocol) -> Iterator[str]:
    """Say what is known to be wrong with balls off this ground."""
    if protocol.surface != "turf":
        yield wording.say(f"trial.mind.{protocol.surface}", "fitter")
    if protocol.indoors:
        yield wording.say("trial.mind.indoors", "fitter")


def _turn(wording: Words, protocol: Protocol, chosen: str | None) -> str:
    """Say whose ball is next."""
    turn = protocol.next
    if chosen is not None:
        return wording.say("balls.swap", "fitter", club=chosen)
    if turn is None:
        return "Every club has had its balls. F8 says what they tell; F6 asks for six more with each."
    said = wording.say(
        "balls.turn", "fitter", club=turn.club, ball=turn.ball, of=turn.of, left=turn.left_in_block
    )
    return f"Change: {said}" if turn.new_block and protocol.balls else said


def _tally(protocol: Protocol, club: str, is_next: bool) -> ClubTally:
    """Return how one club's balls stand."""
    seen = protocol.tally(club)
    others = ", ".join(f"{name} {count}" for name, count in seen.items() if count and name != "up")
    return ClubTally(club, seen["up"], sum(seen.values()), others, protocol.passed(club), is_next)


def _face(state: State, club: str, aim: tuple[float, float] | None) -> FaceView | None:
    """Return the face that balls of a club are marked on, with its own marks.

    It is the face of the pair's club of its type that is nearest in loft: a demo's own is not known here.
    """
    subject = state.session.subject
    kinds = {one.name: one.kind for one in subject.owned} | {
        one.name: one.kind for one in subject.trial_clubs
    }
    lofts = {one.name: one.loft for one in subject.trial_clubs}
    lofts |= {one.name: cast("float", one.loft.value) for one in subject.owned if one.loft is not None}
    alike = [one for one in state.outcome.clubs if one.rung.kind == kinds.get(club)] or state.outcome.clubs
    if not alike:
        return None
    loft = lofts.get(club)
    like = min(alike, key=lambda one: abs(one.rung.spec.loft - loft) if loft is not None else 0.0)
    view = face_view(state.outcome, like, state.session.units, club)
    mark = None if aim is None else Mark(aim[0], view.height / 2 + aim[1])
    return replace(view, aim=mark)
