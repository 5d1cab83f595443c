"""A decision explained as plain text, in three voices."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry import audit_text, changing, prices
from interview.views.inquiry.nearness import near_sentence
from interview.views.inquiry.words import Words
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import opened, rounded, signed, spelled, trimmed
from rules.inquiry.ledgers import WhyNot, WhyNotAmount

if TYPE_CHECKING:
    from interview.session import Voice
    from interview.views.inquiry.asked import Explained
    from interview.views.lines import LineView
    from rules.engine import Line
    from rules.inquiry.ledgers import Difference

WIDTH = 80
_WORTH = 100
"""A line of less than a tenth of a point is not worth a customer's time, thousandths."""
_REASONS = 4
"""Reasons a customer is told at most."""
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
    lines = sorted(of.decision.because, key=lambda line: (line.rule != "start" and -line.weight) or -(10**9))
    if customer:
        lines = [line for line in lines if line.weight >= _WORTH or not line.spoken][:_REASONS]
    page.heading("WHY")
    for line in lines:
        if customer:
            if page.once(line.text):
                page.point(spelled(line.text))
        elif line.weight or line.rule == "start":
            page.entry([_amount(line)], _cited(line), _lessons(line, page, teach))
    if not customer and of.decision.score is not None:
        page.entry([signed(of.decision.score / 1000)], "points in all")
    if not customer and isinstance(of.decision.pick, int):
        page.entry([trimmed(of.decision.pick / 1000, 3)], f"{of.decision.unit} in the end")


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
        _amount_against(of, of.against, page)
    elif of.against is not None:
        _rival(of, of.against, page, said, teach)


def _rival(of: Explained, it: WhyNot, page: Page, said: Words, teach: bool) -> None:
    """Write what separates the pick from a rival; the differences add up to the margin."""
    name = said.picked(of.decision.id, it.rival)
    page.heading(f"WHY NOT {name}")
    for line in it.ruled_out:
        page.point(f"It cannot be: {rounded(line.text(of.system))}")
    if said.customer:
        _rival_for_customer(of, it, page)
        return
    for one in it.differences:
        below = [one.rule.teaches] if teach and page.once(one.rule.teaches) else []
        page.entry([signed(one.apart / 1000)], _apart(of, one), below)
    more = "" if it.margin >= 0 else ": it has more"
    page.entry([signed(it.margin / 1000)], f"points between them{more}")


def _apart(of: Explained, one: Difference) -> str:
    """Say what a rule gives to either."""
    texts = [line.text(of.system) if line else "" for line in (one.mine, one.other)]
    if all(texts) and texts[0] != texts[1]:
        return f"picked: {rounded(texts[0])} Instead: {rounded(texts[1])} [{one.rule.id}]"
    which = "" if all(texts) else "picked: " if texts[0] else "instead: "
    return f"{which}{rounded(texts[0] or texts[1])} [{one.rule.id}]"


def _rival_for_customer(of: Explained, it: WhyNot, page: Page) -> None:
    """Tell a customer the few reasons that weigh most, each once."""
    told = 0
    for one in it.differences:
        line, for_us = _telling(one)
        if line is None or told >= _REASONS or abs(one.apart) < _WORTH:
            continue
        text = spelled(line.text(of.system))
        if page.once(text):
            page.point(text if for_us else f"In its favour: {text}")
            told += 1
    if it.margin < 0:
        page.say("By our reckoning it would even be the better one.")


def _telling(one: Difference) -> tuple[Line | None, bool]:
    """Return the line that says best why a rule favours one of the two, and whether it favours the pick.

    What speaks against the rival is told of the rival; what speaks for it is its own line.
    """
    if one.apart > 0:
        worse = one.other if one.other is not None and one.other.points < 0 else None
        return (worse or one.mine), True
    better = one.other if one.other is not None and one.other.points > 0 else None
    return (better or one.mine), False


def _amount_against(of: Explained, it: WhyNotAmount, page: Page) -> None:
    """Say which lines pull away from another amount."""
    unit = of.decision.unit or ""
    page.heading(f"WHY NOT {trimmed(it.wanted / 1000, 3)} {unit}".rstrip())
    if not it.limits[0] <= it.wanted <= it.limits[1]:
        page.point("It is outside what is allowed here.")
    if not it.short:
        page.point("It is what was decided.")
    elif not it.against:
        page.point("No rule pulls the other way; it simply starts elsewhere.")
    for line in it.against:
        page.entry([signed(line.adjust / 1000)], rounded(line.text(of.system)))
    for line in it.toward:
        page.entry([signed(line.adjust / 1000)], f"toward it: {rounded(line.text(of.system))}")


def _nearly(of: Explained, page: Page, said: Words, teach: bool) -> None:
    """Write the rules that one comparison alone kept silent."""
    if not of.near:
        return
    page.heading("NEARLY (one condition short)")
    for near in of.near:
        page.point(f"{near.rule.id}: {near_sentence(near, said)}")
        if teach and page.once(near.rule.teaches):
            page.say(near.rule.teaches, 4)
