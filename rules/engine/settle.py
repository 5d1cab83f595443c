"""The proof that no open question matters: leader against each rival, rule by rule.

What a rule gives both in equal measure cancels, whatever the answer. For each rule the least difference
between leader and rival over all that could be is added up; the leader is safe where the sum is above
nought, or nought with the static order on its side.
"""

from __future__ import annotations

from collections.abc import Iterable

from rules.engine.evaluate import Outcome


def settled(ranked: Iterable[tuple[Outcome, int]]) -> bool:
    """Return whether the first of several outcomes is proved against all the others.

    Each comes with its place in the static order; the ranking is by best values, ruled out last. No more
    of them are looked at than the answer needs.
    """
    rest = iter(ranked)
    leader, place = next(rest, (None, 0))
    if leader is None:
        return True
    outs = leader.run.plan.rule_outs
    if leader.best & outs:
        return bool(leader.must & outs) and all(outcome.must & outs for outcome, _ in rest)
    if leader.may & outs:
        return False
    proof = Pairwise(leader)
    for rival, rival_place in rest:
        if rival.must & outs:
            continue
        least = proof.least(rival)
        if least < 0 or (least == 0 and rival_place < place):
            return False
    return True


class Pairwise:
    """The leader, ready to be held against rivals."""

    def __init__(self, leader: Outcome) -> None:
        self._leader = leader
        self._cancels = leader.run.plan.scores & ~leader.run.layout.own_ramps
        """Rules that give the same to everyone for whom they speak."""

    def least(self, rival: Outcome) -> int:
        """Return the least difference, leader less rival, over all that could be; thousandths."""
        mine = self._leader
        total = mine.sure - rival.sure
        both = mine.unsure & rival.unsure & mine.own_must & rival.own_must
        """Bits that speak for both or for neither."""
        left = (mine.unsure | rival.unsure) & ~(both & self._cancels)
        while left:
            bit = left & -left
            left ^= bit
            total += self._together(bit, rival) if bit & both else self._apart(bit, rival)
        return total

    def _together(self, bit: int, rival: Outcome) -> int:
        """Return the least difference that a rule can make which speaks for both or for neither."""
        mine = self._leader
        least = mine.when_speaking(bit)[0] - rival.when_speaking(bit)[1]
        return least if mine.must & bit and rival.must & bit else min(0, least)

    def _apart(self, bit: int, rival: Outcome) -> int:
        """Return the least difference that a rule can make which may speak for one and not for the other."""
        low = self._leader.interval(bit)[0] if bit & self._leader.unsure else 0
        high = rival.interval(bit)[1] if bit & rival.unsure else 0
        return low - high
