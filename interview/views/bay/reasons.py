"""Why, why not, and nearly: the ledgers of a decision as the trace holds them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.bay.sayings import amount_words, blocked, value_words
from interview.views.bay.standing import named, pair_of
from interview.views.decisions import decisions
from interview.views.lines import LineView, of_choice
from interview.views.pairing import choice_as_it_stands
from rules.engine.ledger import Amount, Choice, Standing
from rules.engine.lines import Silent

if TYPE_CHECKING:
    from interview.views.decisions import DecisionView
    from rules.engine import RuleBase
    from rules.engine.language import Rule
    from rules.fitting import Outcome
    from rules.shelf.parts import Grip, Head, Shaft
    from rules.units import System


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
    found = found_decision(outcome, id)
    silent: Iterable[Silent] = ()
    rivals: tuple[RivalName, ...] = ()
    if isinstance(found, Choice):
        picked = found.standing(str(one.pick))
        silent = picked.silent if picked else ()
        rivals = tuple(_rival(outcome, id, s, system) for s in found.standings if s is not picked)
    elif isinstance(found, Amount):
        silent = found.silent
    return ReasonsView(
        id=id,
        title=_title(one),
        picked=_picked(outcome, one),
        total="" if one.score is None else f"{one.score / 1000:.2f} points",
        unit=one.unit or "",
        lines=tuple(_line(line, one.unit or "", base, system) for line in one.because),
        rivals=rivals,
        near=_near(silent, base, one.unit or "", system),
        settled=one.settled,
    )


def found_decision(outcome: Outcome, id: str) -> Choice | Amount | None:
    """Return a decision as it was taken; None for what is not decided of his own clubs."""
    if id == "pairing":
        return choice_as_it_stands(outcome)
    role, _, part = id.partition(".")
    club = next((club for club in outcome.clubs if club.role == role), None)
    if club is None:
        return None
    return club.direction if part == "ports" else club.rung.decisions.get(part)


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
        return candidate.replace("-", " ").replace("_", " ")
    return finders[part](candidate).label


def _rival(outcome: Outcome, id: str, one: Standing, system: System) -> RivalName:
    """Return one candidate that was not picked."""
    name = candidate_name(outcome, id, one.candidate.id)
    out = one.ruled_out[0].text(system) if one.is_ruled_out else ""
    return RivalName(one.candidate.id, name, one.points, out)


def _line(line: LineView, unit: str, base: RuleBase, system: System) -> ReasonLine:
    """Return one line of a ledger."""
    amount = (line.adjust if line.points is None else line.points) or 0
    said = amount_words(amount, unit, system) if unit else f"{amount / 1000:+.2f}"
    return ReasonLine(
        rule=line.rule,
        text=line.text,
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


def _near(silent: Iterable[Silent], base: RuleBase, unit: str, system: System) -> tuple[NearLine, ...]:
    """Return the rules that did not speak, those with the fewest things in their way first."""
    found = [(len(one.blockers), one) for one in silent]
    nearest = sorted(found, key=lambda pair: (pair[0], -abs(_most(pair[1].rule)), pair[1].rule.id))
    return tuple(_near_line(one, base, unit, system) for count, one in nearest if count)


def _near_line(one: Silent, base: RuleBase, unit: str, system: System) -> NearLine:
    """Return one rule that did not speak."""
    most = _most(one.rule)
    if one.rule.effect.kind == "rule_out":
        said = "out"
    else:
        said = amount_words(most, unit, system) if unit else f"{most / 1000:+.2f}"
    needs = tuple(blocked(traced, base, system) for traced in one.blockers)
    return NearLine(one.rule.id, most, said, one.rule.teaches, needs)


def _most(rule: Rule) -> int:
    """Return the most that a rule can give, either way."""
    ramp = rule.effect.ramp
    return max((y for _, y in ramp.at), key=abs) if ramp else rule.effect.amount


def contrast_view(outcome: Outcome, id: str, rival: str, system: System) -> ContrastView | None:
    """Return the pick's ledger beside a rival's; None where there is no such choice or rival."""
    found = found_decision(outcome, id)
    one = {d.id: d for d in decisions(outcome, choice_as_it_stands(outcome), system)}[id]
    if not isinstance(found, Choice):
        return None
    mine, theirs = found.standing(str(one.pick)), found.standing(rival)
    if mine is None or theirs is None:
        return None
    ours = {line.rule: line for line in (of_choice(line, system) for line in mine.lines)}
    others = {line.rule: line for line in (of_choice(line, system) for line in theirs.lines)}
    lines = [_contrast(rule, ours.get(rule), others.get(rule)) for rule in {**ours, **others}]
    apart = [line for line in lines if line.mine != line.theirs]
    return ContrastView(
        mine=candidate_name(outcome, id, mine.candidate.id),
        theirs=candidate_name(outcome, id, rival),
        my_points=mine.points,
        their_points=theirs.points,
        lines=tuple(sorted(apart, key=lambda line: (-abs(line.mine - line.theirs), line.rule))),
        shared=len(lines) - len(apart),
        out=theirs.ruled_out[0].text(system) if theirs.is_ruled_out else "",
    )


def _contrast(rule: str, ours: LineView | None, theirs: LineView | None) -> ContrastLine:
    """Return one rule as it spoke for both."""
    mine, others = (ours.points or 0) if ours else 0, (theirs.points or 0) if theirs else 0
    heavier = ours if theirs is None or (ours is not None and abs(mine) >= abs(others)) else theirs
    assert heavier is not None
    return ContrastLine(rule, mine, others, heavier.text)
