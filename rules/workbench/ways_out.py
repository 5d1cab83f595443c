"""When the ports cannot bring a club to its target: what else would, each built anew on paper.

A heavier or lighter head and another head of the same place put mass where it is wanted. Another grip
moves the reading and leaves the head as it was; a quarter inch more gives back some of what shortening
won, a quarter inch less takes speed. Each is computed with parts on the shelf, ports and all; none is chosen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from rules.bench.balance import HEAVIEST, mass_per_point
from rules.bench.problems import BenchProblem
from rules.bench.tip import fit
from rules.shelf import on_bench
from rules.units import parse
from rules.workbench.mass import WITHIN, plan_mass

if TYPE_CHECKING:
    from rules.bench.ports import PortPlan
    from rules.ladder.rung import Spec
    from rules.shelf import Shelf
    from rules.shelf.parts import Grip, Head
    from rules.workbench.club import Club
    from rules.workbench.mass import Planned

STEP = parse("0.25 in", "m")
"""The least change of length worth building (common practice)."""
SAME_PLACE = parse("1 deg", "rad")
"""A head within this of the chosen one's loft can stand in for it (house value)."""
_LENGTHS = (parse("37 in", "m"), parse("43.5 in", "m"))
_MOST_HEADS = 2
_MOST_GRIPS = 2

Kind = Literal["other_grip", "longer", "shorter", "other_head", "head_of_mass"]


@dataclass(frozen=True, slots=True)
class WayOut:
    """One way: what changes, what the club would then read, and what it would still miss (SI)."""

    kind: Kind
    amount: float
    """Length (m), or the mass of head or grip (kg), that it means."""
    change: float
    """The same, less what it is now."""
    points: float
    """What the club would read, points from D0."""
    left: float
    """That less the target, points."""
    name: str = ""
    """Id of the head or grip on the shelf; empty where none is meant."""
    label: str = ""
    plan: PortPlan | None = None
    """Its pieces; None for a head of a mass that is not on the shelf."""
    loft_change: float = 0.0
    """Of another head, rad."""
    face_change: float = 0.0
    """Of another head's face height, m."""

    @property
    def fits(self) -> bool:
        """Whether it brings the club within half a point."""
        return abs(self.left) <= WITHIN


def ways_out(shelf: Shelf, club: Club) -> tuple[WayOut, ...]:
    """Return what would bring a club to its target that is off it by more than half a point, nearest first.

    A head of a mass that is not on the shelf comes last. `shelf` is what the other club leaves
    (`left_after`). Empty for a club that is near enough, and for one of his own, whose parts nobody knows.
    """
    spec = club.rung.spec
    if club.build is None or spec.head is None or spec.grip is None or abs(club.left) <= WITHIN:
        return ()
    seeking = _Seeking(shelf, club, spec)
    found = [*seeking.grips(spec.grip), *seeking.lengths(), *seeking.heads(spec.head)]
    better = [way for way in found if abs(way.left) < abs(club.left) - 1e-9]
    nearest = sorted(better, key=lambda way: (not way.fits, abs(way.left)))
    return (*nearest, *seeking.head_of_mass())


@dataclass(frozen=True, slots=True)
class _Seeking:
    """One club that misses its target, tried with other parts."""

    shelf: Shelf
    club: Club
    spec: Spec

    def _tried(
        self, *, head: Head | None = None, grip: Grip | None = None, length: float = 0.0
    ) -> Planned | None:
        """Build the club with something changed, ports and all; None where the bench refuses it."""
        spec = self.spec
        assert spec.head is not None
        assert spec.shaft is not None
        assert spec.grip is not None
        chosen = head or spec.head
        try:
            bare = on_bench.club(
                chosen, spec.shaft, grip or spec.grip, length or spec.length, self.shelf, spec.tip_extra
            )
            return plan_mass(bare, chosen, self.shelf.pieces, spec.balance, self.club.towards)
        except BenchProblem:
            return None

    def grips(self, now: Grip) -> Iterator[WayOut]:
        """Yield other grips: lighter where the club reads too light, heavier where it reads too heavy."""
        lighter = self.club.left < 0
        others = [
            grip for grip in self.shelf.grips if grip.in_stock and (grip.mass < now.mass) is lighter
            and grip.mass != now.mass
        ]  # fmt: skip
        ways = [self._grip(grip, now) for grip in others]
        found = [(grip.size != now.size, way) for grip, way in zip(others, ways, strict=True) if way]
        found.sort(key=lambda one: (not one[1].fits, one[0], abs(one[1].left)))
        yield from (way for _, way in found[:_MOST_GRIPS])

    def _grip(self, grip: Grip, now: Grip) -> WayOut | None:
        made = self._tried(grip=grip)
        if made is None:
            return None
        return _way("other_grip", grip.mass, grip.mass - now.mass, made, name=grip.id, label=grip.label)

    def lengths(self) -> Iterator[WayOut]:
        """Yield a quarter inch more or less, or two where one is not enough."""
        sign: int = 1 if self.club.left < 0 else -1
        kind: Kind = "longer" if sign > 0 else "shorter"
        tried = []
        for steps in (1, 2):
            length = self.spec.length + sign * steps * STEP
            made = self._tried(length=length) if _LENGTHS[0] <= length <= _LENGTHS[1] else None
            if made is not None:
                tried.append(_way(kind, length, length - self.spec.length, made))
        yield from next(([way] for way in tried if way.fits), tried[:1])

    def heads(self, now: Head) -> Iterator[WayOut]:
        """Yield other heads of the same kind, hand and practically the same loft that take this shaft."""
        found = [
            way for head in self.shelf.heads if self._stands_in(head, now) and (way := self._head(head, now))
        ]
        yield from sorted(found, key=lambda way: (not way.fits, abs(way.left)))[:_MOST_HEADS]

    def _stands_in(self, head: Head, now: Head) -> bool:
        shaft = self.spec.shaft
        assert shaft is not None
        alike = head.id != now.id and head.in_stock and (head.kind, head.hand) == (now.kind, now.hand)
        near = abs(head.loft - now.loft) <= SAME_PLACE + 1e-9
        return alike and near and fit(shaft.tip, head.bore, tip_taper=shaft.taper).verdict in ("fits", "shim")

    def _head(self, head: Head, now: Head) -> WayOut | None:
        made = self._tried(head=head)
        if made is None:
            return None
        return _way(
            "other_head", head.mass, head.mass - now.mass, made, name=head.id, label=head.label,
            loft_change=head.loft - now.loft, face_change=head.face_height - now.face_height,
        )  # fmt: skip

    def head_of_mass(self) -> Iterator[WayOut]:
        """Yield the bare mass at which the same head would need nothing further: one to look for."""
        build, short = self.club.build, -self.club.left
        assert build is not None
        change = short * mass_per_point(build.head_position)
        if 0 < build.head.mass + change < HEAVIEST:
            yield WayOut("head_of_mass", build.head.mass + change, change, self.spec.balance, 0.0)


def _way(
    kind: Kind, amount: float, change: float, made: Planned, *, name: str = "", label: str = "",
    loft_change: float = 0.0, face_change: float = 0.0,
) -> WayOut:  # fmt: skip
    """Return a way out as built."""
    return WayOut(
        kind, amount, change, made.build.reading.points, made.left, name, label, made.plan,
        loft_change, face_change,
    )  # fmt: skip
