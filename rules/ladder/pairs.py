"""Pairs of rungs: which two clubs may go together, and how many points each two get."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from rules.engine import Candidate
from rules.engine.joined import both
from rules.ladder.pair_facts import PairFacts, types_of

if TYPE_CHECKING:
    from rules.ladder.deciding import Seen
    from rules.ladder.judge import Judge
    from rules.ladder.rung import Rung

_LEAST_STEP = 0.02
"""Two rungs nearer in loft than this (rad, a little over a degree) are one place on the ladder."""
Two = tuple["Rung", "Rung"]
"""Two rungs that may go together, the stronger first."""


class Pair(NamedTuple):
    """Two rungs, the stronger first."""

    candidate: Candidate
    """The pair as a candidate of the pairing."""
    longer: Rung
    shorter: Rung
    waits: Mapping[str, frozenset[str]]
    """Open questions behind its facts, by fact."""

    @property
    def id(self) -> str:
        """Both rungs' ids, joined."""
        return self.candidate.id

    @property
    def views(self) -> Seen:
        """Its facts for the engine, made when somebody asks."""
        return self.candidate.views


def order(rungs: Sequence[Rung]) -> list[Rung]:
    """Return rungs from strong to weak; of equal lofts the fairway wood first, new before his own."""
    return sorted(rungs, key=lambda r: (r.spec.loft, r.kind, r.state != "new", r.id))


def pairs(judge: Judge, rungs: Sequence[Rung]) -> list[Pair]:
    """Return every pair of places on the ladder that the shop and the bag allow.

    Two versions of one club he owns make no pair, nor do two rungs of practically one loft and type.
    """
    facts = PairFacts(judge.clerk, rungs)
    return [
        Pair(Candidate(pair_id(longer, shorter), partial(facts.all, longer, shorter)), longer, shorter,
             facts.waits)
        for longer, shorter in _twos(order(rungs))
    ]  # fmt: skip


def race(judge: Judge, rungs: Sequence[Rung]) -> tuple[list[Two], list[tuple[int, bool]]]:
    """Return every two that make a pair, in the order of `pairs`, each with its points on best values.

    With the points, thousandths, comes whether a rule forbids it.
    """
    ladder, facts = order(rungs), PairFacts(judge, rungs)
    adding = judge.base.joined("pairing", judge.ground, facts.ids)
    numbers = {role: adding.numbers(ids) for role, ids in facts.sorts.items()}
    longer, shorter = {}, {}
    words = judge.house.lately("words", (judge.base.plan("pairing"), adding.start))
    for rung in ladder:
        told = facts.told(rung)
        if told not in words:
            words[told] = [adding.part(facts.words(role, *told)) for role in ("longer", "shorter")]
        one, other = words[told]
        longer[id(rung)] = both(one, numbers["longer"](facts.longer(rung)))
        shorter[id(rung)] = both(other, numbers["shorter"](facts.shorter(rung)))
    met = _twos(ladder)
    made = [types_of(*two) for two in met]
    types = {one: adding.part(facts.types(one)) for one in set(made)}
    read, between, points = numbers["between"], facts.between, adding.points
    return met, [
        points((longer[id(one)], shorter[id(other)], types[type], read(between(one, other))))
        for (one, other), type in zip(met, made, strict=True)
    ]


def pair_id(longer: Rung, shorter: Rung) -> str:
    """Return the id of a pair."""
    return f"{longer.id}+{shorter.id}"


def _twos(ladder: Sequence[Rung]) -> list[Two]:
    """Return every two rungs that can pair, each the stronger first."""
    return [
        (upper, lower)
        for i, upper in enumerate(ladder)
        for lower in ladder[i + 1 :]
        if _can_pair(upper, lower)
    ]


def _can_pair(longer: Rung, shorter: Rung) -> bool:
    """Say whether two rungs are two clubs: not two versions of one, nor one type and practically one loft."""
    if longer.owned is not None and shorter.owned is not None and longer.owned.name == shorter.owned.name:
        return False
    return longer.kind != shorter.kind or shorter.spec.loft - longer.spec.loft >= _LEAST_STEP
