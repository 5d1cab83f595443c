"""Which questions are still worth asking, and in which order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.engine.questions import sifted, stakes
from rules.facts.asked import applicable

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.ledger import Choice
    from rules.facts.golfer import Golfer
    from rules.facts.subject import Subject
    from rules.ladder.pairs import Pair


@dataclass(frozen=True, slots=True)
class Questions:
    """The questions of the interview that nobody has answered, sorted by what they could still do."""

    worth_asking: tuple[str, ...]
    """Open, and able to change something (or a matter of safety): in the order to ask them."""
    needless: tuple[str, ...]
    """Open, and unable to change anything any more."""
    stakes: Mapping[str, float]
    """What is at stake in each, in points; adjustments count by how many of their materialities they move."""


def questions(
    base: RuleBase, golfer: Golfer, subject: Subject, pairing: Choice | None, picked: Pair | None
) -> Questions:
    """Return the open questions, weightiest first within the declared order of topics.

    A question is worth asking while a rule that is not yet settled reads a fact that waits on it. Rules
    of a settled decision no longer count; cautions always do.
    """
    at_stake = stakes(base, _waits(golfer, picked), _unsettled(base, pairing, picked))
    unanswered = [id for id in applicable(base, subject.answers) if id not in subject.answers]
    worth, needless = sifted(base, unanswered, at_stake)
    return Questions(worth, needless, at_stake)


def _unsettled(base: RuleBase, pairing: Choice | None, picked: Pair | None) -> frozenset[str]:
    """Return the decisions that open questions could still change; what is not decided yet counts."""
    if pairing is None or picked is None:
        return frozenset(base.decisions)
    if not pairing.settled:
        return frozenset(
            {"pairing", "ports", *(id for id, decision in base.decisions.items() if decision.scope == "rung")}
        )
    both = (picked.longer.decisions, picked.shorter.decisions)
    return frozenset({"ports", *(id for made in both for id, one in made.items() if not one.settled)})


def _waits(golfer: Golfer, picked: Pair | None) -> dict[str, frozenset[str]]:
    """Return the open questions behind every open fact of the golfer and of the pair that leads."""
    waits = {id: known.waits for id, known in golfer.known.items() if known.waits}
    if picked is not None:
        for found in (picked.longer.waits, picked.shorter.waits, picked.waits):
            for id, questions in found.items():
                waits[id] = waits.get(id, frozenset()) | questions
    return waits
