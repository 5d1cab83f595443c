"""The chosen clubs at the bench: ports, pieces and cuts. It comes last and never flies again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench import ports
from rules.engine import Candidate
from rules.facts.known import Known, views
from rules.ladder.options import Option
from rules.ladder.stocked import bare_club
from rules.shelf import on_bench
from rules.workbench.mass import plan_mass

if TYPE_CHECKING:
    from rules.bench.balance import Balance
    from rules.bench.build import Build
    from rules.engine import RuleBase
    from rules.engine.ledger import Choice
    from rules.engine.views import View
    from rules.facts.golfer import Golfer
    from rules.ladder.judge import Judge
    from rules.ladder.rung import Rung
    from rules.shelf import Shelf

DIRECTIONS: Mapping[str, ports.Place | None] = {
    "even": None,
    "heel": ports.Place(-1.0, -0.2, 0.0),
    "toe": ports.Place(1.0, -0.2, 0.0),
}
"""Which way each candidate pulls the centre of mass; even moves it least to heel or toe."""


@dataclass(frozen=True, slots=True)
class Club:
    """One of the two clubs as it leaves the bench on paper."""

    role: str
    rung: Rung
    direction: Choice | None
    """The decision on where the mass goes; None for a club that is left as it is."""
    build: Build | None
    """The finished build, pieces and all; None for an owned club whose parts are not known."""
    reading: Balance | None
    plan: ports.PortPlan | None
    needed: float
    """Mass that the target balance asks for, kg; negative when the head is too heavy already."""
    left: float
    """Swing weight of the build less its target, points."""
    views: Mapping[str, View]

    @property
    def target(self) -> float:
        """Target swing weight, points from D0."""
        return self.rung.spec.balance

    @property
    def towards(self) -> ports.Place | None:
        """The way its mass was to go."""
        pick = self.direction.pick if self.direction else None
        return DIRECTIONS[pick.candidate.id] if pick else None


def finish(base: RuleBase, shelf: Shelf, golfer: Golfer, role: str, rung: Rung) -> Club:
    """Finish a rung at the bench: decide where mass goes, choose pieces that are on the shelf, sum up."""
    spec = rung.spec
    if spec.head is None or spec.shaft is None or spec.grip is None:
        return _own(base, role, rung)
    bare = on_bench.club(spec.head, spec.shaft, spec.grip, spec.length, shelf, spec.tip_extra)
    choice, towards = _direction(base, rung, bare.need(spec.balance))
    made = plan_mass(bare, spec.head, shelf.pieces, spec.balance, DIRECTIONS[towards])
    facts = {**_bench_facts(base, rung, "yes"), **_sum_facts(base, made.needed, made.left)}
    return Club(role, rung, choice, made.build, made.build.reading, made.plan, made.needed, made.left, facts)


def _direction(base: RuleBase, rung: Rung, needed: float) -> tuple[Choice, str]:
    """Decide which side of the head takes the mass."""
    seen = {**rung.views, **_sum_facts(base, needed, 0.0)}
    options = [Candidate(name, views(base, {"direction": Known(name)})) for name in DIRECTIONS]
    choice = base.choose("ports", seen, options)
    return choice, choice.pick.candidate.id if choice.pick else "even"


def towards(judge: Judge, rung: Rung) -> str | None:
    """Return which side of the head would take a rung's mass, on best values; None for one of his own."""
    spec = rung.spec
    if spec.head is None or spec.shaft is None or spec.grip is None:
        return None
    bare = bare_club(judge, spec.head, spec.shaft, spec.grip, spec.length, spec.tip_extra)
    low, high = judge.base.facts["mass_needed"].range
    sums = {"mass_needed": Known(min(high, max(low, bare.need(spec.balance)))), "balance_left": Known(0.0)}
    options = judge.house.once(
        ("directions",),
        lambda: [Option(one, one, judge.views({"direction": Known(one)}), {}) for one in DIRECTIONS],
    )
    return judge.choose("ports", {**rung.own, **judge.views(sums)}, options)[0] or "even"


def _sum_facts(base: RuleBase, needed: float, left: float) -> dict[str, View]:
    """Return what the bench's sums say, held within their declared ranges."""
    held = {}
    for id, value in (("mass_needed", needed), ("balance_left", left)):
        low, high = base.facts[id].range
        held[id] = Known(min(high, max(low, value)))
    return views(base, held)


def _bench_facts(base: RuleBase, rung: Rung, work: str) -> dict[str, View]:
    """Return the facts that cautions of the bench read."""
    fit = rung.views["tip_fit"].best if "tip_fit" in rung.views else "unknown"
    known = {
        "bench_cut": Known(rung.cut),
        "bench_length": Known(rung.spec.length),
        "bench_tip_fit": Known(fit),
        "bench_work": Known(work),
    }
    return views(base, known)


def _own(base: RuleBase, role: str, rung: Rung) -> Club:
    """Return one of his own clubs: nothing is known of its parts, so nothing is summed."""
    facts = _bench_facts(base, rung, "yes" if rung.cut else "no")
    return Club(role, rung, None, None, None, None, 0.0, 0.0, {**facts, **_sum_facts(base, 0.0, 0.0)})
