"""The proof that no open question matters: leader against each rival, rule by rule.

What a rule gives both in equal measure cancels, whatever the answer. For each rule the least difference
between leader and rival over all that could be is added up; the leader is safe where the sum is above
nought, or nought with the static order on its side.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import TYPE_CHECKING

from rules.engine.evaluate import Masks, Outcome, Run
from rules.engine.plan import Plan

if TYPE_CHECKING:
    from rules.engine.ledger import Standing


def settled(run: Run, standings: Sequence[Standing]) -> bool:
    """Return whether the pick is proved against every rival."""
    if not standings:
        return True
    leader = standings[0]
    outs = run.plan.rule_outs
    if leader.is_ruled_out:
        return all(s._outcome.masks.must & outs for s in standings)
    if leader._outcome.masks.may & outs:
        return False
    pairwise = Pairwise(run, leader._outcome)
    for rival in standings[1:]:
        if rival._outcome.masks.must & outs:
            continue
        least = pairwise.least(rival._outcome)
        if least < 0 or (least == 0 and rival._place < leader._place):
            return False
    return True


class Pairwise:
    """The leader's evaluation, ready to be held against rivals."""

    def __init__(self, run: Run, leader: Outcome) -> None:
        self._run, self._leader = run, leader
        self._intervals = run.intervals(leader.masks, leader.seen)
        self._shared_only = shared_only(run)

    def least(self, rival: Outcome) -> float:
        """Return the least difference, leader less rival, over all that could be; thousandths."""
        mine, theirs = self._intervals, self._run.intervals(rival.masks, rival.seen)
        if mine.keys() == theirs.keys() and not mine:
            return 0
        total = 0.0
        for bit in mine.keys() | theirs.keys():
            total += self._rule(bit, mine, theirs, rival)
        return total

    def _rule(
        self, bit: int, mine: dict[int, tuple[int, int]], theirs: dict[int, tuple[int, int]], rival: Outcome
    ) -> float:
        """Return the least difference that one rule can make."""
        if bit & self._shared_only:
            return 0
        low, high = mine.get(bit, (0, 0))[0], theirs.get(bit, (0, 0))[1]
        if bit not in mine or bit not in theirs:
            return low - high
        return max(low - high, self._together(bit, rival))

    def _together(self, bit: int, rival: Outcome) -> float:
        """Return the least difference where the open part of a rule is shared, so both speak or neither.

        -inf where that is not so: then nothing better than the plain bounds is known.
        """
        run = self._run
        own_mine, own_theirs = own_certain(run, self._leader, bit), own_certain(run, rival, bit)
        if not (own_mine and own_theirs):
            return -inf
        _, ramp, place = run.layout.effects[bit]
        if ramp is None or place < 0:
            return 0
        mine = ramp_of(run, ramp, self._leader.seen[place])
        theirs = ramp_of(run, ramp, rival.seen[place])
        return min(0, mine[0] - theirs[1]) if not run.shared_masks.must & bit else mine[0] - theirs[1]


def ramp_of(run: Run, ramp: object, view: object) -> tuple[int, int]:
    """Return the extremes of a ramp on one candidate's own fact."""
    from rules.engine.plan import ramp_interval

    return ramp_interval(ramp, view, run.plan.facts[ramp.fact].range)  # type: ignore[arg-type, attr-defined]


def own_certain(run: Run, outcome: Outcome, bit: int) -> bool:
    """Return whether a case's conditions on the candidate's own facts are certain to hold."""
    plan: Plan = run.plan
    for id, view in zip(run.layout.own_ids, outcome.seen, strict=True):
        rows = plan.rows[id]
        held = rows.must(view) if view.status == "open" else rows.best(view)
        if not held & bit:
            return False
    return True


def shared_only(run: Run) -> int:
    """Return the bits of the rules that read nothing but shared facts."""
    own = set(run.layout.own_ids)
    plan = run.plan
    found = 0
    for bit, scored in plan.scored.items():
        if not scored.rule.reads & own:
            found |= bit
    return found


__all__ = ["Masks", "Pairwise", "settled"]
