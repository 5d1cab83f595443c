"""Pairs of rungs: which two clubs may go together, and how many points each two get."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache, partial
from typing import TYPE_CHECKING, NamedTuple

from rules.engine import Candidate
from rules.ladder.pair_facts import PairFacts, types_of

if TYPE_CHECKING:
    from rules.facts.subject import Kind
    from rules.ladder.deciding import Seen
    from rules.ladder.judge import Judge
    from rules.ladder.rung import Rung

_LEAST_STEP = 0.02
"""Two rungs nearer in loft than this (rad, a little over a degree) are one place on the ladder."""
_Club = tuple[str, "Kind", float, str | None]
"""Id of a rung, and what says whether two can pair: kind, loft (rad), and the owner's name for his own."""


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
    facts, ladder = PairFacts(judge.clerk, rungs), order(rungs)
    return [
        Pair(Candidate(id, partial(facts.all, ladder[i], ladder[j])), ladder[i], ladder[j], facts.waits)
        for id, i, j, _ in meetings(ladder).all
    ]


class Meeting(NamedTuple):
    """Two rungs of a ladder that can pair, by their places on it, the stronger first."""

    id: str
    """Of the pair."""
    longer: int
    shorter: int
    types: str
    """What the pair is made of."""


class Meetings(NamedTuple):
    """Every two rungs of a ladder that can pair."""

    all: tuple[Meeting, ...]
    places: Mapping[str, int]
    """Of each, by the pair's id."""


def meetings(ladder: Sequence[Rung]) -> Meetings:
    """Return every two rungs that can pair, each the stronger first."""
    return _meetings(tuple([(r.id, r.kind, r.spec.loft, r.owned and r.owned.name) for r in ladder]))


@lru_cache(maxsize=64)
def _meetings(clubs: tuple[_Club, ...]) -> Meetings:
    """Return every two clubs that can pair: most ladders are of the same clubs."""
    met = tuple(
        Meeting(f"{upper[0]}+{clubs[j][0]}", i, j, types_of(upper[1], clubs[j][1]))
        for i, upper in enumerate(clubs)
        for j in range(i + 1, len(clubs))
        if _can_pair(upper, clubs[j])
    )
    return Meetings(met, {meeting.id: place for place, meeting in enumerate(met)})


def _can_pair(longer: _Club, shorter: _Club) -> bool:
    """Say whether two clubs are two: not two versions of one, nor of one type and practically one loft."""
    if longer[3] is not None and longer[3] == shorter[3]:
        return False
    return longer[1] != shorter[1] or shorter[2] - longer[2] >= _LEAST_STEP
