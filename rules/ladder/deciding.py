"""What deciding needs, whoever decides: the golfer's facts as the engine reads them, and what clubs share.

One road, one set of rules, and two who run them. The judge takes the decisions of a road on best values
alone; the clerk takes them once more with a full trace, for the few rungs of which somebody asks why. Both
run the same code of the ladder and come to the same.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any

from rules.facts.known import assumed
from rules.golf.quadrature import Face
from rules.ladder.meeting import free_head, meeting
from rules.ladder.options import grip_options, shaft_options
from rules.units import unit

if TYPE_CHECKING:
    from rules.engine.ledger import Amount, Choice
    from rules.facts.golfer import Golfer
    from rules.facts.known import Known
    from rules.facts.subject import Kind
    from rules.golf.impact import Clubhead
    from rules.house import House
    from rules.ladder.meeting import Meeting
    from rules.ladder.options import Option
    from rules.ladder.rung import Once
    from rules.shelf.parts import Head, Shaft

Seen = Mapping[str, Any]
"""Facts as the engine reads them: views, or plain best values."""


class Deciding(ABC):
    """Takes decisions for one golfer."""

    traces: bool
    """Whether ledgers are kept."""

    def __init__(self, house: House, golfer: Golfer, seen: Seen) -> None:
        self.house, self.golfer, self.seen = house, golfer, seen
        self.base, self.shelf = house.base, house.shelf
        self._shafts: dict[tuple[object, ...], list[Option]] = {}
        self._met: dict[Any, Any] | None = None

    @abstractmethod
    def views(self, known: Mapping[str, Known]) -> dict[str, Any]:
        """Return facts as the engine reads them."""

    @abstractmethod
    def derived(self, numbers: Mapping[str, float], waits: Mapping[str, frozenset[str]]) -> Mapping[str, Any]:
        """Return derived numbers as the engine reads them; `waits` has the open questions behind each."""

    @abstractmethod
    def choose(
        self, decision: str, own: Seen, options: Sequence[Option], told: str | None = None,
        *, alike: bool = False,
    ) -> tuple[str | None, Once[Choice] | None]:  # fmt: skip
        """Decide a choice on the golfer's facts and a club's own: the picked option, and any ledger.

        `told` is what was picked before, for who only keeps the trace; `alike`: other clubs have the very
        same options, kept for the golfer's whole road.
        """

    @abstractmethod
    def amount(
        self, decision: str, own: Seen, told: float | None = None
    ) -> tuple[float, Once[Amount] | None]:
        """Decide an amount, SI, on the golfer's facts and a club's own, with any ledger."""

    @cached_property
    def grips(self) -> list[Option]:
        """The grips in stock: the same candidates for every club of one golfer."""
        return grip_options(self)

    def meets(self, head: Head, delivered: float) -> Meeting:
        """Return how a head meets the golfer's lies at a delivered loft (rad), kept while that stays so."""
        if self._met is None:
            golfer = self.golfer
            pattern = (golfer.pattern.mean_high, golfer.pattern.sd_high)
            self._met = self.house.lately("met", (golfer.number("attack"), *pattern, golfer.lies))
        found = self._met.get((head.id, delivered))
        if found is None:
            face, free = self.house.once(("face", head.id), lambda: self._face(head))
            found = self._met[head.id, delivered] = meeting(self.golfer, face, delivered, free)
        return found

    def _face(self, head: Head) -> tuple[Face, Clubhead]:
        """Return the face and the free body of a head."""
        shape = Face(head.loft, head.face_height, head.cg_up_face)
        return shape, free_head(head, assumed(self.base, "spin-grip"))

    def shafts(self, kind: Kind, head: Head | None, length: float) -> list[Option]:
        """Return the shafts for a head and length (m): the same candidates for heads of one kind and bore."""
        stock, raw = self.house.once(("shafts", kind), lambda: self._stock(kind))
        # The longer the club the fewer are long enough: their number tells which.
        key = (kind, head and head.bore, bisect_left(raw, length))
        found = self._shafts.get(key)
        if found is None:
            long_enough = [shaft for shaft in stock if shaft.raw_length >= length]
            found = self._shafts[key] = shaft_options(self, kind, head, long_enough)
        return found

    def _stock(self, kind: Kind) -> tuple[Sequence[Shaft], list[float]]:
        """Return the shafts in stock for a kind, and their raw lengths (m), shortest first."""
        stock = self.shelf.shafts_for(kind)
        return stock, sorted(shaft.raw_length for shaft in stock)

    def part(self, sort: str, id: str, known: Callable[[], Mapping[str, Known]]) -> Seen:
        """Return the facts of a part that no golfer changes."""
        return self.house.once(("part", self.traces, sort, id), lambda: self.views(known()))  # type: ignore[no-any-return]


def thousandths(judge: Deciding, decision: str, si: float) -> int:
    """Return an amount in whole thousandths of its decision's unit."""
    return round(unit(judge.base.decisions[decision].unit).from_si(si) * 1000)


def to_thousandth(judge: Deciding, decision: str, si: float) -> float:
    """Return an amount (SI) as its ledger tells it, to a thousandth of the decision's unit."""
    return unit(judge.base.decisions[decision].unit).to_si(thousandths(judge, decision, si) / 1000)
