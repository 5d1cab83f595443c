"""What could be, against brute force: every completion of small random worlds, told one by one."""

from __future__ import annotations

import itertools
import math
import os
from collections.abc import Iterator
from pathlib import Path
from random import Random
from runpy import run_path
from types import SimpleNamespace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.engine import ABSENT, Candidate, RuleBase, View
from rules.engine.cases import unfold
from rules.engine.language import Assumed, Fact, Rule, Source, atoms
from rules.engine.settle import Pairwise
from rules.engine.truth import MAY
from rules.engine.views import Value, point

ENGINE = Path(__file__).parents[1] / "engine"
worlds = SimpleNamespace(**run_path(str(ENGINE / "engine_worlds.py"), run_name="engine_worlds"))
plainly = SimpleNamespace(**run_path(str(ENGINE / "engine_plain.py"), run_name="engine_plain"))
MANY = settings(max_examples=int(os.environ.get("TURFPAIR_EXAMPLES", "40")), deadline=None)
RANDOM = st.randoms(use_true_random=True)
SOURCE = Source("common_practice", {})


def thresholds(base: RuleBase, id: str) -> list[float]:
    """Every number that some rule compares a fact with, or at which a ramp along it turns."""
    found: set[float] = set()
    for rule in base.rules.values():
        for atom in atoms(rule.when):
            if atom.fact == id and atom.op not in ("known", "unknown"):
                ends: Any = atom.value if isinstance(atom.value, tuple) else (atom.value,)
                found |= {
                    float(base.assumptions[end.id].value if isinstance(end, Assumed) else end)  # type: ignore[arg-type]
                    for end in ends
                }
        if rule.effect.ramp is not None and rule.effect.ramp.fact == id:
            found |= set(rule.effect.ramp.xs)
    return sorted(found)


def permitted(base: RuleBase, fact: Fact, could_be: Any) -> list[Value]:
    """Every value that can make a difference among those that could be."""
    if fact.kind == "choice":
        return sorted(could_be)
    if fact.kind == "set":
        must, may = could_be
        more = sorted(may - must)
        return [
            must | frozenset(some) for n in range(len(more) + 1) for some in itertools.combinations(more, n)
        ]
    low, high = could_be
    near = 1e-6 * (fact.range[1] - fact.range[0])
    told = {low, high}
    for at in thresholds(base, fact.id):
        told |= {x for x in (at - near, at, at + near) if low <= x <= high}
    return sorted(told)


def answers(base: RuleBase, fact: Fact, open_view: View) -> Iterator[View]:
    """Every way an open question can be closed: told, assumed, or without a value where that may be."""
    could_be = fact.widest if open_view.could_be is None else open_view.could_be
    for value in permitted(base, fact, could_be):
        yield View(value, point(value), "known", "said")
        yield View(value, point(value), "unknown", "assumed")
    if open_view.best is None or (fact.ask is not None and fact.ask.applies is not None):
        yield ABSENT


def small(rng: Random, facts: int = 3, rules: int = 5) -> tuple[RuleBase, dict[str, View]]:
    """A random base of few facts, and a view of each: about half of them open."""
    base = worlds.load_rows(worlds.Maker(rng, facts=facts, rules=rules).rows())
    return base, {id: worlds.view(rng, base, fact, 0.5) for id, fact in sorted(base.facts.items())}


def completions(base: RuleBase, views: dict[str, View], most: int = 400) -> Iterator[dict[str, View]]:
    """Every completion of the open facts, as far as they are not too many."""
    closing = {
        id: list(answers(base, base.facts[id], view)) for id, view in views.items() if view.status == "open"
    }
    for told in itertools.islice(itertools.product(*closing.values()), most):
        yield {**views, **dict(zip(closing, told, strict=True))}


@given(RANDOM)
@MANY
def test_a_comparison_can_turn_out_exactly_as_some_answer_makes_it(rng: Random) -> None:
    base, views = small(rng, facts=4)
    choice = base.choose("which", views, [Candidate("one", {})])
    (standing,) = choice.standings
    traced: list[Any] = [line.conditions for line in (*standing.lines, *standing.ruled_out)]
    traced += [quiet.conditions for quiet in standing.silent]
    for conditions in traced:
        for told in conditions.atoms():
            view = told.view
            if view.status != "open" or told.condition.op in ("known", "unknown"):
                continue
            fact = base.facts[told.fact]
            could_be = fact.widest if view.could_be is None else view.could_be
            ways = {
                plainly._compare(base, told.condition, View(value))
                for value in permitted(base, fact, could_be)
            }
            assert bool(told.truth & MAY) == (True in ways)
            assert bool(told.truth & MAY << 3) == (False in ways)
            assert told.could == "undetermined"


@given(RANDOM)
@MANY
def test_every_completion_lies_within_what_may_and_must_and_the_bounds(rng: Random) -> None:
    base, views = small(rng)
    (standing,) = base.choose("which", views, [Candidate("one", {})]).standings
    outcome, plan = standing.outcome, base.plan("which")
    amount = base.amount("gap", views)
    for told in completions(base, views):
        (after,) = base.choose("which", told, [Candidate("one", {})]).standings
        for rule in plan.rules:
            speaks = bool(after.outcome.best & plan.bits[rule.id])
            assert speaks <= bool(outcome.may & plan.bits[rule.id]), rule
            assert speaks >= bool(outcome.must & plan.bits[rule.id]), rule
        assert standing.low <= (-math.inf if after.is_ruled_out else after.points) <= standing.high or (
            after.is_ruled_out and standing.low == -math.inf
        )
        assert amount.low <= base.amount("gap", told).pick <= amount.high


@given(RANDOM)
@MANY
def test_of_one_fact_just_those_rules_may_speak_that_some_answer_lets_speak(rng: Random) -> None:
    """One fact, nothing to hang together with: what may speak is exact, and so are the bounds."""
    base = worlds.load_rows(worlds.Maker(rng, facts=1, rules=6).rows())
    (fact,) = base.facts.values()
    view = worlds.view(rng, base, fact, 1.0)
    could_be = fact.widest if view.could_be is None else view.could_be
    (standing,) = base.choose("which", {fact.id: view}, [Candidate("one", {})]).standings
    ways = [ABSENT]
    for value in permitted(base, fact, could_be):
        ways += [View(value), View(value, point(value), "unknown", "assumed")]
    plan = base.plan("which")
    for rule in plan.rules:
        some = any(plainly.gives(base, rule, {fact.id: way}) is not None for way in ways)
        assert bool(standing.outcome.may & plan.bits[rule.id]) == some, (rule, view)


def certain(base: RuleBase, rule: Rule, views: dict[str, View]) -> bool:
    """Whether a case of a rule reads no open fact, holds, and follows no fact that may end up absent."""
    ramp = rule.effect.ramp
    if ramp is not None:
        view, ask = views.get(ramp.fact, ABSENT), base.facts[ramp.fact].ask
        gone = ask is not None and ask.applies is not None
        if view.best is None or (view.status == "open" and gone):
            return False
    return any(
        all(
            views.get(atom.fact, ABSENT).status != "open"
            and plainly._compare(base, atom, views.get(atom.fact, ABSENT)) is wanted
            for atom, wanted in case
        )
        for case in unfold(rule.when)
    )


@given(RANDOM)
@MANY
def test_just_those_rules_must_speak_that_hang_on_no_open_fact(rng: Random) -> None:
    base, views = small(rng, facts=4)
    (standing,) = base.choose("which", views, [Candidate("one", {})]).standings
    plan = base.plan("which")
    for rule in plan.rules:
        assert bool(standing.outcome.must & plan.bits[rule.id]) == certain(base, rule, views), rule


@given(RANDOM)
@MANY
def test_settled_holds_under_every_completion_there_is(rng: Random) -> None:
    """The first of equal points wins: brute force knows of nothing but points and places."""
    base = worlds.load_rows(worlds.Maker(rng, facts=4, rules=5).rows())
    shared = {id: worlds.view(rng, base, base.facts[id], 0.5) for id in ("f0", "f1")}
    own = [
        Candidate(f"c{i}", {id: worlds.view(rng, base, base.facts[id], 0.2) for id in ("f2", "f3")})
        for i in range(3)
    ]
    choice = base.choose("which", shared, own)
    if not choice.settled:
        return
    first = choice.pick.candidate.id if choice.pick else None
    for told in completions(base, shared, 60):
        ways = [list(completions(base, dict(one.views), 6)) for one in own]
        for closed in itertools.islice(itertools.product(*ways), 40):
            views = [{**one, **told} for one in closed]
            points = [
                [plainly.gives(base, rule, seen) for rule in base.rules.values() if rule.decision == "which"]
                for seen in views
            ]
            out = [
                any(
                    rule.effect.kind == "rule_out" and plainly.gives(base, rule, seen) is not None
                    for rule in base.rules.values()
                )
                for seen in views
            ]
            sums = [
                -math.inf if gone else sum(x or 0 for x in given)
                for gone, given in zip(out, points, strict=True)
            ]
            best = max(range(3), key=lambda i: (sums[i], -i))
            assert first == (None if out[best] else f"c{best}")


@given(RANDOM)
@MANY
def test_no_answer_makes_a_lead_smaller_than_the_proof_says(rng: Random) -> None:
    world = worlds.world(rng, open_share=0.4, candidates=3)
    first, *rivals = world.base.choose("which", world.shared, world.candidates).standings
    proof = Pairwise(first.outcome)
    for _ in range(6):
        told = worlds.completed(rng, world.base, world.shared)
        closed = [Candidate(c.id, worlds.completed(rng, world.base, c.views)) for c in world.candidates]
        after = world.base.choose("which", told, closed)
        points = {s.candidate.id: s.points for s in after.standings}
        for rival in rivals:
            lead = points[first.candidate.id] - points[rival.candidate.id]
            assert proof.least(rival.outcome) <= lead
