"""One club as it is built: parts on the bench, cuts, sums, ways out, and what was read of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.build.parts import Figure, PartRow, PortRow, figures, part_rows, port_rows
from rules.bench.loft import EffectiveLoft, effective_loft
from rules.bench.tip import fit
from rules.workbench.altered import Alteration, alteration
from rules.workbench.counting import Count, both_counts

if TYPE_CHECKING:
    from interview.views.build.built import BuiltView
    from interview.views.club import ClubView
    from rules.bench.cuts import Cuts
    from rules.bench.tip import TipFit
    from rules.shelf.parts import Grip, Head, Shaft
    from rules.workbench import Club
    from rules.workbench.ways_out import WayOut

_WRAPS_A_SIZE = 4
"""Layers of build-up tape that make a grip one size larger: 1/64 in each, 1/16 in a size (from memory)."""
_MOST_WRAPS = 6


@dataclass(frozen=True, slots=True)
class PartsView:
    """The parts of a club that is built new."""

    head: Head
    shaft: Shaft
    grip: Grip
    cuts: Cuts
    cut_mass: float
    """Shaft once cut, kg."""
    tip_fit: TipFit
    wraps: int
    """Layers of build-up tape under the grip, over the one that holds it."""
    masses: tuple[PartRow, ...]
    ports: tuple[PortRow, ...]
    figures: tuple[Figure, ...]
    counts: tuple[Count, ...]
    plays: EffectiveLoft
    """What the head plays once its face is squared, by both views."""
    target: float
    left: float
    """Points that the sum is off its target."""
    needed: float
    added: float
    assumed: tuple[str, ...]
    """Measures of these parts that nobody took."""

    def figure(self, what: str) -> Figure:
        """Return one figure."""
        return next(one for one in self.figures if one.what == what)


@dataclass(frozen=True, slots=True)
class BuildClub:
    """One of the two clubs at the bench."""

    view: ClubView
    """What every screen shows of it."""
    parts: PartsView | None
    """None for one of his own clubs, of whose parts nothing is known."""
    alteration: Alteration | None
    """The work on one of his own clubs; None where there is none."""
    built: BuiltView
    ruler: float
    """What the bench ruler reads at its playing length, m."""

    @property
    def ways(self) -> tuple[WayOut, ...]:
        """What else would bring it to its target; empty where it is near enough."""
        return self.view.bench.ways if self.view.bench is not None else ()


def parts_view(club: Club) -> PartsView | None:
    """Return the parts of a club; None where nothing is known of them."""
    spec, build, plan = club.rung.spec, club.build, club.plan
    head, shaft, grip = spec.head, spec.shaft, spec.grip
    if build is None or plan is None or head is None or shaft is None or grip is None:
        return None
    return PartsView(
        head=head,
        shaft=shaft,
        grip=grip,
        cuts=build.cuts,
        cut_mass=build.cut_shaft.mass,
        tip_fit=fit(shaft.tip, head.bore, tip_taper=shaft.taper),
        wraps=_wraps(club),
        masses=part_rows(build),
        ports=port_rows(head, club),
        figures=figures(build),
        counts=both_counts(build, club.target),
        plays=effective_loft(spec.loft, spec.face_angle, spec.lie),
        target=club.target,
        left=club.left,
        needed=club.needed,
        added=plan.added,
        assumed=_assumed(head, shaft, grip),
    )


def _wraps(club: Club) -> int:
    """Return the layers that bring the grip to the size his hand asks for; none where it is thick enough."""
    view = club.rung.views.get("grip_step")
    step = view.best if view is not None else 0.0
    return min(_MOST_WRAPS, max(0, round(-step * _WRAPS_A_SIZE))) if isinstance(step, float | int) else 0


def _assumed(head: Head, shaft: Shaft, grip: Grip) -> tuple[str, ...]:
    """Return what was never measured of these parts, in words."""
    named = (("head", head.assumed), ("shaft", shaft.assumed), ("grip", grip.assumed))
    return tuple(
        f"{sort} {field.replace('_', ' ')}"
        for sort, fields in named
        for field in sorted(fields)
        if field != "label"
    )


def build_club(club: Club, view: ClubView, built: BuiltView, ruler_offset: float) -> BuildClub:
    """Return one club at the bench; `ruler_offset` is what the bench ruler reads short, m."""
    return BuildClub(
        view=view,
        parts=parts_view(club),
        alteration=alteration(club.rung),
        built=built,
        ruler=club.rung.spec.length - ruler_offset,
    )
