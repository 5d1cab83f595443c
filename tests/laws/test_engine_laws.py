"""Laws of the rule engine, held on random rule bases and random subjects."""

from __future__ import annotations

import math
import os
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.engine import Candidate, RuleBaseFaults
from rules.engine.amounts import final
from rules.engine.truth import BEST, MAY, MUST, opposite
from tests.engine import engine_plain, engine_worlds

worlds: Any = engine_worlds
plainly: Any = engine_plain
MANY = settings(max_examples=int(os.environ.get("TURFPAIR_EXAMPLES", "60")), deadline=None)
"""Set TURFPAIR_EXAMPLES for a long run."""
RANDOM = st.randoms(use_true_random=True)


def standings(choice: Any) -> dict[str, tuple[int, bool]]:
    """Points of every candidate, and whether it is ruled out."""
    return {s.candidate.id: (s.points, s.is_ruled_out) for s in choice.standings}


def decided(base: Any, world: Any) -> tuple[Any, int]:
    """The standings of the choice and the pick of the amount."""
    choice = base.choose("which", world.shared, world.candidates)
    amount = base.amount("gap", world.all_views(world.candidates[0]))
    return [(s.candidate.id, s.points, s.is_ruled_out) for s in choice.standings], amount.pick


@given(RANDOM)
@MANY
def test_the_engine_agrees_with_a_plain_evaluator(rng: Random) -> None:
    world = worlds.world(rng)
    choice = world.base.choose("which", world.shared, world.candidates)
    for standing in choice.standings:
        views = world.all_views(standing.candidate)
        for rule in world.base.rules.values():
            if rule.decision != "which":
                continue
            plain = plainly.gives(world.base, rule, views)
            spoke = [line for line in (*standing.lines, *standing.ruled_out) if line.rule is rule]
            assert (plain is not None) == bool(spoke), rule
            if spoke and rule.effect.kind == "points":
                assert abs(spoke[0].points - (plain or 0)) <= 1


@given(RANDOM)
@MANY
def test_ledgers_add_up(rng: Random) -> None:
    world = worlds.world(rng)
    choice = world.base.choose("which", world.shared, world.candidates)
    for standing in choice.standings:
        assert sum(line.points for line in standing.lines) == standing.points
        spoke = {line.rule.id for line in (*standing.lines, *standing.ruled_out)}
        silent = {quiet.rule.id for quiet in standing.silent}
        assert spoke | silent == {r.id for r in world.base.rules.values() if r.decision == "which"}
        assert not spoke & silent
    amount = world.base.amount("gap", world.all_views(world.candidates[0]))
    assert amount.start + sum(line.adjust for line in amount.lines) == amount.pick
    assert amount.decision.limits[0] <= amount.pick <= amount.decision.limits[1]
    assert amount.pick % amount.decision.step == 0
    assert amount.low <= amount.pick <= amount.high


@given(RANDOM)
@MANY
def test_a_rule_that_is_not_in_the_trace_changes_nothing(rng: Random) -> None:
    world = worlds.world(rng, candidates=1)
    choice = world.base.choose("which", world.shared, world.candidates)
    before = decided(world.base, world)
    for quiet in choice.standings[0].silent:
        assert decided(world.base.without(quiet.rule.id), world) == before
    for quiet in world.base.amount("gap", world.all_views(world.candidates[0])).silent:
        assert decided(world.base.without(quiet.rule.id), world) == before


@given(RANDOM)
@MANY
def test_no_order_matters(rng: Random) -> None:
    world = worlds.world(rng)
    rows = dict(world.rows)
    for kind in ("assumption", "fact", "decision", "rule"):
        rows[kind] = rng.sample(rows[kind], len(rows[kind]))
    shuffled = worlds.load_rows(dict(rng.sample(list(rows.items()), len(rows))))
    turned = worlds.World(
        shuffled,
        rows,
        dict(rng.sample(list(world.shared.items()), len(world.shared))),
        [Candidate(c.id, dict(reversed(c.views.items()))) for c in world.candidates],
        rng,
    )
    assert shuffled.digest == world.base.digest
    assert decided(shuffled, turned) == decided(world.base, world)


@given(RANDOM)
@MANY
def test_unknown_is_never_false(rng: Random) -> None:
    world = worlds.world(rng, open_share=0.5)
    choice = world.base.choose("which", world.shared, world.candidates)
    for standing in choice.standings:
        for line in (*standing.lines, *standing.ruled_out, *standing.silent):
            for told in line.conditions.atoms():
                if told.view.status == "open":
                    assert not told.truth & (MUST | MUST << 3)
                elif told.view.best is None and told.condition.op not in ("known", "unknown"):
                    assert told.truth == 0
                    assert opposite(told.truth) == 0


@given(RANDOM)
@MANY
def test_the_trace_agrees_with_the_evaluation(rng: Random) -> None:
    world = worlds.world(rng)
    choice = world.base.choose("which", world.shared, world.candidates)
    plan = world.base.plan("which")
    for standing in choice.standings:
        for line in (*standing.lines, *standing.ruled_out):
            assert line.conditions.truth & BEST
        for quiet in standing.silent:
            assert quiet.blockers
        for line in (*standing.lines, *standing.ruled_out, *standing.silent):
            bits, truth = plan.bits[line.rule.id], line.conditions.truth
            if standing.outcome.may & bits:
                assert truth & MAY
            if standing.outcome.must & bits:
                assert truth & MUST
            assert (truth << 3 | truth >> 3) & 63 == opposite(truth)
            held = [(line.conditions, line.rule.when)]
            for told, wanted in held:
                assert told.condition == wanted
                held += zip(told.parts, getattr(wanted, "parts", ()), strict=True)


@given(RANDOM)
@MANY
def test_answering_never_widens_a_bound(rng: Random) -> None:
    world = worlds.world(rng, open_share=0.5)
    shared, candidates = world.shared, world.candidates
    for share in (0.4, 0.5, 1.0):
        before = {s.candidate.id: s for s in world.base.choose("which", shared, candidates).standings}
        old = world.base.amount("gap", {**candidates[0].views, **shared})
        shared = worlds.completed(rng, world.base, shared, share)
        candidates = [Candidate(c.id, worlds.completed(rng, world.base, c.views, share)) for c in candidates]
        for after in world.base.choose("which", shared, candidates).standings:
            wide = before[after.candidate.id]
            assert wide.low <= after.low
            assert after.high <= wide.high
            assert after.low <= after.points
            assert after.points <= after.high or math.isinf(after.high)
        new = world.base.amount("gap", {**candidates[0].views, **shared})
        assert old.low <= new.low
        assert new.high <= old.high


@given(RANDOM)
@MANY
def test_settled_holds_under_every_completion_tried(rng: Random) -> None:
    world = worlds.world(rng, open_share=rng.choice((0.05, 0.15, 0.4)))
    choice = world.base.choose("which", world.shared, world.candidates)
    amount = world.base.amount("gap", world.all_views(world.candidates[0]))
    first = choice.pick.candidate.id if choice.pick else None
    for _ in range(25):
        shared = worlds.completed(rng, world.base, world.shared)
        own = [Candidate(c.id, worlds.completed(rng, world.base, c.views)) for c in world.candidates]
        if choice.settled:
            again = world.base.choose("which", shared, own).pick
            assert (again.candidate.id if again else None) == first
        if amount.settled:
            new = world.base.amount("gap", {**own[0].views, **shared}).pick
            assert abs(new - amount.pick) <= amount.decision.materiality


@given(RANDOM)
@MANY
def test_a_base_written_back_loads_the_same(rng: Random) -> None:
    base = worlds.load_rows(worlds.Maker(rng).rows())
    again = worlds.load_rows(worlds.written(base))
    assert again.digest == base.digest
    assert (again.facts, again.rules) == (base.facts, base.rules)
    assert (again.assumptions, again.decisions) == (base.assumptions, base.decisions)


@given(RANDOM)
@MANY
def test_scopes_cannot_be_broken(rng: Random) -> None:
    rows = worlds.Maker(rng, facts=6).rows()
    late = [fact for fact in rows["fact"] if fact["scope"] == "tree" and fact["kind"] != "set"]
    if not late:
        return
    fact = rng.choice(late)
    rule = {
        "id": "early", "scope": "plot", "decision": "which", "effect": {"points": 1},
        "when": {rng.choice(("all", "any", "none")): [{"fact": fact["id"], "known": True}]},
        "because": "Because.", "teaches": "Teaches.", "source": {"kind": "common_practice"},
    }  # fmt: skip
    rows["rule"] = [*rows["rule"], rule]
    with pytest.raises(RuleBaseFaults) as caught:
        worlds.load_rows(rows)
    assert [fault.code for fault in caught.value.faults] == ["wrong-scope"]


@given(RANDOM)
@MANY
def test_limits_and_rounding_keep_the_order(rng: Random) -> None:
    decision = worlds.load_rows(worlds.Maker(rng, facts=1, rules=1).rows()).decisions["gap"]
    values = sorted(rng.randint(-100_000, 300_000) for _ in range(30))
    ends = [final(decision, value) for value in values]
    assert ends == sorted(ends)
    inside = [v for v in values if decision.limits[0] <= v <= decision.limits[1]]
    assert all(abs(final(decision, v) - v) <= decision.step / 2 for v in inside)
