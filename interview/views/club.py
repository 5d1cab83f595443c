"""One of the two clubs, as everything that shows it needs it. SI throughout."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from rules.ladder.rung import trade_name
from rules.units import unit
from rules.workbench.mass import WITHIN

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rules.bench.ports import Place
    from rules.facts.subject import Kind, OwnedClub
    from rules.fitting import Outcome
    from rules.ladder.rung import Flown, Rung, State
    from rules.workbench import Club
    from rules.workbench.ways_out import WayOut


class ShaftView(NamedTuple):
    """The shaft as it goes into the club."""

    id: str
    label: str
    mass: float
    """Uncut, kg."""
    flex: str
    tip: float
    """Diameter of the tip, m."""
    tip_trim: float
    butt_trim: float
    cut_mass: float
    """Mass once cut, kg."""


class GripView(NamedTuple):
    """The grip."""

    id: str
    label: str
    mass: float
    size: str


class PortView(NamedTuple):
    """One port that takes mass: how much, and in which pieces (kg)."""

    name: str
    mass: float
    pieces: tuple[float, ...]
    """Heaviest first."""


class BenchView(NamedTuple):
    """What the bench makes of a club whose parts are known."""

    balance: float
    """Swing weight of the sum, points from D0."""
    total: float
    balance_point: float
    """m from the butt."""
    inertia: float | None
    """About the butt, kg*m2."""
    head_mass: float
    """Of the head with empty ports, kg."""
    needed: float
    """Mass that the target asks for, kg; negative when the head is too heavy already."""
    added: float
    ports: tuple[PortView, ...]
    left: float
    """Swing weight of the sum less its target, points."""
    spread: float
    """How far the reading may be from the sum, points (one spread, from the parts' own tolerances)."""
    shift: Place
    """How far the added mass moves the head's centre of mass, m."""
    calibrated: bool
    """Whether the shop knows where its heads' mass falls on the shaft; until then the spread is wide."""
    ways: tuple[WayOut, ...] = ()
    """What else would bring it to its target, where its ports cannot."""


class ClubView(NamedTuple):
    """The longer or the shorter club of the pair, with what it is made of and how it flies."""

    role: str
    """longer or shorter."""
    id: str
    """Of its place on the ladder."""
    kind: Kind
    state: State
    label: str
    """What the trade calls it, such as 4-wood."""
    owned: str | None
    """The owner's name for it; None for a new club."""
    loft: float
    length: float
    target: float
    """Target swing weight, points from D0."""
    flown: Flown
    head: str | None = None
    """Id of the shop's head; None where nobody knows it."""
    head_label: str = ""
    face_height: float | None = None
    lie: float | None = None
    face_angle: float | None = None
    """Closed positive, rad."""
    bore: float | None = None
    shaft: ShaftView | None = None
    grip: GripView | None = None
    bench: BenchView | None = None
    """None for his own club, of whose parts nothing is known."""
    cut: float = 0.0
    """Length taken off his own club, m."""
    put_back: float = 0.0
    """Mass that goes back into the head of his own club, kg."""
    told_balance: float | None = None
    """Swing weight of his own club: as told, or as it would be altered; points from D0."""
    told_total: float | None = None
    loft_known: str | None = None
    """Of his own club, how its loft is known: said (stamped), measured, estimated, catalogued; or None."""
    length_known: bool = True
    """Of his own club: whether somebody said its length; else a usual one stands in."""


def club_views(outcome: Outcome) -> tuple[ClubView, ...]:
    """Return the views of the two finished clubs; empty where no pair is possible."""
    return tuple(_view(club, outcome) for club in outcome.clubs)


def _view(club: Club, outcome: Outcome) -> ClubView:
    """Return the view of a finished club."""
    rung = club.rung
    if rung.owned is not None:
        return _own(club.role, rung, rung.owned, outcome.rungs)
    spec, head = rung.spec, rung.spec.head
    assert head is not None
    return ClubView(
        role=club.role,
        id=rung.id,
        kind=rung.kind,
        state=rung.state,
        label=_label(rung),
        owned=None,
        loft=spec.loft,
        length=spec.length,
        target=spec.balance,
        flown=rung.flown,
        head=head.id,
        head_label=head.label,
        face_height=head.face_height,
        lie=spec.lie,
        face_angle=spec.face_angle,
        bore=head.bore,
        shaft=_shaft(club),
        grip=_grip(rung),
        bench=_bench(club, outcome),
    )


def _label(rung: Rung) -> str:
    """Return what the trade calls a rung's club."""
    return trade_name(rung.kind, unit("deg").from_si(rung.spec.loft))


def _own(role: str, rung: Rung, owned: OwnedClub, rungs: Sequence[Rung]) -> ClubView:
    """Return the view of one of his own clubs: what was told of it, and what an alteration does."""
    told = owned.swing_weight
    altered = rung.state == "altered"
    head = rung.spec.head
    return ClubView(
        role=role,
        id=rung.id,
        kind=rung.kind,
        state=rung.state,
        label=_label(rung),
        owned=owned.name,
        loft=rung.spec.loft,
        length=rung.spec.length,
        target=rung.spec.balance,
        flown=rung.flown,
        head=owned.head,
        head_label=head.label if head is not None else "",
        face_height=rung.spec.face_height,
        lie=head.lie if head is not None else None,
        face_angle=head.face_angle if head is not None else None,
        bore=head.bore if head is not None else None,
        cut=rung.cut,
        put_back=_put_back(rung, rungs),
        told_balance=None if told is None else rung.spec.balance,
        told_total=None if altered else owned.total,
        loft_known=owned.loft.how if owned.loft is not None else "catalogued" if head is not None else None,
        length_known=owned.length is not None,
    )


def _put_back(rung: Rung, rungs: Sequence[Rung]) -> float:
    """Return the mass an alteration puts back: what is behind the ball after it, less what was before."""
    for before in rungs:
        if before.owned is rung.owned and before.state == "as_it_is":
            return max(0.0, rung.spec.impact_mass - before.spec.impact_mass)
    return 0.0


def _shaft(club: Club) -> ShaftView | None:
    """Return the shaft as the build cuts it."""
    shaft, build = club.rung.spec.shaft, club.build
    if shaft is None or build is None:
        return None
    cuts, left = build.cuts, build.cut_shaft
    return ShaftView(shaft.id, shaft.label, shaft.mass, shaft.flex, shaft.tip, cuts.tip, cuts.butt, left.mass)


def _grip(rung: Rung) -> GripView | None:
    """Return the grip."""
    grip = rung.spec.grip
    return None if grip is None else GripView(grip.id, grip.label, grip.mass, grip.size)


def _bench(club: Club, outcome: Outcome) -> BenchView | None:
    """Return the bench's sums of a build."""
    build, plan = club.build, club.plan
    if build is None or plan is None:
        return None
    reading = build.reading
    return BenchView(
        balance=reading.points,
        total=reading.total,
        balance_point=reading.balance_point,
        inertia=reading.inertia,
        head_mass=build.head.mass,
        needed=club.needed,
        added=plan.added,
        ports=tuple(PortView(name, mass, plan.pieces[name]) for name, mass in plan.plan.items()),
        left=club.left,
        spread=build.tolerance.points,
        shift=plan.cg_shift,
        calibrated=build.head.setback_tolerance == 0,
        ways=_ways(club, outcome) if abs(club.left) > WITHIN else (),
    )


def _ways(club: Club, outcome: Outcome) -> tuple[WayOut, ...]:
    """Return what else would bring a club to its target, from what the other club leaves on the shelf."""
    from rules.workbench.shared import left_after
    from rules.workbench.ways_out import ways_out

    others = [one for one in outcome.clubs if one is not club]
    return ways_out(left_after(outcome.house.shelf, others), club)
