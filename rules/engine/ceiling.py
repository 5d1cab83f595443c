"""How many points a candidate joined from parts may get at most, told from its parts without joining them.

Most rules read one part of a candidate and no other: what they give is known as soon as the part is. Of the
few others the most that they may give is taken. A candidate whose most is less than what another has need
not be counted at all.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rules.engine.joined import Part
    from rules.engine.plan import Plan


class Ceiling:
    """Which rules of a plan read parts of one sort alone, and what the others may give."""

    def __init__(self, plan: Plan, own: Collection[str], sorts: Mapping[str, Collection[str]]) -> None:
        """`own` names the facts that are not on the ground, `sorts` those that parts of each sort hold.

        A rule that reads none of them counts with the first sort.
        """
        self._plan = plan
        self._alone = dict.fromkeys(sorts, 0)
        self._others = 0
        for rule in plan.rules:
            reads = rule.reads.intersection(own)
            sort = next((sort for sort, ids in sorts.items() if reads <= set(ids)), None)
            if sort is None:
                self._others |= plan.bits[rule.id]
            else:
                self._alone[sort] |= plan.bits[rule.id]
        self._tops = [
            (bit, max(0, *(result for _, result in one.ramp.at)))
            for bit, one in plan.scored.items()
            if one.ramp is not None and bit & self._others
        ]

    def alone(self, sort: str, part: Part, shared: Collection[tuple[int, int]]) -> int | None:
        """Return what rules that read parts of this sort alone give for one, thousandths.

        None where one of them rules out. `shared` is what ramps on the ground give, by bit.
        """
        plan, mask = self._plan, part.mask & self._alone[sort]
        if mask & plan.rule_outs:
            return None
        mask = plan.once(mask)
        return plan.fixed.sum(mask) + sum(gives for bit, gives in (*shared, *part.ramps) if bit & mask)

    def others(self, part: Part) -> int:
        """Return the most that all other rules may give a candidate with this part, thousandths."""
        mask = self._plan.once(part.mask & self._others)
        return self._plan.fixed_most.sum(mask) + sum(top for bit, top in self._tops if bit & mask)
