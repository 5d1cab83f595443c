"""Many roads of one golfer: the same rules run again with an answer, a fact, a value or a rule changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from copy import copy
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.fitting import briefly, judged
from rules.inquiry.sky import Sky
from rules.problems import Problem
from rules.units import unit

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.answers import Answer
    from rules.facts.subject import Subject
    from rules.fitting import Brief, House
    from rules.ladder.rung import Rung

Picked = float | str
"""What was decided: an amount (SI), or the id of a candidate."""
Stale = Callable[[], bool]
"""Says whether nobody waits for the answer any more."""
_MOST_KEPT = 512
"""Roads kept, for when all that they hang on comes back."""
PARTS = ("head", "length", "balance", "shaft", "tip", "grip", "lie", "ports")
"""What is decided of each club, in order."""


class Superseded(Exception):  # noqa: N818  # no fault: a newer request took its place
    """The answer is not wanted any more, because a newer question was asked."""


def never() -> bool:
    """Say that the answer is still wanted."""
    return False


@dataclass(frozen=True, slots=True)
class Road:
    """What one road came to."""

    pick: str | None
    """Id of the pair; None where no pair is possible."""
    decided: Mapping[str, Picked]
    """Every decision by its id, such as `pairing` or `longer.length`; clubs of his own have none."""
    points: Mapping[str, int | None]
    """Of the pairs that the roads were to tell of, thousandths; None where it is ruled out."""
    lofts: tuple[tuple[str, float], ...] = ()
    """Type and loft (rad) of the longer and of the shorter club."""

    def margin(self, one: str, other: str) -> int | None:
        """Return the points of one pair less those of another, thousandths; None where either has none."""
        mine, theirs = self.points.get(one), self.points.get(other)
        return None if mine is None or theirs is None else mine - theirs


class Roads:
    """Runs roads of one golfer on best values alone; flights come from surfaces that all of them share."""

    def __init__(
        self, house: House, subject: Subject, density: float, stale: Stale = never, *, rounded: bool = False
    ) -> None:
        """`density` is the air of the golfer's own road, kg/m3; `rounded` as in `Sky`."""
        # Roads may be run in a thread of their own: what is kept between roads is kept for this run alone.
        self.house = house.apart()
        self.subject = replace(subject, overrides={})
        self.sky = Sky(density, rounded=rounded)
        self.stale = stale
        self.count = 0
        """Roads run so far."""
        self._told: frozenset[str] = frozenset()

    def telling(self, *pairs: str | None) -> Roads:
        """Have each road from now on tell the points of some pairs: those of all are too much to keep."""
        told = frozenset(pair for pair in pairs if pair is not None)
        if told != self._told:
            self._told = told
            self.house.recent.pop("road", None)
        return self

    def counted_anew(self) -> Roads:
        """Return the same roads, with all that is kept of them, none of them counted yet."""
        again = copy(self)
        again.count = 0
        return again

    def run(
        self, answers: Mapping[str, Answer | None] | None = None, shift: Mapping[str, float] | None = None
    ) -> Road:
        """Run a road with some answers changed (None takes one away) and derived facts shifted.

        Raises Superseded when nobody waits for it any more.
        """
        return self.in_house(self.house, answers, shift)

    def in_house(
        self, house: House, answers: Mapping[str, Answer | None] | None = None,
        shift: Mapping[str, float] | None = None, sky: Sky | None = None,
    ) -> Road:  # fmt: skip
        """Run a road under another rule base, from another shelf or in another sky."""
        if self.stale():
            raise Superseded
        self.count += 1
        subject = with_answers(self.subject, answers) if answers else self.subject
        try:
            judge = judged(house, subject, shift)
            flier = (sky or self.sky)(judge.golfer.density)
            kept = house.lately("road", (flier, subject.owned, *judge.hangs_on), _MOST_KEPT)
            if not kept:
                kept["road"] = self._road(briefly(judge, subject, flier))
        except Problem:
            return Road(None, {}, {})
        return kept["road"]  # type: ignore[no-any-return]

    def _road(self, found: Brief) -> Road:
        """Return what a brief road came to."""
        points = {pair: found.points[pair] for pair in self._told if pair in found.points}
        if found.picked is None:
            return Road(None, {}, points)
        both = (found.picked.longer, found.picked.shorter)
        lofts = tuple((rung.kind, rung.spec.loft) for rung in both)
        return Road(found.picked.id, decided(found), points, lofts)


def with_answers(subject: Subject, answers: Mapping[str, Answer | None]) -> Subject:
    """Return a subject with some answers changed; None takes one away."""
    changed = {**subject.answers, **answers}
    return replace(subject, answers={id: one for id, one in changed.items() if one is not None})


def decided(found: Brief) -> dict[str, Picked]:
    """Return every decision of a road by its id."""
    pair = found.picked
    if pair is None:
        return {}
    made: dict[str, Picked] = {"pairing": pair.id}
    for role, rung, ports in (
        ("longer", pair.longer, found.ports[0]), ("shorter", pair.shorter, found.ports[1])
    ):  # fmt: skip
        made |= {f"{role}.{part}": pick for part, pick in _of_rung(rung, ports).items()}
    return made


def _of_rung(rung: Rung, ports: str | None) -> dict[str, Picked]:
    """Return the decisions of one club; one of his own has none."""
    spec = rung.spec
    if spec.head is None or spec.shaft is None or spec.grip is None:
        return {}
    return {
        "head": spec.head.id,
        "length": spec.length,
        "balance": spec.balance,
        "shaft": spec.shaft.id,
        "tip": spec.tip_extra,
        "grip": spec.grip.id,
        "lie": spec.lie,
        "ports": ports or "even",
    }


def differs(base: RuleBase, decision: str, one: Picked | None, other: Picked | None) -> bool:
    """Say whether two outcomes of a decision differ by more than its materiality."""
    if isinstance(one, str) or isinstance(other, str) or one is None or other is None:
        return one != other
    declared = base.decisions[decision.rpartition(".")[2]]
    if declared.kind == "choice":
        return abs(one - other) > 1e-9
    apart = abs(unit(declared.unit).from_si(one) - unit(declared.unit).from_si(other))
    return apart * 1000 > declared.materiality + 0.5


def changes(base: RuleBase, before: Road, after: Road) -> tuple[str, ...]:
    """Return the decisions that differ between two roads.

    Where the pair changed, its clubs are others, so that only the pairing is named.
    """
    if before.pick != after.pick:
        return ("pairing",)
    return tuple(id for id, pick in before.decided.items() if differs(base, id, pick, after.decided.get(id)))
