"""The golfer's sheet put together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.sheets.golfer.cards import Card, card
from interview.sheets.golfer.reasons import against_them, why_made_so, why_these
from interview.sheets.golfer.told import not_tested, numbers
from interview.views.build import face_view
from interview.views.outcome_text.opening import named
from interview.views.outcome_text.quantities import spelled

if TYPE_CHECKING:
    from interview.sheets.paper import Stamp
    from interview.views.build import BuildView, FaceView
    from interview.views.gaps import GapsView
    from interview.views.outcome import OutcomeView
    from rules.fitting import Outcome
    from rules.units import System

YOURS = (
    "These numbers are yours. Take this sheet to any shop or club maker and keep it with your receipt: if a "
    "club is ever lost, it can be built again from these figures and the workshop's sheet."
)
_MIND = ("rules_of_golf", "claim", "fit")
_MIND_AT_MOST = 4
_GLUE = "A club fresh from the bench is not hit for a day or more: ask when its glue has had its time."
_FIRST = "Local codes and licensed practice come first; if it hurts, stop and see a licensed professional."


@dataclass(frozen=True, slots=True)
class GolferSheet:
    """The sheet that a golfer takes home, ready to be written as text or as a page."""

    stamp: Stamp
    stop: tuple[str, ...]
    """What ends a fitting; printed first and large, the rest then is for later."""
    lead: str
    """The two clubs in a sentence, or why there are none."""
    verdicts: tuple[str, ...]
    """One club is enough, keep what you have, mend the driver first."""
    cards: tuple[Card, ...]
    why: tuple[str, ...]
    against: tuple[str, ...]
    made_so: tuple[str, ...]
    numbers: tuple[tuple[str, str], ...]
    untested: tuple[str, ...]
    check: tuple[str, ...]
    mind: tuple[str, ...]
    yours: str
    gaps: GapsView | None
    labels: tuple[str, ...]
    """Of the two clubs on the ladder."""
    faces: tuple[FaceView, ...]
    system: System
    bands: tuple[tuple[float, float, float], ...]
    """Of each club: lowest and highest carry of a clean strike by the flight laws, and over all, m."""


def golfer_sheet(outcome: Outcome, view: OutcomeView, build: BuildView, stamp: Stamp) -> GolferSheet:
    """Return the sheet of an outcome, without the golfer's name: the program keeps none."""
    return GolferSheet(
        stamp=stamp,
        stop=tuple(dict.fromkeys(one.text for one in view.cautions if one.topic == "body")),
        lead=_lead(view),
        verdicts=tuple(
            dict.fromkeys(spelled(one.text) for one in view.cautions if one.topic == "bag")
        ),
        cards=tuple(card(club, view.system) for club in build.clubs),
        why=why_these(view) if view.clubs else _why_none(view),
        against=against_them(view) if view.clubs else (),
        made_so=why_made_so(view),
        numbers=numbers(outcome, view),
        untested=not_tested(outcome, view, build) if view.clubs else (),
        check=tuple(spelled(one.text) for one in view.proofs),
        mind=_mind(view, build),
        yours=YOURS,
        gaps=_gaps(view, build),
        labels=tuple(one.label for one in view.clubs),
        faces=tuple(face_view(outcome, club) for club in outcome.clubs),
        system=view.system,
        bands=tuple((one.flown.low, one.flown.high, one.flown.expected) for one in view.clubs),
    )  # fmt: skip


def _lead(view: OutcomeView) -> str:
    """Name the two clubs in a sentence."""
    if not view.clubs:
        return "No pair of clubs can be made for you from what is on the shelf here."
    both = ", and ".join(named(club, view, customer=True) for club in view.clubs)
    if any(one.topic == "body" for one in view.cautions):
        return f"For later, when you are well: {both}."
    return f"{both[:1].upper()}{both[1:]}."


def _gaps(view: OutcomeView, build: BuildView) -> GapsView | None:
    """Return the ladder, with the clubs as they were measured where they were."""
    read = build.ladder
    if view.gaps is None or read is None:
        return view.gaps
    return view.gaps._replace(longer=read.longer, shorter=read.shorter)


def _why_none(view: OutcomeView) -> tuple[str, ...]:
    """Return why there is no pair."""
    return tuple(dict.fromkeys(spelled(one.text) for one in view.ruled_out))


def _mind(view: OutcomeView, build: BuildView) -> tuple[str, ...]:
    """Return what to be careful of, in few sentences; the bench's own cautions are the bench's."""
    found = [one for topic in _MIND for one in view.cautions if one.topic == topic]
    told = tuple(dict.fromkeys(spelled(one.text) for one in found))[:_MIND_AT_MOST]
    return (*told, *((_GLUE,) if build.work else ()), _FIRST)
