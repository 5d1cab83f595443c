"""The quick ways of the rule engine say what its long way says, on random rule bases and subjects."""

from __future__ import annotations

import os
from random import Random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from rules.engine import Candidate, View
from rules.engine.ceiling import Ceiling
from rules.engine.fast import Ground
from rules.engine.joined import both
from tests.engine import engine_worlds as worlds

MANY = settings(max_examples=int(os.environ.get("TURFPAIR_EXAMPLES", "60")), deadline=None)
"""Set TURFPAIR_EXAMPLES for a long run."""
RANDOM = st.randoms(use_true_random=True)


@given(RANDOM)
@MANY
def test_the_fast_path_equals_the_full_path(rng: Random) -> None:
    world = worlds.world(rng, open_share=0.0)
    assumed = frozenset(
        id
        for views in (world.shared, *(c.views for c in world.candidates))
        for id, v in views.items()
        if not v.known
    )
    known = dict(world.shared)
    own = [dict(c.views) for c in world.candidates]
    for views in own:
        for id in list(views):
            if id in assumed and views[id].best is not None:
                views[id] = View(views[id].best, None, "unknown", "assumed")
    candidates = [Candidate(c.id, views) for c, views in zip(world.candidates, own, strict=True)]
    choice = world.base.choose("which", known, candidates)
    shared_best = {id: v.best for id, v in known.items()}
    own_best = [{id: v.best for id, v in views.items()} for views in own]
    common = {id: value for id, value in shared_best.items() if rng.random() < 0.5}
    ground = Ground(common, assumed)
    rest = {id: value for id, value in shared_best.items() if id not in common}
    place, points = world.base.fast_choose("which", rest, own_best, ground)
    for standing in choice.standings:
        quick = points[standing.place]
        assert quick == (None if standing.is_ruled_out else standing.points)
    assert place == (choice.pick.place if choice.pick else None)
    views = {**own[0], **known}
    best = {id: v.best for id, v in views.items() if id not in common}
    assert world.base.fast_amount("gap", best, ground) == world.base.amount("gap", views).pick_si


@given(RANDOM)
@MANY
def test_candidates_joined_from_parts_get_the_same_points(rng: Random) -> None:
    world = worlds.world(rng, open_share=0.0)
    shared = {id: v.best for id, v in world.shared.items()}
    own = [{id: v.best for id, v in c.views.items()} for c in world.candidates]
    every = sorted({id for best in own for id in best})
    _, points = world.base.fast_choose("which", shared, own)
    joined = world.base.joined("which", Ground(shared), every)
    for best, wanted in zip(own, points, strict=True):
        sides: list[dict[str, Any]] = [{}, {}, {}]
        for id in every:
            rng.choice(sides)[id] = best.get(id)
        parts = [joined.part(side) for side in sides]
        assert joined.points([both(parts[0], parts[1]), parts[2]]) == joined.points(parts)
        count, out = joined.points(parts)
        assert (None if out else count) == wanted


@given(RANDOM)
@MANY
def test_no_candidate_gets_more_than_its_parts_allow(rng: Random) -> None:
    """And what a rule on one part alone forbids is forbidden; with one part there is no doubt at all."""
    world = worlds.world(rng, open_share=0.0)
    shared = {id: v.best for id, v in world.shared.items()}
    own = [{id: v.best for id, v in c.views.items()} for c in world.candidates]
    every = sorted({id for best in own for id in best})
    joined = world.base.joined("which", Ground(shared), every)
    place = {id: rng.choice("abc") for id in every}
    sorts = {sort: [id for id in every if place[id] == sort] for sort in "ab"}  # "c" is told of no part
    ceiling = joined.ceiling(sorts)
    for best in own:
        sides = {sort: {id: best.get(id) for id in every if place[id] == sort} for sort in "abc"}
        parts = {sort: joined.part(side) for sort, side in sides.items()}
        count, out = joined.points(list(parts.values()))
        alone = [ceiling.alone(sort, parts[sort], joined.shared) for sort in "ab"]
        known = [one for one in alone if one is not None]
        assert out or (len(known) == 2 and count <= sum(known) + min(ceiling.others(parts[s]) for s in "abc"))
        only = joined.part({id: best.get(id) for id in every})
        everything = Ceiling(world.base.plan("which"), every, {"all": every})
        assert everything.alone("all", only, joined.shared) == (None if out else count)
        assert everything.others(only) == 0


@given(RANDOM)
@MANY
def test_parts_that_are_numbers_are_read_within_their_declared_ranges(rng: Random) -> None:
    world = worlds.world(rng, open_share=0.0)
    facts = world.base.facts
    shared = {id: v.best for id, v in world.shared.items()}
    every = sorted({id for candidate in world.candidates for id in candidate.views})
    numbers = tuple(id for id in every if facts[id].kind == "number")
    joined = world.base.joined("which", Ground(shared), every)
    read = joined.numbers(numbers)
    for candidate in world.candidates:
        rest = {id: v.best for id, v in candidate.views.items() if id not in numbers}
        wild, held = [], {}
        for id in numbers:
            low, high = facts[id].range
            wild.append(rng.choice((low, high, rng.uniform(2 * low - high, 2 * high - low))))
            held[id] = min(high, max(low, wild[-1]))
        told = joined.points([joined.part(rest), joined.part(held)])
        assert joined.points([joined.part(rest), read(wild)]) == told


@given(RANDOM)
@MANY
def test_a_choice_counted_first_is_traced_to_the_same(rng: Random) -> None:
    world = worlds.world(rng, open_share=0.4)
    choice = world.base.choose("which", world.shared, world.candidates)
    counts = {s.place: (s.points, s.is_ruled_out) for s in choice.standings}
    points = [counts[place] for place in range(len(world.candidates))]
    later = world.base.counted("which", world.shared, world.candidates, points)
    assert later.settled == choice.settled
    for mine, other in zip(later.standings, choice.standings, strict=True):
        assert (mine.candidate, mine.points, mine.low, mine.high) == (
            other.candidate, other.points, other.low, other.high,
        )  # fmt: skip
        assert [line.text() for line in mine.lines] == [line.text() for line in other.lines]
