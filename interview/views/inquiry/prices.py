"""What a decision costs beside its reasons: a length half inch by half inch, a face lie by lie."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from interview.views.build import lengths, lies

if TYPE_CHECKING:
    from interview.views.inquiry.asked import Explained
    from interview.views.outcome_text.page import Page


def write(of: Explained, page: Page, *, customer: bool) -> None:
    """Write the table that belongs to a decision; nothing for a decision that has none."""
    role, part = of.decision.role, of.decision.part
    if part == "length" and (club := lengths.length_prices(of.outcome, role)) is not None:
        if customer:
            page.gap()
            page.say(lengths.length_for_customer(club, of.system))
            return
        page.heading("HALF INCH BY HALF INCH")
        page.laid(lengths.length_lines(club, of.system))
        _notes(page, lengths.length_notes(club))
    if part == "head" and (face := lies.face_prices(of.outcome, role)) is not None:
        if customer:
            page.gap()
            page.say(lies.face_for_customer(face))
            return
        page.heading("THE FACE, LIE BY LIE")
        page.laid(lies.face_lines(face))
        _notes(page, lies.face_notes(face))


def _notes(page: Page, notes: list[str]) -> None:
    for note in notes:
        page.say(note, 2)


def data(of: Explained) -> dict[str, Any]:
    """Return the same as plain data: `lengths` of a length, `face` of a head, null for other decisions."""
    role, part = of.decision.role, of.decision.part
    club = lengths.length_prices(of.outcome, role) if part == "length" else None
    face = lies.face_prices(of.outcome, role) if part == "head" else None
    return {
        "lengths": lengths.length_data(club) if club is not None else None,
        "face": lies.face_data(face) if face is not None else None,
    }
