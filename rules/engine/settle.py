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
        total = self._leader.sure - rival.sure
        both, left = self._open(rival)
        while left:
            bit = left & -left
            left ^= bit
            total += self._difference(bit, both, rival)[0]
        return total

    def spans(self, rival: Outcome) -> dict[int, int]:
        """Return, by bit, how far each rule can still move the difference; thousandths."""
        both, left = self._open(rival)
        found = {}
        while left:
            bit = left & -left
            left ^= bit
            low, high = self._difference(bit, both, rival)
            found[bit] = high - low
        return found

    def _open(self, rival: Outcome) -> tuple[int, int]:
        """Return the bits that speak for both or for neither, and all bits that can move the difference."""
        mine = self._leader
        both = mine.unsure & rival.unsure & mine.own_must & rival.own_must
        return both, (mine.unsure | rival.unsure) & ~(both & self._cancels)

    def _difference(self, bit: int, both: int, rival: Outcome) -> tuple[int, int]:
        """Return the least and the greatest difference that one rule can make."""
        mine = self._leader
        if bit & both:
            (low, high), (other_low, other_high) = mine.when_speaking(bit), rival.when_speaking(bit)
            least, most = low - other_high, high - other_low
            certain = mine.must & bit and rival.must & bit
            return (least, most) if certain else (min(0, least), max(0, most))
        low, high = mine.interval(bit) if bit & mine.unsure else (0, 0)
        other_low, other_high = rival.interval(bit) if bit & rival.unsure else (0, 0)
        return low - other_high, high - other_low
