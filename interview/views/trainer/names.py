"""Names and values of a lesson in words: cases, decisions, candidates, amounts, facts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.bay.reasons import candidate_name
from interview.views.bay.sayings import amount_words as step_words
from interview.views.bay.sayings import value_words
from interview.views.inquiry.words import Words
from interview.views.trainer.said import said
from rules.engine.text import amount_words

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.views import Value
    from rules.fitting import Outcome
    from rules.lessons.case import Case
    from rules.units import System


def case_title(id: str) -> str:
    """Return the name of a case: its id as words."""
    text = id.replace("-", " ").replace("_", " ").strip()
    return text[:1].upper() + text[1:]


def decision_title(base: RuleBase, decision: str) -> str:
    """Return what a decision is about, and of which club."""
    role, _, part = decision.rpartition(".")
    title = base.decisions[part].title
    return said("names.of_club", title=title, role=role) if role else title


def part_title(decision: str) -> str:
    """Return what a decision is about in a word or two, without the club."""
    return said(f"names.part_{decision.rpartition('.')[2]}")


def role_of(decision: str) -> str:
    """Return the club that a decision belongs to: longer or shorter; empty for the pair."""
    return decision.rpartition(".")[0]


def picked_name(case: Case, decision: str, pick: str | int, system: System) -> str:
    """Return a candidate or an amount (thousandths of its unit) as a person calls it."""
    if isinstance(pick, int):
        return amount_words(case.base.decisions[decision.rpartition(".")[2]], pick, system)
    return candidate_name(case.outcome, decision, pick)


def moved_words(base: RuleBase, decision: str, by: int, system: System) -> str:
    """Return what a rule gives, in points or in the unit of an amount, with its sign."""
    declared = base.decisions[decision.rpartition(".")[2]]
    return step_words(by, declared.unit, system) if declared.kind == "amount" else f"{by / 1000:+.2f}"


def fact_title(base: RuleBase, id: str) -> str:
    """Return the name of a fact with a capital."""
    title = base.facts[id].title
    return title[:1].upper() + title[1:]


def fact_words(base: RuleBase, id: str, value: Value | None, system: System) -> str:
    """Return the value of a fact in words."""
    return value_words(base.facts[id], value, system)


def pair_name(outcome: Outcome, id: str | None, system: System) -> str:
    """Return a pair as a person calls it, also one that this outcome does not have; none is named so."""
    picked = outcome.picked
    if id and (id in outcome.pairs or (picked is not None and picked.id == id)):
        return candidate_name(outcome, "pairing", id)
    return Words(outcome, system).pair(id or "").partition(" (")[0]
