"""What a face costs on each lie, and the head that the tightest one asks for: a table, words, plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from interview.text import columns
from interview.views.numbers import in_unit, number
from interview.views.outcome_text.quantities import listed
from rules.units import words
from rules.workbench.faces import face_table

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.workbench.faces import FaceTable, LieCost

_TEED, _LUSH = "tee", "rough"


def face_prices(outcome: Outcome, role: str) -> FaceTable | None:
    """Return what a club's face costs lie by lie; None where there is no such club."""
    rung = next((club.rung for club in outcome.clubs if club.role == role), None)
    if rung is None:
        return None
    return face_table(outcome.house.base, outcome.house.shelf, outcome.golfer, rung)


def face_lines(of: FaceTable) -> list[str]:
    """Lay the lies out as a table, the tightest that matters marked."""
    head = ("  lie", "of shots", "met up the face", "off its line", "speed lost")
    over = ("  over all", "100 %", "", "", _share(of.loss))
    return columns(head, [*map(_row, of.lies), over])


def _row(one: LieCost) -> tuple[str, ...]:
    """Write one lie."""
    return (
        f"{'>' if one.tightest else ' '} {_named(one)}",
        f"{round(one.share * 100)} %" if one.share else "–",
        _mm(one.on.met),
        _off(one.on.above),
        _share(one.on.lost),
    )


def _named(one: LieCost) -> str:
    return one.name.replace("_", " ")


def _mm(metres: float) -> str:
    """Write a length on a face: in millimetres whatever the units, as faces are."""
    return words(metres, "mm")


def _off(above: float) -> str:
    """Write how far above the line through the centre of mass a strike is."""
    return f"{'+' if above > 0 else ''}{_mm(above)}"


def _share(share: float) -> str:
    return f"{share * 100:.1f} %"


def face_notes(of: FaceTable) -> list[str]:
    """Say what the tightest lie asks for, which head comes nearest, and what a tee or a lush lie costs."""
    tight = of.tightest
    asks = (
        f"The tightest lie that matters ({_named(tight)}) asks for a head whose centre of mass projects "
        f"{_mm(of.asked)} up its face, where your strikes are; by the lie alone a face of {_mm(of.centred)} "
        "would be met at its centre (a cross-check, for fairway woods)."
    )
    teed, lush = of.lie(_TEED).on.lost, of.lie(_LUSH).on.lost
    costs = (
        f"Off a tee this face gives up {_share(teed)} of ball speed, off a lush lie {_share(lush)}, on the "
        f"tightest {_share(tight.on.lost)}. Impact alone, no flight; thin balls are outcomes of their own."
    )
    usual = [] if of.known else ["The head was never measured: a usual one stands in."]
    return [asks, *_heads(of), costs, *usual]


def _heads(of: FaceTable) -> list[str]:
    """Say how near each head of the place comes to what the tightest lie asks for."""
    if not of.heads:
        return []
    each = [
        f"{one.head.label} {_off(one.tight.above)} ({_share(one.loss)} over all lies)" for one in of.heads
    ]
    return [f"Heads in stock for this place, the one that it asks for first: {listed(each)}."]


def face_for_customer(of: FaceTable) -> str:
    """Say in one sentence what this face costs off the ground and off a tee."""
    teed, tight = (round(one.on.lost * 100) for one in (of.lie(_TEED), of.tightest))
    return (
        f"This face costs you about {tight} % of ball speed on the tightest lies that you play from, and "
        f"about {teed} % when the ball sits on a tee."
    )


def face_data(of: FaceTable) -> dict[str, Any]:
    """Return the face as plain data, units in the keys."""
    return {
        "loss": number(of.loss, 5),
        "asked_cg_up_face_mm": in_unit(of.asked, "mm", 2),
        "centred_face_height_mm": in_unit(of.centred, "mm", 2),
        "lies": [
            {"lie": one.name, "share": number(one.share, 4), "tightest_that_matters": one.tightest,
             "met_mm": in_unit(one.on.met, "mm", 2), "above_line_mm": in_unit(one.on.above, "mm", 2),
             "loss": number(one.on.lost, 5)}
            for one in of.lies
        ],
        "heads": [
            {"head": one.head.id, "loss": number(one.loss, 5),
             "above_line_mm": in_unit(one.tight.above, "mm", 2)}
            for one in of.heads
        ],
    }  # fmt: skip
