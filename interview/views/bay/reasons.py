"""Why, why not, and nearly: the ledgers of a decision as the trace holds them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.bay.sayings import amount_words, blocked, value_words
from interview.views.bay.standing import named, pair_of
from interview.views.decisions import SIDES, decisions
from interview.views.lines import LineView
from interview.views.outcome_text.quantities import rounded
from interview.views.pairing import choice_as_it_stands
from rules.engine.ledger import Choice
from rules.inquiry.ledgers import Difference, Near, ledger, nearly, why_not
from rules.units import unit, words

if TYPE_CHECKING:
    from interview.views.decisions import DecisionView
    from rules.engine import RuleBase
    from rules.engine.language import Rule
    from rules.engine.ledger import Standing
    from rules.fitting import Outcome
    from rules.shelf.parts import Grip, Head, Shaft
    from rules.units import System

_FURTHER = re.compile(r"([\d.]+)-in-more")
"""A tip that is cut further than its shaft's own note says, as the ladder calls it."""
_NEAR = 40
"""Rules that nearly spoke which are told at most."""


@dataclass(frozen=True, slots=True)
class ReasonLine:
    """One line of a ledger."""

    rule: str
    text: str
    amount: int
    """Thousandths: of a point, or of the decision's unit."""
    said: str
    """The amount in words."""
    source: str
    teaches: str
    facts: tuple[tuple[str, str], ...]
    """What it read, by title, in words."""
    other_school: str = ""
    """What the other school says; empty where nobody disagrees."""
    leans: str = ""
    """Why this rule base leans as it does."""


@dataclass(frozen=True, slots=True)
class NearLine:
    """A rule that did not speak, and what kept it silent."""

    rule: str
    amount: int
    """The most it could give, thousandths."""
    said: str
    teaches: str
    needs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RivalName:
    """A candidate that was not picked."""

    id: str
    name: str
    points: int
    out: str
    """Why it is ruled out; empty otherwise."""


@dataclass(frozen=True, slots=True)
class ReasonsView:
    """One decision with its ledger, its rivals and what nearly spoke."""

    id: str
    title: str
    picked: str
    """The pick in words."""
    total: str
    """The score or the amount in words."""
    unit: str
    """Of an amount; empty for a choice, which counts points."""
    lines: tuple[ReasonLine, ...]
    rivals: tuple[RivalName, ...]
    near: tuple[NearLine, ...]
    settled: bool


@dataclass(frozen=True, slots=True)
class ContrastLine:
    """One rule, as it spoke for the pick and for a rival."""

    rule: str
    mine: int
    theirs: int
    text: str
    """The sentence of whichever it weighs more in."""


@dataclass(frozen=True, slots=True)
class ContrastView:
    """The pick's ledger beside a rival's; what is the same in both cancels and is only counted."""

    mine: str
    theirs: str
    my_points: int
    their_points: int
    lines: tuple[ContrastLine, ...]
    """What separates them, weightiest first."""
    shared: int
    """Rules that gave both the same."""
    out: str
    """Why the rival is ruled out; empty otherwise."""


def reasons_view(outcome: Outcome, id: str, system: System) -> ReasonsView:
    """Return the reasons of one decision: `pairing`, or such as `longer.length`."""
    base = outcome.house.base
    one = {d.id: d for d in decisions(outcome, choice_as_it_stands(outcome), system)}[id]
    found = ledger(outcome, id)
    standings = found.standings if isinstance(found, Choice) else ()
    return ReasonsView(
        id=id,
        title=_title(one),
        picked=_picked(outcome, one),
        total="" if one.score is None else f"{one.score / 1000:.2f} points",
        unit=one.unit or "",
        lines=tuple(_line(line, one.unit or "", base, system) for line in one.because),
        rivals=tuple(_rival(outcome, id, s, system) for s in standings if s.candidate.id != one.pick),
        near=tuple(_near(near, base, one.unit or "", system) for near in nearly(outcome, id, most=_NEAR)),
        settled=one.settled,
    )


def _title(one: DecisionView) -> str:
    """Return what a decision is about, and of which club."""
    return f"{one.title}, {one.role} club" if one.role else one.title


def _picked(outcome: Outcome, one: DecisionView) -> str:
    """Return the pick in words."""
    if one.id == "pairing" and outcome.picked is not None:
        return candidate_name(outcome, "pairing", outcome.picked.id)
    return one.words or "as it is"


def candidate_name(outcome: Outcome, id: str, candidate: str) -> str:
    """Return what a person calls a candidate of a decision."""
    if id == "pairing":
        pair = pair_of(outcome, candidate)
        return f"{named(pair.longer)} + {named(pair.shorter)}"
    part, shelf = id.rpartition(".")[2], outcome.house.shelf
    finders: dict[str, Callable[[str], Head | Shaft | Grip]] = {
        "head": shelf.head, "shaft": shelf.shaft, "grip": shelf.grip,
    }  # fmt: skip
    if part not in finders:
        if further := _FURTHER.fullmatch(candidate):
            return f"{words(unit('in').to_si(float(further[1])), 'in', 'imperial')} more"
        return SIDES.get(candidate) or candidate.replace("-", " ").replace("_", " ")
    return finders[part](candidate).label


def _rival(outcome: Outcome, id: str, one: Standing, system: System) -> RivalName:
    """Return one candidate that was not picked."""
    name = candidate_name(outcome, id, one.candidate.id)
    out = rounded(one.ruled_out[0].text(system)) if one.is_ruled_out else ""
    return RivalName(one.candidate.id, name, one.points, out)


def _line(line: LineView, unit: str, base: RuleBase, system: System) -> ReasonLine:
    """Return one line of a ledger."""
    amount = (line.adjust if line.points is None else line.points) or 0
    said = amount_words(amount, unit, system) if unit else f"{amount / 1000:+.2f}"
    return ReasonLine(
        rule=line.rule,
        text=rounded(line.text),
        amount=amount,
        said="" if line.rule == "start" else said,
        source=line.source.words,
        teaches=line.teaches,
        facts=tuple(
            (base.facts[id].title, value_words(base.facts[id], value, system))
            for id, value in line.facts.items()
            if id in base.facts
        ),
        other_school=line.contested.says if line.contested else "",
        leans=line.contested.leans if line.contested else "",
    )


def _near(one: Near, base: RuleBase, unit: str, system: System) -> NearLine:
    """Return one rule that nearly spoke."""
    most = _most(one.rule)
    if one.rule.effect.kind == "rule_out":
        said = "out"
    else:
        said = amount_words(most, unit, system) if unit else f"{most / 1000:+.2f}"
    return NearLine(one.rule.id, most, said, one.rule.teaches, (blocked(one.blocker, base, system),))


def _most(rule: Rule) -> int:
    """Return the most that a rule can give, either way."""
    ramp = rule.effect.ramp
    return max((y for _, y in ramp.at), key=abs) if ramp else rule.effect.amount


def contrast_view(outcome: Outcome, id: str, rival: str, system: System) -> ContrastView:
    """Return the pick's ledger beside a rival's.

    Raises InquiryProblem where there is no such choice or rival.
    """
    found = why_not(outcome, id, rival)
    choice = ledger(outcome, id)
    assert isinstance(choice, Choice)
    mine, theirs = choice.standing(found.pick), choice.standing(found.rival)
    assert mine is not None
    assert theirs is not None
    spoke = {line.rule.id for one in (mine, theirs) for line in one.lines if line.rule is not None}
    return ContrastView(
        mine=candidate_name(outcome, id, found.pick),
        theirs=candidate_name(outcome, id, found.rival),
        my_points=mine.points,
        their_points=theirs.points,
        lines=tuple(_contrast(one, system) for one in found.differences),
        shared=len(spoke) - len(found.differences),
        out=rounded(found.ruled_out[0].text(system)) if found.ruled_out else "",
    )


def _contrast(one: Difference, system: System) -> ContrastLine:
    """Return one rule as it spoke for both, in the words of whichever it weighs more in."""
    mine, theirs = (line.points if line else 0 for line in (one.mine, one.other))
    heavier = one.mine if one.other is None or abs(mine) >= abs(theirs) else one.other
    heavier = heavier or one.other
    return ContrastLine(one.rule.id, mine, theirs, rounded(heavier.text(system)) if heavier else "")
