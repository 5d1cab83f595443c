"""The audit trail: what a run decided and by which rules, small enough to be kept, and held to a later run.

What is kept is enough to say what a decision was and what each rule gave it; what another candidate would
have had by those rules is not in it, and only the rules of then can tell.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from rules.engine.ledger import Amount
from rules.inquiry.ledgers import ledger, picked_of
from rules.inquiry.roads import PARTS

if TYPE_CHECKING:
    from rules.engine import Line
    from rules.engine.ledger import Choice
    from rules.fitting import Outcome

DECISIONS = ("pairing", *(f"{role}.{part}" for role in ("longer", "shorter") for part in PARTS))
"""Every decision there is, in order."""


@dataclass(frozen=True, slots=True)
class Decided:
    """What one run decided."""

    picks: Mapping[str, str] = field(default_factory=dict)
    """By decision the candidate, or the amount with its unit."""
    spoke: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    """By decision what each rule gave it, points or its unit; start, limit and rounding among them."""


@dataclass(frozen=True, slots=True)
class Said:
    """What one rule gave a decision then and gives it now; None where it does not speak."""

    rule: str
    then: float | None
    now: float | None


@dataclass(frozen=True, slots=True)
class Moved:
    """A decision that comes out otherwise than it was kept."""

    decision: str
    before: str | None
    """The candidate or amount of then; None where nothing was decided."""
    after: str | None
    rules: tuple[Said, ...]
    """Rules that give what was decided then something else now, weightiest first."""
    gone: bool
    """Whether what was decided then can no longer be chosen at all: no such candidate, or ruled out."""


def decided(outcome: Outcome) -> Decided:
    """Return what a run decided, to be kept."""
    picks: dict[str, str] = {}
    spoke: dict[str, Mapping[str, float]] = {}
    for id in DECISIONS:
        found = ledger(outcome, id)
        pick = None if found is None else picked_of(outcome, id, found)
        if found is not None and pick is not None:
            picks[id] = _amount(found) if isinstance(found, Amount) else str(pick)
            spoke[id] = given(found, str(pick)) or {}
    return Decided(picks, spoke)


def moved(kept: Decided, outcome: Outcome) -> tuple[Moved, ...]:
    """Return the decisions that come out otherwise than they were kept, the pair first.

    Where the pair is another its clubs are others too, so that no rule is named for their parts.
    """
    now = decided(outcome)
    changed = [id for id in DECISIONS if kept.picks.get(id) != now.picks.get(id)]
    other_clubs = "pairing" in changed
    return tuple(_moved(kept, now, outcome, id, named=id == "pairing" or not other_clubs) for id in changed)


def otherwise(kept: Decided, outcome: Outcome, decision: str) -> tuple[Said, ...]:
    """Return the rules that give what was decided then something else now; none where it cannot be had."""
    then, found = kept.picks.get(decision), ledger(outcome, decision)
    there = None if then is None or found is None else given(found, then)
    return () if there is None else _told_apart(kept.spoke.get(decision, {}), there)


def _moved(kept: Decided, now: Decided, outcome: Outcome, id: str, *, named: bool) -> Moved:
    """Return one decision that comes out otherwise; `named` asks which rules speak otherwise."""
    then, found = kept.picks.get(id), ledger(outcome, id)
    there = found is not None and then is not None and given(found, then) is not None
    rules = otherwise(kept, outcome, id) if named else ()
    return Moved(id, then, now.picks.get(id), rules, named and then is not None and not there)


def _amount(found: Amount) -> str:
    """Write an amount with its unit, exactly as far as thousandths go."""
    return f"{found.pick / 1000:.3f}".rstrip("0").rstrip(".") + (f" {found.decision.unit}").rstrip()


def given(found: Choice | Amount, candidate: str) -> dict[str, float] | None:
    """Return what each line gives an amount, or a candidate of a choice; None where it cannot be chosen."""
    if isinstance(found, Amount):
        moves = {_name(line): line.adjust / 1000 for line in found.lines if line.kind != "start"}
        return {"start": found.start / 1000, **{name: by for name, by in moves.items() if by}}
    standing = found.standing(candidate)
    if standing is None or standing.is_ruled_out:
        return None
    return {_name(line): line.points / 1000 for line in standing.lines if line.points}


def _name(line: Line) -> str:
    return line.rule.id if line.rule is not None else line.kind


def _told_apart(then: Mapping[str, float], now: Mapping[str, float]) -> tuple[Said, ...]:
    """Return what is given otherwise, the greatest difference first."""
    both = [Said(id, then.get(id), now.get(id)) for id in dict.fromkeys((*then, *now))]
    apart = [one for one in both if abs((one.then or 0.0) - (one.now or 0.0)) > 5e-4]
    return tuple(sorted(apart, key=lambda one: (-abs((one.then or 0.0) - (one.now or 0.0)), one.rule)))
