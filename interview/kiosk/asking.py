"""Which questions a stranger is asked at a kiosk, and how each is best answered without a keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from rules.engine.language import Atom, atoms
from rules.facts.asked import applicable

if TYPE_CHECKING:
    from interview.conversation import State
    from rules.engine import RuleBase
    from rules.engine.language import Fact

LEFT_TO_THE_FITTER = (
    "attack_angle", "fairway_speed", "longest_iron_loft", "driver_loft", "driver_length", "driver_shaft_mass",
    "sole_marks", "height", "wrist_to_floor", "hand_length", "clubs_in_bag", "clubs_leaving",
    "local_length_limit", "temperature", "altitude",
)  # fmt: skip
"""Questions that want a tape, a gauge, a monitor or the club in the hand, or for which four minutes have no
room. They stay open on the ticket, so that the fitter is asked them; a stranger is not. Any of them
that a shop's rules lack is not missed."""

Way = Literal["choice", "several", "scale", "number"]
"""One of some choices; one or more of them; a small whole number; a number typed digit by digit."""
_SCALE = 7
"""A number with at most so many whole values is offered as choices."""


def way(fact: Fact) -> Way:
    """Return how a question is best answered."""
    if fact.kind == "choice":
        return "choice"
    if fact.kind in ("set", "shares"):
        return "several"
    return "scale" if scale(fact) else "number"


def scale(fact: Fact) -> tuple[int, ...]:
    """Return the whole numbers that answer a question without a unit; none if there are many."""
    low, high = fact.range
    if fact.kind != "number" or fact.unit not in ("", "1") or high - low + 1 > _SCALE:
        return ()
    return tuple(range(round(low), round(high) + 1))


def at_most_left(base: RuleBase, state: State) -> int:
    """Return how many questions can still come, the one on the screen included: an upper bound.

    Those that matter now, and those that an answer not yet given could bring up. It falls as answers settle
    things, and never promises less than what is asked in the end.
    """
    answers = state.session.subject.answers
    passed = set(state.session.record.skipped)
    on = applicable(base, answers)
    left = {id for id in state.open if id not in passed}
    for id, fact in base.facts.items():
        if fact.ask is None or id in answers or id in passed or id in on:
            continue
        if any(_undecided(atom, base, answers) for atom in atoms(fact.ask.applies)):
            left.add(id)
    if state.asking is not None:
        left.add(state.asking)
    return len(left)


def _undecided(atom: Atom, base: RuleBase, answers: object) -> bool:
    """Return whether a condition waits on a question that nobody has answered yet."""
    fact = base.facts.get(atom.fact)
    return fact is not None and fact.ask is not None and atom.fact not in answers  # type: ignore[operator]
