"""The workshop's sheet put together: every line of the build, and what stands beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.sheets.figures import degrees
from interview.sheets.paper import Block, Note, Stamp
from interview.sheets.workshop.notes import (
    calibration_note,
    counting_block,
    cure_note,
    matching_note,
    parts_list,
    rules_note,
    shortened_notes,
    stock_note,
    ways_notes,
)
from interview.sheets.workshop.parts import head_block, length_block, shaft_block
from interview.sheets.workshop.readings import built_notes
from interview.sheets.workshop.sums import mass_block, port_block, sum_block

if TYPE_CHECKING:
    from interview.views.build import BuildClub, BuildView
    from interview.views.outcome import OutcomeView

CHECKS = (
    "Tip abraded and bore clean; insertion depth marked",
    "Shaft seated to its mark; ferrule flush",
    "Face square to grip, grip straight",
    "Pieces seated; screws at the head maker's torque, by a torque wrench",
    "Adhesive ____________ glued: date ______ time ______",
    "Out of cure: date ______ time ______",
    "Head pulled and twisted by hand: holds",
    "Length, scale, knife edge, gauge: read",
    "Torque again after the first range session",
)
"""What is ticked and initialled before a club leaves, in order."""


@dataclass(frozen=True, slots=True)
class WorkshopSheet:
    """The sheet for the bench, ready to be written as text or as a page."""

    stamp: Stamp
    titles: tuple[str, ...]
    """One for each club."""
    blocks: tuple[Block, ...]
    beside: tuple[Note, ...]
    """Shortening, matching, stock, what the sums lean on, the cure."""
    built: tuple[Note, ...]
    """What would bring a club to its target, and what the readings say."""
    below: tuple[Note, ...]
    """What the rules say."""
    checks: tuple[str, ...]
    cautions: tuple[str, ...]
    """Of the bench; what the rules of the game say stands in a note of its own."""
    stop: tuple[str, ...]
    """What ends a fitting, and with it the work."""
    nothing: str
    """Why there is nothing to build; empty where there is."""
    tray: str
    """Pieces that both clubs take."""


def workshop_sheet(view: BuildView, outcome: OutcomeView, stamp: Stamp) -> WorkshopSheet:
    """Return the sheet of an outcome; without a pair it says why and has no lines."""
    if not view.clubs:
        return _none(outcome, stamp)
    system = outcome.system
    matching, stock = matching_note(view), stock_note(view)
    return WorkshopSheet(
        stamp=stamp,
        titles=tuple(map(_title, view.clubs)),
        blocks=_blocks(view, outcome),
        beside=tuple(
            note
            for note in (
                *shortened_notes(view),
                matching,
                stock,
                calibration_note(view, system),
                cure_note(view, system) if view.work else None,
            )
            if note is not None
        ),
        built=(*ways_notes(view, system), *built_notes(view, system)),
        below=(rules_note(view, system),),
        checks=CHECKS if view.work else (),
        cautions=_cautions(outcome, "bench"),
        stop=_cautions(outcome, "body"),
        nothing="" if view.work else "Both clubs are owned already and stay as they are: nothing is built.",
        tray=parts_list(view.bills),
    )


def _cautions(outcome: OutcomeView, topic: str) -> tuple[str, ...]:
    """Return the cautions of a topic, none twice."""
    return tuple(dict.fromkeys(one.text for one in outcome.cautions if one.topic == topic))


def _none(outcome: OutcomeView, stamp: Stamp) -> WorkshopSheet:
    """Return the sheet of an outcome without a pair: it says why and has no lines."""
    why = Note("WHY", tuple(dict.fromkeys(one.text for one in outcome.ruled_out)))
    return WorkshopSheet(
        stamp=stamp, titles=(), blocks=(), beside=(), built=(why,), below=(), checks=(), cautions=(),
        stop=_cautions(outcome, "body"), nothing="No pair can be built.", tray="",
    )  # fmt: skip


def _blocks(view: BuildView, outcome: OutcomeView) -> tuple[Block, ...]:
    """Return the lines of the build; of clubs that stay as they are only what may be measured."""
    clubs, system = view.clubs, outcome.system
    if not view.work:
        return (length_block(clubs, system), sum_block(clubs, system))
    counted = counting_block(clubs)
    return (
        head_block(clubs, system),
        shaft_block(clubs, system),
        length_block(clubs, system),
        port_block(clubs, system),
        mass_block(clubs, system),
        sum_block(clubs, system),
        *((counted,) if counted is not None else ()),
    )


def _title(club: BuildClub) -> str:
    """Name a club as a bench does."""
    view = club.view
    whose = "" if view.owned is None else "owned "
    return f"{view.role.upper()}: {whose}{view.label}, {degrees(view.loft)}"
