"""His own numbers, as he gave them or as they were measured; and what was not tested."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.conversation.answers import answer_text
from interview.views.outcome_text.quantities import listed
from interview.wording.words import words as wording_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from interview.views.build import BuildView
    from interview.views.outcome import OutcomeView
    from rules.facts.answers import Answer
    from rules.fitting import Outcome

_ORDER = (
    "handicap", "typical_score", "driver_speed", "fairway_speed", "driver_carry", "seven_iron_carry",
    "lies", "turf", "contact", "miss", "curve", "airborne_of_six", "turf_mark", "attack_angle", "flight",
    "confidence_fairway", "confidence_hybrid", "hits_five_wood", "tempo", "longest_iron_loft",
    "longest_iron_carry", "driver_loft", "purpose", "wrist_to_floor", "hand_length",
)  # fmt: skip
"""What a golfer looks for among his numbers, first things first; health and the bag are not printed."""
_MOST_NUMBERS = 12
_TAKEN_AT_MOST = 5
_WEIGHTY = 1.0
"""An open question with less at stake than this, in points, is not worth a line."""


def numbers(outcome: Outcome, view: OutcomeView) -> tuple[tuple[str, str], ...]:
    """Return what he said and what was measured, in his own words; nothing that was not known."""
    answers, facts = outcome.subject.answers, outcome.house.base.facts
    said = [(id, answers[id]) for id in _ORDER if id in answers and not answers[id].unknown and id in facts]
    return tuple((facts[id].title, _text(outcome, view, id, answer)) for id, answer in said[:_MOST_NUMBERS])


def _text(outcome: Outcome, view: OutcomeView, id: str, answer: Answer) -> str:
    """Return an answer as it is read back to a customer."""
    fact, wording = outcome.house.base.facts[id], wording_of()
    asked = wording.asked(fact, "fitter", "left" if view.hand == "left" else "right")
    return answer_text(fact, asked, answer, wording, view.system).replace(" %", "\N{NO-BREAK SPACE}%")


def not_tested(outcome: Outcome, view: OutcomeView, build: BuildView) -> tuple[str, ...]:
    """Return what these clubs stand on that nobody has tested yet."""
    return tuple(_untested(outcome, view, build))


def _untested(outcome: Outcome, view: OutcomeView, build: BuildView) -> Iterator[str]:
    """Yield what was not tested, weightiest first."""
    shots = outcome.subject.shots
    turf = sum(shot.surface == "turf" for shot in shots)
    if not shots:
        yield "No ball was hit for this sheet: how far and how high is reckoned from your speed."
    elif turf < len(shots):
        were = "ball was" if len(shots) == 1 else "balls was" if len(shots) - turf == 1 else "balls were"
        yield f"{len(shots) - turf} of {len(shots)} {were} not hit off turf, and a mat hides bad ones."
    strikes = view.facts.get("strike_from")
    if strikes is not None and strikes.value == "answers":
        yield "Where you strike the face was taken from what you said; marks on the face would replace it."
    loft = view.facts.get("delivered_loft_change")
    if loft is not None and loft.how != "shots":
        yield "The loft you bring to the ball is a usual one for golfers like you; it moves every distance."
    if taken := _taken(view):
        yield f"Nobody said, so a usual value stands in: {listed(taken)}."
    if any(one.parts is not None and one.built.reading is None for one in build.clubs):
        yield "Lofts are as stamped, and stamps can be a degree out, until the clubs are on a gauge."
    if any(one.view.owned and not one.view.length_known for one in build.clubs):
        yield "The length of your own club was never told; a usual one stands in."


def _taken(view: OutcomeView) -> list[str]:
    """Return the questions on which a usual value stands and that could have mattered."""
    leans = [one for one in view.leans if one.group == "answer" and one.question in view.facts]
    leans.sort(key=lambda one: -view.stakes.get(one.question, 0.0))
    weighty = [one for one in leans if not one.open or view.stakes.get(one.question, 0.0) >= _WEIGHTY]
    return [view.facts[one.question].title for one in weighty[:_TAKEN_AT_MOST]]
