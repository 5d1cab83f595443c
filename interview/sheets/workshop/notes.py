"""What stands beside the figures: both counts, matching, ways out, cure, rules and stock."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from interview.sheets import figures as f
from interview.sheets.paper import NONE, Block, Cell, Line, Note
from rules.units import UNITS, swing_weight_name, words

if TYPE_CHECKING:
    from interview.views.build import BuildClub, BuildView
    from rules.shelf.bookings import Bill
    from rules.units import System
    from rules.workbench.altered import Alteration
    from rules.workbench.conforming import RuleLine
    from rules.workbench.counting import Count
    from rules.workbench.matched import Matched
    from rules.workbench.ways_out import WayOut

_MOST_SETBACK = 1.4 * UNITS["in"].factor
"""How far short of the length mark a head's centre may lie until a shop has calibrated it, m."""
_COUNTED = {
    "mass_per_point": "1 point at the head",
    "mass_to_add": "mass to add",
    "half_inch": "1/2 in off the butt",
    "lighter_grip": "grip 5 g lighter",
    "heavier_shaft": "shaft 9 g heavier",
}


def counting_block(clubs: Sequence[BuildClub]) -> Block | None:
    """Return both ways of counting: the exact sum, the bench rule, and the points it would get wrong."""
    if all(club.parts is None for club in clubs):
        return None
    lines = tuple(
        Line(label, tuple(_counted(club, what) for club in clubs)) for what, label in _COUNTED.items()
    )
    return Block("BOTH COUNTS: sum | bench rule | points off", lines)


def _counted(club: BuildClub, what: str) -> Cell:
    """Write one figure by both ways, and what the rule would get wrong."""
    if club.parts is None:
        return NONE
    count = next(one for one in club.parts.counts if one.what == what)
    return Cell(f"{_figure(count, count.exact)} | {_figure(count, count.rule)} | {f.points(count.off)}")


def shortened_notes(view: BuildView) -> tuple[Note, ...]:
    """Return what shortening his own clubs loses and wants back: exact sum | bench rule."""
    return tuple(
        Note(f"HIS OWN, {club.view.role}: exact sum | bench rule", tuple(_shortened(club.alteration)))
        for club in view.clubs
        if club.alteration is not None
    )


def _figure(count: Count, value: float) -> str:
    if count.symbol == "points":
        return f.points(value)
    return f.grams(value, 2 if count.what == "mass_per_point" else 1)


def _shortened(work: Alteration) -> Iterator[str]:
    """Yield what shortening his own club loses and wants back, by both ways."""
    sums = work.sums
    cut = words(sums.cut, "in")
    yield f"{cut} off loses: {f.points(sums.points_change)} | {f.points(sums.rule_points_change)}"
    off = f.points(sums.rule_overshoot)
    yield f"wanted back: {f.grams(sums.restore)} | {f.grams(sums.rule_restore)}, {off} points too heavy"
    room = "nobody said" if work.room is None else f.grams(work.room)
    yield f"head can take: {room}; goes back: {f.grams(work.put_back)}; left {f.points(work.left)} points"
    head, shaft = f.grams(work.head_mass, 0), f.grams(work.shaft_mass, 0)
    parts = "its own head and a usual shaft" if work.head_known else "usual parts"
    yield f"reckoned for {parts} (head {head}, shaft {shaft}): tape first, scale, then make it permanent"


def matching_note(view: BuildView) -> Note | None:
    """Return what matching would change, by swing weight and by inertia; neither is proven better."""
    items = tuple(_match(one) for one in view.matched)
    if not items:
        return None
    return Note("MATCHING (neither way is proven better)", items)


def _match(one: Matched) -> str:
    """Write one match: what changes, and what it does to the other number."""
    by = "swing weight" if one.by == "swing_weight" else "inertia"
    change = f"{one.role} to {one.to} by {by}: {f.signed_grams(one.head_change)} in the head"
    if one.by == "inertia":
        does = f"reads {swing_weight_name(one.points)} ({f.points(one.points_difference)})"
    elif one.inertia_difference is not None:
        more = words(one.inertia_difference, "kg*cm2")
        does = f"inertia {'+' if one.inertia_difference > 0 else ''}{more}"
    else:
        does = f"reads {swing_weight_name(one.points)}; its inertia was not read"
    return f"{change}, {does}{'' if one.room else '; more than its ports allow'}"


def ways_notes(view: BuildView, system: System) -> tuple[Note, ...]:
    """Return what would bring a club to its target that the ports do not."""
    return tuple(
        Note(
            f"OFF TARGET, {club.view.role}: {f.points(club.parts.left)} points; what would help",
            tuple(_way(way, system) for way in club.ways),
        )
        for club in view.clubs
        if club.ways and club.parts is not None
    )


def _way(way: WayOut, system: System) -> str:
    """Write one way: what changes, what the club then reads, what it still misses, and what it costs."""
    reads = f"reads {swing_weight_name(way.points)} ({f.points(way.left)})"
    added = (
        "" if way.plan is None or not way.plan.added else f", {f.bare_grams(way.plan.added)} g in its ports"
    )
    if way.kind == "other_grip":
        return f"grip {way.name}, {f.signed_grams(way.change)}: {reads}{added}; the head stays as heavy"
    if way.kind in ("longer", "shorter"):
        by = f.length(abs(way.change), system)
        return f"{by} {way.kind}, {f.length(way.amount, system)}: {reads}{added}"
    if way.kind == "other_head":
        loft = f"loft {'+' if way.loft_change >= 0 else '-'}{f.degrees(abs(way.loft_change))}"
        face = f"face {way.face_change * 1000:+.1f} mm"
        return f"head {way.name}, {f.signed_grams(way.change)}: {reads}{added}; {loft}, {face}"
    by = f.signed_grams(way.change)
    return f"this head at {f.grams(way.amount)} bare ({by}): on target; not on the shelf"


def cure_note(view: BuildView, system: System) -> Note:
    """Return the cure by bench temperature."""
    ladder = "; ".join(f"{f.temperature(one.temperature, system)} {f.hours(one.time)}" for one in view.holds)
    here = view.hold_here
    at = f.temperature(view.shop.glue_bench_temperature, system)
    own = f"Bench here {at}: {f.hours(here.time)}." if here else f"Bench here {at}: too cold, warm it first."
    return Note("CURE, slow epoxy, least hold before a ball is hit", (f"{ladder}; colder: do not glue.", own))


def rules_note(view: BuildView, system: System) -> Note:
    """Return what the rules say, each with its edition."""
    items = [_rule(one, view, system) for one in view.rules]
    return Note("RULES (check the current edition and local rules)", tuple(dict.fromkeys(items)))


def _rule(one: RuleLine, view: BuildView, system: System) -> str:
    """Write one rule."""
    cite = f"({one.rule}; edition {one.edition})"
    kept = {True: "kept", False: "BROKEN", None: "see to it"}[one.ok]
    if one.what == "length":
        low, high = f.length(one.low or 0.0, system), f.length(one.high or 0.0, system)
        return f"Length {low} to {high}: {kept} {cite}"
    if one.what == "inertia":
        return f"Head inertia at most {words(one.high or 0.0, 'g*cm2')}: {kept} {cite}"
    if one.what == "clubs":
        count = "count them" if one.value is None else f"{one.value:g} with these two, {kept}"
        return f"Fourteen clubs: {count} {cite}"
    if one.what == "adjustable":
        return f"Weights firmly fixed, every setting conforming {cite}"
    return f"No weight or setting changed during a round {cite}"


def stock_note(view: BuildView) -> Note | None:
    """Return what is missing on the shelf; None where everything is there."""
    if not view.lacking:
        return None
    items = tuple(
        f"{sort} {id}: {wanted} wanted, {there} there" for (sort, id), wanted, there in view.lacking
    )
    return Note("NOT IN STOCK", items)


def parts_list(bills: tuple[Bill | None, ...]) -> str:
    """Write the pieces that both clubs take from the tray, by mass."""
    counts: dict[float, int] = {}
    for bill in bills:
        for mass, number in (bill.pieces if bill is not None else {}).items():
            counts[mass] = counts.get(mass, 0) + number
    return ", ".join(f"{number} x {f.bare_grams(mass)} g" for mass, number in sorted(counts.items()))


def calibration_note(view: BuildView, system: System) -> Note:
    """Return what the sums lean on, and what this bench has learned."""
    own = view.calibration
    range_ = f"{f.place(0.0, system)} to {f.place(_MOST_SETBACK, system)}"
    learned = "learned here" if "setback" not in own.assumed else f"assumed ({range_})"
    items = [
        f"Head's centre short of the length mark: {f.place(own.setback, system)}, {learned}",
        f"Ruler reads {f.length(own.ruler_offset, system)} short",
        f"Ferrule and glue {f.grams(own.glue_and_ferrule)}",
        "Tape under the grip is not in the sums. ± is one spread, carried from the parts.",
    ]
    missing = [name for club in view.clubs if club.parts for name in club.parts.assumed]
    if missing:
        items.append(f"Never measured: {', '.join(dict.fromkeys(missing))}")
    return Note("THE SUMS LEAN ON", tuple(items))
