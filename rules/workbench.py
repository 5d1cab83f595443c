"""The chosen clubs at the bench: ports, pieces, cuts and readings. It comes last and never flies again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.bench import ports
from rules.bench.balance import Balance
from rules.bench.build import Added, Build, up_shaft
from rules.engine import Candidate
from rules.facts.known import Known, views
from rules.ladder.assembly import assemble

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.ledger import Choice
    from rules.engine.views import View
    from rules.facts.golfer import Golfer
    from rules.ladder.rung import Rung
    from rules.shelf import Shelf
    from rules.shelf.parts import Head

_DIRECTIONS = {
    "even": ports.Place(0.0, -0.2, 0.0),
    "heel": ports.Place(-1.0, -0.2, 0.0),
    "toe": ports.Place(1.0, -0.2, 0.0),
}
"""Which way each candidate pulls the centre of mass; a little downward in every case."""


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


def finish(base: RuleBase, shelf: Shelf, golfer: Golfer, role: str, rung: Rung) -> Club:
    """Finish a rung at the bench: decide where mass goes, choose pieces, sum up the readings."""
    spec = rung.spec
    if spec.head is None or spec.shaft is None or spec.grip is None:
        return _own(base, golfer, role, rung)
    bare = assemble(shelf, spec.head, spec.shaft, spec.grip, length=spec.length, tip_extra=spec.tip_extra)
    needed = bare.need(spec.balance)
    choice, towards = _direction(base, rung, needed)
    plan = ports.plan(
        needed, _ports(spec.head), _pieces(shelf), _DIRECTIONS[towards], head_mass=spec.head.mass
    )
    built = bare.with_added(*_added(spec.head, plan))
    left = built.reading.points - spec.balance
    facts = {**_bench_facts(base, rung, spec.length, "yes"), **_sum_facts(base, needed, left)}
    return Club(role, rung, choice, built, built.reading, plan, needed, left, facts)


def _direction(base: RuleBase, rung: Rung, needed: float) -> tuple[Choice, str]:
    """Decide which side of the head takes the mass."""
    seen = {**rung.views, **_sum_facts(base, needed, 0.0)}
    options = [Candidate(name, views(base, {"direction": Known(name)})) for name in _DIRECTIONS]
    choice = base.choose("ports", seen, options)
    return choice, choice.pick.candidate.id if choice.pick else "even"


def _ports(head: Head) -> list[ports.Port]:
    """Return a head's ports as the bench takes them."""
    return [ports.Port(p.name, p.capacity, p.toeward, p.upward, p.backward) for p in head.ports]


def _pieces(shelf: Shelf) -> list[ports.PieceStock]:
    """Return the pieces in stock as the bench takes them."""
    return [ports.PieceStock(p.mass, p.count, p.fits) for p in shelf.pieces if p.in_stock]


def _added(head: Head, plan: ports.PortPlan) -> list[Added]:
    """Return the planned mass, port by port, where it sits along the shaft."""
    return [
        Added(plan.plan[p.name], up_shaft(p.toeward, p.upward, head.lie), p.name)
        for p in head.ports
        if plan.plan.get(p.name)
    ]


def _sum_facts(base: RuleBase, needed: float, left: float) -> dict[str, View]:
    """Return what the bench's sums say, held within their declared ranges."""
    held = {}
    for id, value in (("mass_needed", needed), ("balance_left", left)):
        low, high = base.facts[id].range
        held[id] = Known(min(high, max(low, value)))
    return views(base, held)


def _bench_facts(base: RuleBase, rung: Rung, length: float, work: str) -> dict[str, View]:
    """Return the facts that cautions of the bench read."""
    fit = rung.views["tip_fit"].best if "tip_fit" in rung.views else "unknown"
    known = {
        "bench_cut": Known(rung.cut),
        "bench_length": Known(length),
        "bench_tip_fit": Known(fit),
        "bench_work": Known(work),
    }
    return views(base, known)


def _own(base: RuleBase, golfer: Golfer, role: str, rung: Rung) -> Club:
    """Return one of his own clubs: nothing is known of its parts, so nothing is summed."""
    facts = _bench_facts(base, rung, rung.spec.length, "yes" if rung.cut else "no")
    return Club(role, rung, None, None, None, None, 0.0, 0.0, {**facts, **_sum_facts(base, 0.0, 0.0)})
