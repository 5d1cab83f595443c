"""A rung: one place on the ladder, a kind and a loft, decided and flown."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Generic, Literal, NamedTuple, TypeVar

from rules.golf.coefficients import rivals
from rules.golf.flight import Launch, fly

if TYPE_CHECKING:
    from rules.engine.ledger import Amount, Choice
    from rules.facts.subject import Kind, OwnedClub
    from rules.ladder.deciding import Seen
    from rules.shelf.parts import Grip, Head, Shaft

Made = TypeVar("Made")
State = Literal["new", "as_it_is", "altered"]
"""Built from the shelf, his own as it is, or his own shortened and reweighted."""

_FAIRWAY_NAMES = ((12.0, "2-wood"), (16.0, "3-wood"), (18.0, "4-wood"), (20.0, "5-wood"), (23.5, "7-wood"))
_HYBRID_NAMES = ((17.5, "2-hybrid"), (20.5, "3-hybrid"), (23.5, "4-hybrid"), (26.5, "5-hybrid"))
"""Below each loft in degrees, what the trade calls the club (common practice; sole numbers mislead)."""


def trade_name(kind: Kind, loft_deg: float) -> str:
    """Return what the trade calls a club of a loft, such as 4-wood; the loft, not the name, decides."""
    names, last = (_FAIRWAY_NAMES, "9-wood") if kind == "fairway" else (_HYBRID_NAMES, "6-hybrid")
    return next((name for below, name in names if loft_deg < below), last)


class Flown(NamedTuple):
    """How a rung flies for this golfer. Distances in m, angles in rad."""

    speed: float
    """Head speed of this club, m/s."""
    ball_speed: float
    launch: float
    spin: float
    """Backspin of the centred strike, rad/s."""
    density: float
    """Air density, kg/m3."""
    centred: float
    """Carry of the centred strike, first law."""
    expected: float
    """Carry over the golfer's strikes, lies and mishits."""
    apex: float
    descent: float
    """For comparing clubs only: every published law lands these clubs too flat."""
    usable: float
    """Share of balls that get up to a useful height and are not topped, thin or fat."""
    height_share: float
    """Apex of the clean strike as a share of the apex that suits the golfer's speed."""

    @property
    def others(self) -> tuple[float, ...]:
        """Carry of the centred strike by every other law, m; flown when somebody asks."""
        return _by_rivals(Launch(self.ball_speed, self.launch, self.spin), self.density)

    @property
    def low(self) -> float:
        """Carry of the centred strike by the law that carries it least far, m: an honest band."""
        return min(self.centred, *self.others)

    @property
    def high(self) -> float:
        """Carry of the centred strike by the law that carries it farthest, m."""
        return max(self.centred, *self.others)


@lru_cache(maxsize=1024)
def _by_rivals(launch: Launch, density: float) -> tuple[float, ...]:
    """Return the carry by every law but the first, m."""
    return tuple(fly(launch, density, law).carry for law in rivals())


@dataclass(frozen=True, slots=True)
class Spec:
    """What a rung is made of, as decided. SI."""

    loft: float
    length: float
    balance: float
    """Target swing weight, points from D0."""
    lie: float
    face_angle: float
    head: Head | None
    shaft: Shaft | None
    grip: Grip | None
    tip_extra: float
    """Tip trim beyond the shaft's own note, m."""
    face_height: float | None
    impact_mass: float
    """Mass behind the ball: the head with what must be added, kg."""


class Once(Generic[Made]):
    """Something that is made when it is first asked for, and then kept."""

    __slots__ = ("_made", "_make")

    def __init__(self, make: Callable[[], Made]) -> None:
        self._make: Callable[[], Made] | None = make

    def __call__(self) -> Made:
        """Return it."""
        if self._make is not None:
            self._made, self._make = self._make(), None
        return self._made


class Opened(Mapping[str, Made]):
    """Things by name, each made when it is first looked at."""

    __slots__ = ("_later",)

    def __init__(self, later: Mapping[str, Once[Any]]) -> None:
        self._later = later

    def __getitem__(self, name: str) -> Made:
        return self._later[name]()  # type: ignore[no-any-return]

    def __iter__(self) -> Iterator[str]:
        return iter(self._later)

    def __len__(self) -> int:
        return len(self._later)


@dataclass(frozen=True, slots=True)
class Ledgers:
    """How a rung was decided: the trace of its decisions."""

    decisions: Mapping[str, Choice | Amount] = field(default_factory=dict)
    views: Seen = field(default_factory=dict)
    """What the decisions read, the picked parts' facts included."""
    waits: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Open questions behind the facts of its parts, by fact."""


@dataclass(frozen=True, slots=True)
class Rung:
    """One place on the ladder, decided and flown for this golfer."""

    id: str
    kind: Kind
    state: State
    label: str
    """What the trade calls it, or the owner's own name for it."""
    spec: Spec
    flown: Flown
    trace: Once[Ledgers] = field(repr=False, compare=False)
    """The trace of its decisions, put together when somebody asks: of most rungs nobody does."""
    own: Seen = field(default_factory=dict, repr=False, compare=False)
    """The best values of what was decided of it, where it is built from the shelf."""
    owned: OwnedClub | None = None
    cut: float = 0.0
    """Length taken off an owned club, m."""
    overlong: float = 0.0
    """How much longer his own club is, left as it is, than the rules would build it, m."""
    pins: Mapping[str, object] = field(default_factory=dict)
    """Decisions that a person took."""

    @property
    def decisions(self) -> Mapping[str, Choice | Amount]:
        """Its decisions by id, each with its ledger."""
        return self.trace().decisions

    @property
    def views(self) -> Seen:
        """What the decisions read, the picked parts' facts included."""
        return self.trace().views

    @property
    def waits(self) -> Mapping[str, frozenset[str]]:
        """Open questions behind the facts of its parts, by fact."""
        return self.trace().waits
