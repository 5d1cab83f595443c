"""How the candidates stand: each pair with what speaks for it and against it, and what is still open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from interview.views.pairing import choice_as_it_stands
from rules.engine.settle import settled
from rules.ladder.rung import trade_name
from rules.units import unit, words

if TYPE_CHECKING:
    from rules.engine.ledger import Choice, Standing
    from rules.facts.subject import Kind
    from rules.fitting import Outcome
    from rules.ladder.pairs import Pair
    from rules.ladder.rung import Rung

Place = Literal["leads", "could_win", "beaten", "out"]
"""Picked; not picked, but an open answer could still bring it to the front; beaten whatever is answered;
ruled out."""
SHOWN = 14
"""Candidates that are worth looking at, the best first."""


@dataclass(frozen=True, slots=True)
class CandidateView:
    """One pair and how it stands. Points are whole thousandths."""

    id: str
    name: str
    """Such as `4-wood 17° + 7-wood 21°`."""
    short: str
    """The same in few letters: `4w 17 + 7w 21`."""
    place: Place
    points: int
    speaks_for: int
    """Sum of what speaks for it."""
    speaks_against: int
    """Sum of what speaks against it, nought or negative."""


@dataclass(frozen=True, slots=True)
class StandingView:
    """Every candidate that is worth looking at."""

    candidates: tuple[CandidateView, ...]
    more: int
    """How many more there are."""
    margin: int | None
    settled: bool
    """The pick is proved: no open answer can change it."""
    by_hand: bool = False
    """Whether the fitter took the pair that leads."""
    sure: float | None = None
    """Share of draws over the spread of all facts in which the pick stays; None until it is known."""
    steady: bool | None = None
    """Whether every plausible completion of the open questions gives the pick; None until it is known."""
    nothing: str = ""
    """Why there is no candidate at all; empty otherwise."""


def standing_view(outcome: Outcome, shown: int = SHOWN) -> StandingView:
    """Return how the candidates of an outcome stand, the pair that was taken first."""
    choice, picked = choice_as_it_stands(outcome), outcome.picked
    if choice is None or picked is None:
        return StandingView((), 0, None, settled=True, nothing=_no_pair(outcome))
    mine = choice.standing(picked.id)
    assert mine is not None
    others = [one for one in choice.standings if one is not mine]
    candidates = [_candidate(outcome, choice, one, mine) for one in (mine, *others[: shown - 1])]
    rival = next((one for one in others if not one.is_ruled_out), None)
    return StandingView(
        candidates=tuple(candidates),
        more=max(0, len(others) - (shown - 1)),
        margin=None if rival is None else mine.points - rival.points,
        settled=choice.settled,
        by_hand=any(one.decision == "pairing" and not one.stale for one in outcome.overridden),
    )


def _no_pair(outcome: Outcome) -> str:
    """Say why no pair is possible."""
    reasons = [barred.text for barred in outcome.barred]
    return reasons[0] if reasons else "The shop and the bag hold no two clubs that make a pair."


def _candidate(outcome: Outcome, choice: Choice, one: Standing, mine: Standing) -> CandidateView:
    """Return one candidate."""
    pair = pair_of(outcome, one.candidate.id)
    points = [line.points for line in one.lines]
    return CandidateView(
        id=one.candidate.id,
        name=f"{named(pair.longer)} + {named(pair.shorter)}",
        short=f"{in_short(pair.longer)} + {in_short(pair.shorter)}",
        place=_place(choice, one, mine),
        points=one.points,
        speaks_for=sum(p for p in points if p > 0),
        speaks_against=sum(p for p in points if p < 0),
    )


def pair_of(outcome: Outcome, id: str) -> Pair:
    """Return a pair by its id; the one that was taken as it was changed by hand."""
    picked = outcome.picked
    return picked if picked is not None and picked.id == id else outcome.pairs[id]


def _place(choice: Choice, one: Standing, mine: Standing) -> Place:
    """Return how a candidate stands against the one that was taken."""
    if one is mine:
        return "leads"
    if one.is_ruled_out:
        return "out"
    engine_pick = choice.pick
    if engine_pick is None or one is engine_pick:
        return "could_win"
    proved = settled([(engine_pick.outcome, engine_pick.place), (one.outcome, one.place)])
    return "beaten" if proved else "could_win"


def named(rung: Rung) -> str:
    """Return a rung as a fitter names it, with the loft that tells it from its neighbours."""
    own = "own " if rung.owned is not None else ""
    cut = " cut" if rung.state == "altered" else ""
    return f"{own}{rung.label.split(',')[0]}{cut} {_degrees(rung)}°"


def in_short(rung: Rung) -> str:
    """Return a rung in few letters: w for a wood, h for a hybrid, a star where it is his own."""
    own = "" if rung.owned is None else "/" if rung.state == "altered" else "*"
    return shortly(rung.kind, rung.spec.loft, own)


def shortly(kind: Kind, loft: float, own: str = "") -> str:
    """Return a club of a type and a loft (rad) in few letters, such as `4w 17`."""
    shown = words(loft, "deg").removesuffix(" deg")
    number, _, name = trade_name(kind, unit("deg").from_si(loft)).partition("-")
    return f"{number}{name[:1]}{own} {shown}"


def _degrees(rung: Rung) -> str:
    """Return a rung's loft as a number of degrees."""
    return words(rung.spec.loft, "deg").removesuffix(" deg")
