"""A trainee's prediction of a decision: what it will be, and the facts that should drive it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING, Literal

from rules.engine.ledger import Amount, Choice
from rules.lessons.case import LessonProblem, ledger_of
from rules.lessons.naming import find_fact, nameable
from rules.overrides import OverrideProblem, find_pair
from rules.units import UnitError, parse, unit

if TYPE_CHECKING:
    from rules.engine.language import Decision
    from rules.lessons.case import Case

MOST_REASONS = 6
"""Facts that may be named for one decision: naming everything is no reason."""
_JOINED = re.compile(r"\s*(?:\+| and )\s*")
_BLANKS = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Asked:
    """A decision as it is put to a trainee, before anything is given away."""

    decision: str
    kind: Literal["choice", "amount"]
    options: tuple[str, ...] = ()
    """Of a choice: the candidates, in an order that tells nothing."""
    unit: str = ""
    """Of an amount."""
    limits: tuple[int, int] = (0, 0)
    """Of an amount: lowest and highest, thousandths of the unit."""
    step: int = 1
    """Of an amount: thousandths of the unit."""


@dataclass(frozen=True, slots=True)
class Prediction:
    """What a trainee says a decision will be, and why."""

    decision: str
    value: str | int
    """A candidate's id, or an amount in thousandths of its unit."""
    reasons: tuple[str, ...] = ()
    """Ids of the facts that should drive it."""


def asked(case: Case, decision: str) -> Asked:
    """Return a decision as it is asked; raises LessonProblem where nothing is decided on it."""
    found = ledger_of(case, decision)
    if isinstance(found, Amount):
        declared = found.decision
        return Asked(decision, "amount", (), declared.unit, declared.limits, declared.step)
    ordered = sorted(found.standings, key=lambda one: one.place)
    return Asked(decision, "choice", tuple(one.candidate.id for one in ordered))


def predicted(case: Case, decision: str, value: str, reasons: Sequence[str] = ()) -> Prediction:
    """Read a prediction as it was typed; raises LessonProblem with what would have been taken.

    An amount comes with its unit (a bare number takes the decision's own), a candidate by its id or number
    in the list of `asked`, a pair also by labels such as `5-wood+4-hybrid`; reasons by the names of facts or
    their numbers in `nameable`.
    """
    found = ledger_of(case, decision)
    meant = (
        amount_typed(found.decision, value) if isinstance(found, Amount) else _candidate(case, found, value)
    )
    among = nameable(case, decision)
    named = tuple(dict.fromkeys(_reason(case, one.strip(), among) for one in reasons if one.strip()))
    if len(named) > MOST_REASONS:
        raise LessonProblem(f"{len(named)} facts are named; name the {MOST_REASONS} that matter most")
    return Prediction(decision, meant, named)


def _reason(case: Case, text: str, among: tuple[str, ...]) -> str:
    """Return the fact that was typed, by its name or by its number among those that may be named."""
    if text.isdecimal() and 1 <= int(text) <= len(among):
        return among[int(text) - 1]
    return find_fact(case.base, text, among)


def amount_typed(decision: Decision, text: str) -> int:
    """Return an amount in thousandths of its decision's unit; raises LessonProblem."""
    shown = unit(decision.unit)
    try:
        meant = round(shown.from_si(parse(text.strip(), shown)) * 1000)
    except UnitError as error:
        raise LessonProblem(f"{decision.title}: {error}") from None
    low, high = decision.limits
    if not low <= meant <= high:
        ends = f"{low / 1000:g} to {high / 1000:g} {decision.unit}"
        raise LessonProblem(f"{decision.title}: {meant / 1000:g} {decision.unit} is outside {ends}; check it")
    return meant


def _candidate(case: Case, choice: Choice, text: str) -> str:
    """Return the id of the candidate that was typed."""
    typed = _BLANKS.sub("-", _JOINED.sub("+", text.strip().lower()))
    if choice.decision.id == "pairing":
        try:
            return find_pair(case.outcome.pairs, typed).id
        except OverrideProblem as problem:
            raise LessonProblem(str(problem)) from None
    ids = [one.candidate.id for one in sorted(choice.standings, key=lambda one: one.place)]
    if typed.isdecimal() and 1 <= int(typed) <= len(ids):
        return ids[int(typed) - 1]
    if typed in ids:
        return typed
    close = get_close_matches(typed, ids, 1)
    hint = f"; did you mean '{close[0]}'?" if close else f"; there are {', '.join(ids)}"
    raise LessonProblem(f"'{text.strip()[:60]}' is no candidate for the {choice.decision.title}{hint}")
