"""A decision explained as plain text, in three voices."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry import audit_text, changing, prices, rival_text
from interview.views.inquiry.nearness import near_sentence
from interview.views.inquiry.words import Words
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import opened, rounded, signed, spelled, trimmed
from rules.inquiry.ledgers import WhyNotAmount

if TYPE_CHECKING:
    from interview.session import Voice
    from interview.views.inquiry.asked import Explained
    from interview.views.lines import LineView

WIDTH = 80
_WORTH = 100
"""A line of less than a tenth of a point is not worth a customer's time, thousandths."""
_REASONS, _AGAINST = 4, 2
"""Reasons a customer is told at most, for what was picked and against it."""
_STOP = "First of all: swinging hurts. Stop here, and see a licensed professional before anybody fits a club."


def explain_text(of: Explained, voice: Voice = "fitter", width: int = WIDTH) -> str:
    """Return a decision explained: no colour, no markup, no line beyond `width` columns."""
    page, customer = Page(width), voice == "customer"
    said = Words(of.outcome, of.system, customer=customer)
    _stop(of, page)
    if of.audit is not None:
        audit_text.write(of.audit, of.decision.id, page, said)
    _pick(of, page, said)
    _why(of, page, customer, teach=voice == "trainer")
    prices.write(of, page, customer=customer)
    _against(of, page, said, teach=voice == "trainer")
    if not customer:
        _nearly(of, page, said, teach=voice == "trainer")
    changing.write(of, page, said)
    return page.text


def _stop(of: Explained, page: Page) -> None:
    """Say first what ends a fitting."""
    if any(one.topic == "body" and "pain" in one.rule.reads for one in of.outcome.notices):
        page.say(_STOP)
        page.gap()


def _pick(of: Explained, page: Page, said: Words) -> None:
    """Say what was decided."""
    one = of.decision
    if one.id == "pairing":
        what = said.pair(str(one.pick)) if one.pick else "no pair is possible"
        page.say(f"{'Your two clubs' if said.customer else 'The pair'}: {what}.")
    else:
        page.say(f"{opened(said.decision(one.id))}: {one.words or 'as it is'}.")
    if one.overruled:
        page.say("It was taken by hand.")


def _why(of: Explained, page: Page, customer: bool, teach: bool) -> None:
    """Write the ledger, largest first."""
    if customer:
        _why_for_customer(of, page)
        return
    page.heading("WHY")
    for line in sorted(of.decision.because, key=lambda line: (line.rule != "start", -line.weight)):
        if line.weight or line.rule == "start":
            page.entry([_amount(line)], _cited(line), _lessons(line, page, teach))
    if of.decision.score is not None:
        page.entry([signed(of.decision.score / 1000)], "points in all")
    if isinstance(of.decision.pick, int):
        page.entry([trimmed(of.decision.pick / 1000, 3)], f"{of.decision.unit} in the end")


def _why_for_customer(of: Explained, page: Page) -> None:
    """Write what speaks for it, and apart from that what speaks against it and was outweighed."""
    lines = sorted(of.decision.because, key=lambda line: (line.rule != "start", -line.weight))
    weighty = [line for line in lines if line.weight >= _WORTH or not line.spoken]
    against = [line for line in weighty if (line.points or 0) < 0][:_AGAINST]
    speaking = [line for line in weighty if (line.points or 0) >= 0 and line.rule != "rounding"][:_REASONS]
    page.heading("WHY")
    if not speaking:
        page.say("Of all there is, it has the least against it.", 2)
    them = "THEM" if of.decision.id == "pairing" else "IT"
    for heading, some in (("", speaking), (f"WHAT SPEAKS AGAINST {them}, AND WAS OUTWEIGHED", against)):
        if heading and some:
            page.heading(heading)
        for line in some:
            if page.once(spelled(line.text)):
                page.point(spelled(line.text))


def _amount(line: LineView) -> str:
    return "start" if line.rule == "start" else signed((line.points or line.adjust or 0) / 1000)


def _cited(line: LineView) -> str:
    """Write a line with its source."""
    where = f" [{line.rule}; {line.source.words}]" if line.spoken else ""
    return f"{rounded(line.text)}{where}"


def _lessons(line: LineView, page: Page, teach: bool) -> list[str]:
    """Return what the trainer adds: the lesson, and the other school with equal care."""
    found = [line.teaches] if teach and line.teaches and page.once(line.teaches) else []
    if line.contested is not None:
        found += [f"The other school: {line.contested.says}", f"Why we lean this way: {line.contested.leans}"]
    return found


def _against(of: Explained, page: Page, said: Words, teach: bool) -> None:
    """Hold it against the rival."""
    if isinstance(of.against, WhyNotAmount):
        rival_text.write_amount(of, of.against, page, said)
    elif of.against is not None:
        rival_text.write(of, of.against, page, said, teach)


def _nearly(of: Explained, page: Page, said: Words, teach: bool) -> None:
    """Write the rules that one comparison alone kept silent."""
    if not of.near:
        return
    page.heading("NEARLY (one condition short)")
    for near in of.near:
        page.point(f"{near.rule.id}: {near_sentence(near, said)}")
        if teach and page.once(near.rule.teaches):
            page.say(near.rule.teaches, 4)
