"""The race of all pairs of a ladder for the pick, on best values: only those that may win are counted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from rules.engine.joined import both
from rules.ladder.pair_facts import BY_PART, PairFacts
from rules.ladder.pairs import meetings, order

if TYPE_CHECKING:
    from rules.engine.joined import Part
    from rules.ladder.judge import Judge
    from rules.ladder.rung import Rung

Count = tuple[int, bool]
"""Points, thousandths, and whether a rule forbids the pair."""


class Race(Mapping[str, int | None]):
    """Every two rungs that make a pair, and what each gets: points by the pair's id, None where forbidden.

    What one club or the make-up of a pair decides is worked out once. What hangs on both clubs, the gaps,
    is worked out for the pairs that may win, and for others when somebody asks.
    """

    def __init__(self, judge: Judge, rungs: Sequence[Rung]) -> None:
        self._ladder, self._facts = order(rungs), PairFacts(judge, rungs)
        self._met, self._places = meetings(self._ladder)
        self._adding = judge.base.joined("pairing", judge.ground, self._facts.ids)
        self._between = self._adding.numbers(self._facts.sorts["between"])
        self._longer: list[Part] = []
        self._shorter: list[Part] = []
        self._look(judge)
        types = {meeting.types for meeting in self._met}
        self._types = {one: self._adding.part(self._facts.types(one)) for one in types}
        self._counts: dict[int, Count] = {}

    def _look(self, judge: Judge) -> None:
        """Work out what each rung decides, as the longer and as the shorter club."""
        facts, adding = self._facts, self._adding
        longer, shorter = adding.numbers(facts.sorts["longer"]), adding.numbers(facts.sorts["shorter"])
        words = judge.house.lately("words", (judge.base.plan("pairing"), adding.start))
        for rung in self._ladder:
            told = facts.told(rung)
            if told not in words:
                words[told] = [adding.part(facts.words(role, *told)) for role in ("longer", "shorter")]
            one, other = words[told]
            self._longer.append(both(one, longer(facts.longer(rung))))
            self._shorter.append(both(other, shorter(facts.shorter(rung))))

    def two(self, place: int) -> tuple[Rung, Rung]:
        """Return the two rungs of the pair at a place, in the order of `pairs`."""
        _, longer, shorter, _ = self._met[place]
        return self._ladder[longer], self._ladder[shorter]

    def count(self, place: int) -> Count:
        """Return what the pair at a place gets."""
        found = self._counts.get(place)
        if found is None:
            _, longer, shorter, types = self._met[place]
            between = self._between(self._facts.between(self._ladder[longer], self._ladder[shorter]))
            parts = (self._longer[longer], self._shorter[shorter], self._types[types], between)
            found = self._counts[place] = self._adding.points(parts)
        return found

    def first(self) -> int | None:
        """Return the place of the pair with the most points, the earlier of equals; None without one."""
        most = self._most()
        best, top = None, 0
        for place in sorted(most, key=lambda place: -most[place]):
            if best is not None and most[place] < top:
                break
            points, forbidden = self.count(place)
            if not forbidden and (best is None or (points, -place) > (top, -best)):
                best, top = place, points
        return best

    def _most(self) -> dict[int, int]:
        """Return the most that each pair may get, thousandths, by its place; forbidden ones are left out."""
        shared, ceiling = self._adding.shared, self._adding.ceiling(BY_PART)
        longer = [ceiling.alone("longer", one, shared) for one in self._longer]
        shorter = [ceiling.alone("shorter", one, shared) for one in self._shorter]
        types: dict[str, int | None] = {}
        for key, made in self._types.items():
            alone = ceiling.alone("types", made, shared)
            types[key] = None if alone is None else alone + ceiling.others(made)
        found = {}
        for place, (_, i, j, key) in enumerate(self._met):
            one, other, more = longer[i], shorter[j], types[key]
            if one is not None and other is not None and more is not None:
                found[place] = one + other + more
        return found

    def __getitem__(self, id: str) -> int | None:
        points, forbidden = self.count(self._places[id])
        return None if forbidden else points

    def __iter__(self) -> Iterator[str]:
        return iter(self._places)

    def __len__(self) -> int:
        return len(self._met)
