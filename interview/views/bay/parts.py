"""The decisions so far: what was decided of each of the two clubs, and whether it may still move."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.decisions import AS_NOTED, PARTS, ROLES, decisions
from interview.views.pairing import choice_as_it_stands
from rules.units import words

if TYPE_CHECKING:
    from interview.views.decisions import DecisionView
    from rules.fitting import Outcome
    from rules.units import System
    from rules.workbench import Club


@dataclass(frozen=True, slots=True)
class PartView:
    """One decision of one club."""

    id: str
    """Such as longer.length."""
    text: str
    settled: bool
    by_hand: bool
    stale: bool = False
    """Taken by hand, and the engine says the same by now or it cannot be followed."""


@dataclass(frozen=True, slots=True)
class PartRow:
    """One thing that is decided, for both clubs."""

    title: str
    longer: PartView
    shorter: PartView


@dataclass(frozen=True, slots=True)
class FigureRow:
    """One figure that follows from what was decided, for both clubs."""

    title: str
    longer: str
    shorter: str


@dataclass(frozen=True, slots=True)
class PartsView:
    """Both clubs, decision by decision."""

    names: tuple[str, str]
    """What the trade calls the longer and the shorter; empty texts where there is no pair."""
    rows: tuple[PartRow, ...]
    figures: tuple[FigureRow, ...]


_SHORT = {
    "head": "head", "length": "length", "balance": "balance", "shaft": "shaft", "tip": "tip", "grip": "grip",
    "lie": "lie", "ports": "mass to",
}  # fmt: skip


def parts_view(outcome: Outcome, system: System) -> PartsView:
    """Return the decisions of an outcome."""
    if not outcome.clubs:
        return PartsView(("", ""), (), ())
    found = {one.id: one for one in decisions(outcome, choice_as_it_stands(outcome), system)}
    stale = {one.decision for one in outcome.overridden if one.stale}
    rows = [
        PartRow(_SHORT[part], *(_part(found[f"{role}.{part}"], stale, system) for role in ROLES))
        for part in PARTS
    ]
    longer, shorter = outcome.clubs
    return PartsView(
        names=(_name(longer, system), _name(shorter, system)),
        rows=tuple(rows),
        figures=_figures(longer, shorter, system),
    )


def _part(one: DecisionView, stale: set[str], system: System) -> PartView:
    """Return one decision in few words."""
    text = one.words
    if one.kind == "amount" and one.part == "length" and isinstance(one.pick, int):
        text = words(one.pick / 1000 * 0.0254, "in", system)
    if text == AS_NOTED:
        text = "as noted"
    return PartView(one.id, text or "as it is", one.settled, one.overruled, one.id in stale)


def _name(club: Club, system: System) -> str:
    """Return what the trade calls a club, with its loft."""
    own = "own " if club.rung.owned is not None else ""
    label = club.rung.label.split(",")[0]
    return f"{own}{label} {words(club.rung.spec.loft, 'deg', system).removesuffix(' deg')}°"


def _figures(longer: Club, shorter: Club, system: System) -> tuple[FigureRow, ...]:
    """Return what follows: how far, how high, how often, and what the bench adds."""
    clubs = (longer, shorter)
    flown = [club.rung.flown for club in clubs]
    rows = [
        ("carry", [words(one.centred, "yd", system) for one in flown]),
        ("expected", [words(one.expected, "yd", system) for one in flown]),
        ("apex", [words(one.apex, "ft", system) for one in flown]),
        ("gets up", [f"{one.usable * 100:.0f} %" for one in flown]),
        ("add", [_added(club, system) for club in clubs]),
    ]
    return tuple(FigureRow(title, *texts) for title, texts in rows)


def _added(club: Club, system: System) -> str:
    """Return the mass the bench adds, and where."""
    if club.plan is None:
        return "nothing"
    ports = [f"{name} {words(mass, 'g', system)}" for name, mass in club.plan.plan.items() if mass]
    return ", ".join(ports) or "nothing"
