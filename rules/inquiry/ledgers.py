"""Why, why not, and nearly: read off the trace of one road, which is the only source of any of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.engine.language import Atom
from rules.engine.ledger import Amount, Choice
from rules.overrides import OverrideProblem, find_pair
from rules.problems import Problem
from rules.units import UnitError, parse, unit

if TYPE_CHECKING:
    from rules.engine import Line
    from rules.engine.language import Rule
    from rules.engine.ledger import Standing
    from rules.engine.lines import Silent
    from rules.engine.trace import Traced
    from rules.engine.views import View
    from rules.fitting import Outcome
    from rules.workbench import Club


class InquiryProblem(Problem):
    """A question about a decision or a candidate that there is not."""


def ledger(outcome: Outcome, decision: str) -> Choice | Amount | None:
    """Return the ledger of a decision: `pairing`, or a part of one club such as `longer.length`.

    None where nothing was decided: no pair is possible, or the club is his own. Raises InquiryProblem for
    a decision that there is not.
    """
    if decision == "pairing":
        return _pairing(outcome)
    role, _, part = decision.partition(".")
    if role not in ("longer", "shorter") or part not in outcome.house.base.decisions or part == "pairing":
        parts = ", ".join(id for id in outcome.house.base.decisions if id != "pairing")
        raise InquiryProblem(
            f"there is no decision '{decision[:60]}'; there is pairing, and longer. or shorter. with one of "
            f"{parts}"
        )
    club = _club(outcome, role)
    if club is None:
        return None
    return club.direction if part == "ports" else club.rung.decisions.get(part)


def _club(outcome: Outcome, role: str) -> Club | None:
    """Return one of the two clubs; None where there is no pair."""
    return next((club for club in outcome.clubs if club.role == role), None)


def _pairing(outcome: Outcome) -> Choice | None:
    """Return the choice among pairs, with the pair as the fitter changed it in the place of the engine's."""
    picked, choice = outcome.picked, outcome.pairing
    if picked is None or choice is None or outcome.pairs.get(picked.id) is picked:
        return choice
    met = {**outcome.pairs, picked.id: picked}
    return outcome.house.base.choose(
        "pairing", outcome.golfer.views, [pair.candidate for pair in met.values()]
    )


def picked_of(outcome: Outcome, decision: str, found: Choice | Amount) -> str | int | None:
    """Return what stands: the candidate (a person's, where he took it), or the amount in thousandths."""
    if isinstance(found, Amount):
        return found.pick
    if decision == "pairing":
        return outcome.picked.id if outcome.picked else None
    role, _, part = decision.partition(".")
    club = _club(outcome, role)
    pinned = club.rung.pins.get(part) if club else None
    if isinstance(pinned, str) and found.standing(pinned) is not None:
        return pinned
    return found.pick.candidate.id if found.pick else None


@dataclass(frozen=True, slots=True)
class Difference:
    """What one rule gives the pick and the rival."""

    rule: Rule
    mine: Line | None
    """The line of the pick; None where the rule does not speak for it."""
    other: Line | None
    """The line of the rival; None likewise."""

    @property
    def apart(self) -> int:
        """Thousandths of a point by which it speaks for the pick against the rival."""
        return (self.mine.points if self.mine else 0) - (self.other.points if self.other else 0)


@dataclass(frozen=True, slots=True)
class WhyNot:
    """Why a rival was not picked."""

    decision: str
    pick: str
    rival: str
    margin: int
    """Thousandths of a point from pick to rival, negative where the rival has more: the differences add up
    to it."""
    differences: tuple[Difference, ...]
    """Rules that give the two something different, weightiest first."""
    same: int
    """Thousandths of a point that rules give both alike."""
    ruled_out: tuple[Line, ...]
    """Rules that forbid the rival; empty where none does."""


def why_not(outcome: Outcome, decision: str, rival: str) -> WhyNot:
    """Hold the ledger of a rival against that of the pick.

    `rival` is a candidate's id; of the pairing also labels such as `5-wood+4-hybrid` where they name one
    pair. Raises InquiryProblem where there is no such candidate, or nothing to hold it against.
    """
    found = ledger(outcome, decision)
    if isinstance(found, Amount):
        raise InquiryProblem(
            f"{decision} is an amount and not a choice; say the amount you mean, with its unit"
        )
    mine = _standing(outcome, decision, found)
    other = found.standing(_rival_id(outcome, decision, found, rival)) if found else None
    if found is None or mine is None or other is None:
        raise InquiryProblem(f"nothing was decided on {decision}, so there is nothing to hold it against")
    ours, theirs = (_by_rule(one) for one in (mine, other))
    all_of_them = [
        Difference(_rule(ours, theirs, id), ours.get(id), theirs.get(id)) for id in {**ours, **theirs}
    ]
    apart = [one for one in all_of_them if one.apart]
    return WhyNot(
        decision=decision,
        pick=mine.candidate.id,
        rival=other.candidate.id,
        margin=mine.points - other.points,
        differences=tuple(sorted(apart, key=lambda one: (-abs(one.apart), one.rule.id))),
        same=sum(one.mine.points for one in all_of_them if not one.apart and one.mine),
        ruled_out=other.ruled_out,
    )


def _standing(outcome: Outcome, decision: str, found: Choice | None) -> Standing | None:
    """Return the standing of what was picked."""
    pick = picked_of(outcome, decision, found) if found else None
    return found.standing(pick) if found and isinstance(pick, str) else None


def _rival_id(outcome: Outcome, decision: str, found: Choice | None, rival: str) -> str:
    """Return the id of a rival, told by id or by labels."""
    if decision == "pairing":
        try:
            return find_pair(outcome.pairs, rival).id
        except OverrideProblem as problem:
            raise InquiryProblem(str(problem)) from None
    names = [one.candidate.id for one in found.standings] if found else []
    if rival not in names:
        elsewhere = _at_another_place(outcome, rival) if decision.endswith(".head") else ""
        raise InquiryProblem(
            f"'{rival[:60]}' was no candidate for {decision}; {elsewhere}there were {', '.join(names)}"
        )
    return rival


def _at_another_place(outcome: Outcome, head: str) -> str:
    """Say of a head that stood at another place of the ladder what became of it there; else nothing."""
    for rung in outcome.rungs:
        made = rung.decisions.get("head")
        standings = made.standings if isinstance(made, Choice) else ()
        if head not in [one.candidate.id for one in standings]:
            continue
        before = "one head a place is decided before pairs compete, and it stands at another, "
        taken = rung.spec.head.id if rung.spec.head else ""
        if taken != head:
            return f"{before}{rung.id}, where {taken} was taken; "
        pairs = outcome.pairing.standings if outcome.pairing else ()
        best = next((one.candidate.id for one in pairs if rung.id in one.candidate.id.split("+")), None)
        lost = f", whose best pair lost (ask about pairing --instead {best})" if best else ""
        return f"{before}{rung.id}, which it took{lost}; "
    return ""


def _by_rule(standing: Standing) -> dict[str, Line]:
    """Return the lines of a standing by the rule that spoke."""
    return {line.rule.id: line for line in standing.lines if line.rule is not None}


def _rule(ours: dict[str, Line], theirs: dict[str, Line], id: str) -> Rule:
    """Return the rule behind an id of either ledger."""
    rule = (ours.get(id) or theirs[id]).rule
    assert rule is not None
    return rule


@dataclass(frozen=True, slots=True)
class WhyNotAmount:
    """Why an amount is not another."""

    decision: str
    wanted: int
    """Thousandths of the unit."""
    short: int
    """The wanted amount less what was decided, thousandths."""
    against: tuple[Line, ...]
    """Lines that moved it away from the wanted amount, weightiest first."""
    toward: tuple[Line, ...]
    """Lines that moved it toward the wanted amount, likewise."""
    limits: tuple[int, int]
    """What is allowed at all, thousandths."""


def why_not_amount(outcome: Outcome, decision: str, wanted: str) -> WhyNotAmount:
    """Say which lines of an amount's ledger pull away from another amount, typed with its unit.

    Raises InquiryProblem where nothing was decided or the amount cannot be read.
    """
    found = ledger(outcome, decision)
    if not isinstance(found, Amount):
        raise InquiryProblem(f"no amount was decided on {decision}, so there is nothing to hold it against")
    shown = unit(found.decision.unit)
    try:
        target = round(shown.from_si(parse(wanted, shown)) * 1000)
    except UnitError as error:
        raise InquiryProblem(f"{decision}: {error}") from None
    short = target - found.pick
    moved = [line for line in found.lines if line.adjust]
    return WhyNotAmount(
        decision=decision,
        wanted=target,
        short=short,
        against=tuple(line for line in moved if line.adjust * short < 0),
        toward=tuple(line for line in moved if line.adjust * short > 0),
        limits=found.decision.limits,
    )


@dataclass(frozen=True, slots=True)
class Near:
    """A rule that nearly spoke: the one comparison that kept it silent, and how far off it was."""

    rule: Rule
    blocker: Traced
    """The comparison that failed, with the fact as it stood."""
    fact: str
    view: View
    threshold: float | None
    """Where a number would begin to do, SI; None for words."""
    away: float
    """How far the number is from there, as a share of the fact's range; 0.5 for words."""


def nearly(outcome: Outcome, decision: str, candidate: str | None = None, most: int = 6) -> tuple[Near, ...]:
    """Return the rules that one comparison alone kept silent, nearest first.

    Of a choice the rules on `candidate`, else on the pick.
    """
    found = ledger(outcome, decision)
    if found is None:
        return ()
    if isinstance(found, Choice):
        standing = found.standing(candidate) if candidate else _standing(outcome, decision, found)
        silent: Sequence[Silent] = standing.silent if standing else ()
    else:
        silent = found.silent
    near = [one for rule in silent if (one := _near(outcome, rule)) is not None]
    return tuple(sorted(near, key=lambda one: (one.away, one.rule.id))[:most])


def _near(outcome: Outcome, silent: Silent) -> Near | None:
    """Return how near a silent rule was; None where more than one comparison kept it silent."""
    blockers = silent.blockers
    if len(blockers) != 1 or blockers[0].fact is None or blockers[0].view is None:
        return None
    blocker, (fact, view) = blockers[0], (blockers[0].fact, blockers[0].view)
    if view.best is None:
        return None
    atom, declared = blocker.condition, outcome.house.base.facts[fact]
    if declared.kind != "number" or not isinstance(atom, Atom) or atom.op in ("known", "unknown"):
        return Near(silent.rule, blocker, fact, view, None, 0.5)
    bound = outcome.house.base.plan(silent.rule.decision or "").bound(atom)
    value = float(view.best)  # type: ignore[arg-type]
    ends = [end for end in (bound.low, bound.high) if abs(end) != float("inf")]
    threshold = min(ends, key=lambda end: abs(end - value))
    span = (declared.range[1] - declared.range[0]) or 1.0
    return Near(silent.rule, blocker, fact, view, threshold, abs(threshold - value) / span)
