"""The golfer's sheet as plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import distance

if TYPE_CHECKING:
    from collections.abc import Iterable

    from interview.sheets.golfer.cards import Card
    from interview.sheets.golfer.sheet import GolferSheet
    from interview.views.build.face import MetView

WIDTH = 80
_WIDE = 20


def text(sheet: GolferSheet, width: int = WIDTH) -> str:
    """Return the sheet as plain text, no line longer than `width`, nor than 80 columns."""
    page = Page(min(WIDTH, width))
    stamp = sheet.stamp
    page.heading("YOUR TWO CLUBS")
    page.say(f"{stamp.shop}, {stamp.printed}; session {stamp.session}, ticket {stamp.ticket}; {stamp.hand}")
    page.gap()
    for sentence in sheet.stop:
        page.say(sentence)
        page.gap()
    page.say(sheet.lead)
    for sentence in sheet.verdicts:
        page.say(sentence)
    for card in sheet.cards:
        _card(card, page)
    _ladder(sheet, page)
    _faces(sheet, page)
    _list(page, "WHY THESE TWO" if sheet.cards else "WHY NOT", sheet.why)
    _list(page, "WHAT SPEAKS AGAINST THEM", sheet.against)
    _list(page, "WHY THEY ARE MADE THE WAY THEY ARE", sheet.made_so)
    if sheet.numbers:
        page.heading("YOUR NUMBERS")
        for label, value in sheet.numbers:
            page.row(label, value, wide=34)
    _list(page, "WHAT WAS NOT TESTED", sheet.untested)
    if not sheet.stop:
        _list(page, "HOW TO CHECK IT ON THE COURSE", sheet.check, numbered=True)
    _list(page, "PLEASE MIND", sheet.mind)
    page.heading("YOURS TO TAKE ANYWHERE")
    page.say(sheet.yours)
    return page.text + "\n"


def _list(page: Page, heading: str, items: Iterable[str], *, numbered: bool = False) -> None:
    """Write a list under a heading; nothing where there is nothing."""
    said = list(items)
    if said:
        page.heading(heading)
    for number, item in enumerate(said, 1):
        page.point(item, f"{number}." if numbered else "-")


def _card(card: Card, page: Page) -> None:
    """Write one club."""
    page.heading(f"{card.name.upper()}, {card.role}; {card.whose}")
    for label, value in (*card.big, *card.rows):
        page.row(label[:1].upper() + label[1:], value, wide=_WIDE)
    page.say(card.says, indent=2)


def _ladder(sheet: GolferSheet, page: Page) -> None:
    """Write the ladder of distances, top to bottom, with the step below each."""
    gaps = sheet.gaps
    if gaps is None:
        return
    page.heading("HOW FAR, HIT WELL, TO WHERE THE BALL LANDS")
    rungs = [("driver", gaps.driver), (sheet.labels[0], gaps.longer), (sheet.labels[1], gaps.shorter)]
    if gaps.iron is not None:
        rungs.append(("longest iron", gaps.iron))
    before: float | None = None
    for name, carry in rungs:
        step = "" if before is None else f", {distance(abs(before - carry), sheet.system)} less"
        if before is not None and carry > before:
            step = step.replace("less", "more")
        page.row(name, f"{distance(carry, sheet.system)}{step}", wide=_WIDE)
        before = carry


def _met(one: MetView) -> str:
    """Write where the ball is met on one lie."""
    most = " (matters most)" if one.tightest else ""
    return f"{one.lie.replace('_', ' ')} {one.height * 1000:.0f} mm{most}"


def _faces(sheet: GolferSheet, page: Page) -> None:
    """Write where the ball meets each face."""
    if not sheet.faces:
        return
    page.heading("WHERE YOUR BALL MEETS THE FACE, UP FROM ITS LOWER EDGE")
    for label, face in zip(sheet.labels, sheet.faces, strict=True):
        lies = ", ".join(map(_met, face.met))
        best = f"best at {face.cg * 1000:.0f} mm of {face.height * 1000:.0f} mm"
        page.row(label, f"{lies}; {best}", wide=_WIDE)
