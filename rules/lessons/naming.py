"""The facts that a trainee may name as reasons: by id, by title, or nearly so."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import TYPE_CHECKING

from rules.facts.subject import Subject
from rules.fitting import fit
from rules.lessons.case import LessonProblem

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.fitting import House
    from rules.lessons.case import Case

_BLANKS = re.compile(r"[\s_-]+")


def whole(id: str) -> str:
    """Return the fact to which a part of shares belongs, or the fact itself."""
    return id.partition(".")[0]


def find_fact(base: RuleBase, text: str, among: Iterable[str] | None = None) -> str:
    """Return the id of a fact from what was typed: its id, its title or a beginning that fits one alone.

    Raises LessonProblem, with the nearest name where there is one.
    """
    ids = [id for id in (base.facts if among is None else among) if base.facts[id].part_of is None]
    names = {_plain(base.facts[id].title): id for id in ids} | {_plain(id): id for id in ids}
    typed = _plain(text)
    if typed in names:
        return names[typed]
    begun = {id for name, id in names.items() if typed and name.startswith(typed)}
    if len(begun) == 1:
        return begun.pop()
    close = get_close_matches(typed, names, 1)
    hint = f"; did you mean '{base.facts[names[close[0]]].title}'?" if close else "; 'facts' lists them"
    raise LessonProblem(f"'{text.strip()[:60]}' is no fact that can be named here{hint}")


def _plain(text: str) -> str:
    """Return a name without case, dashes and doubled blanks."""
    return _BLANKS.sub(" ", text).strip().lower()


def behind(house: House) -> Mapping[str, frozenset[str]]:
    """Return, for each derived fact, the questions from which the program derives it.

    Read off a golfer of whom nothing is told: there every derived fact still waits on all that could move
    it, and says so.
    """
    return house.once(("questions behind",), lambda: _behind(house))  # type: ignore[no-any-return]


def _behind(house: House) -> dict[str, frozenset[str]]:
    """Gather what waits on what, from the golfer's facts to those of clubs and pairs."""
    untold = fit(house, Subject())
    found = {id: known.waits for id, known in untold.golfer.known.items() if known.waits}
    if untold.picked is not None:
        for rung in (untold.picked.longer, untold.picked.shorter):
            found |= {id: waits for id, waits in rung.waits.items() if waits}
        found |= {id: waits for id, waits in untold.picked.waits.items() if waits}
    asked = {id for id, fact in house.base.facts.items() if fact.ask is not None}
    return {id: waits & asked for id, waits in found.items() if id not in asked}


def told_behind(case: Case, fact: str) -> tuple[str, ...]:
    """Return the answered questions behind a derived fact of a case, by id; none for what is asked itself."""
    waits = behind(case.house).get(fact, frozenset())
    answers = case.subject.answers
    return tuple(sorted(id for id in waits if id in answers and answers[id].value is not None))


def nameable(case: Case, decision: str) -> tuple[str, ...]:
    """Return the facts that a trainee may name for a decision: what its rules read, and what stands behind.

    In the order in which the rule base declares them.
    """
    part = decision.rpartition(".")[2]
    read = {whole(id) for rule in case.base.plan(part).rules for id in rule.reads}
    asked = {id for fact in read for id in told_behind(case, fact)}
    return tuple(id for id in case.base.facts if id in read | asked)
