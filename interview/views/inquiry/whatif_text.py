"""Two outcomes side by side as text in three voices and as plain data: only what differs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from interview.views.inquiry.words import Words
from interview.views.numbers import plain, thousandths
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import distance, opened, rounded, signed, spelled
from rules.units import unit

if TYPE_CHECKING:
    from interview.session import Voice
    from rules.fitting import Outcome
    from rules.inquiry.whatif import Decision, Moved, WhatIf
    from rules.units import System

WIDTH = 80
_PARTS_TOLD = frozenset(("head", "length", "balance", "shaft", "grip"))
"""Parts of a club that a customer asks about."""


def whatif_text(found: WhatIf, voice: Voice, system: System, width: int = WIDTH) -> str:
    """Return both outcomes, only where they differ."""
    page, customer = Page(width), voice == "customer"
    before, after = (Words(one, system, customer=customer) for one in (found.before, found.after))
    _facts(found, page, before, after)
    _pick(found, page, before, after)
    _clubs(found, page, before, after)
    _said(found, page, system, customer)
    return page.text


def _facts(found: WhatIf, page: Page, before: Words, after: Words) -> None:
    """Say what is taken to be otherwise; of derived facts only the trade hears."""
    page.heading("WHAT IS CHANGED")
    asked = before.base.facts
    told = [
        one for one in found.facts if asked[one.fact].ask or asked[one.fact].part_of or not before.customer
    ]
    # A question and the fact that follows from it may bear one title and say the same.
    for line in dict.fromkeys(f"{before.title(one.fact)}: {_value(one, before, after)}" for one in told):
        page.point(line)
    if not told:
        page.point("Nothing that anything depends on.")


def _value(one: Moved, before: Words, after: Words) -> str:
    """Write a fact before and after."""
    old = before.value(one.fact, one.before.best if one.before else None)
    return f"{old} -> {after.value(one.fact, one.after.best if one.after else None)}"


def _pick(found: WhatIf, page: Page, before: Words, after: Words) -> None:
    """Say what becomes of the pair."""
    page.heading("WHAT COMES OF IT")
    picks = [one.picked.id if one.picked else "" for one in (found.before, found.after)]
    if picks[0] == picks[1]:
        page.say(f"The pair stays: {before.pair(picks[0])}.")
    else:
        page.say(f"{opened(before.pair(picks[0]))} -> {after.pair(picks[1])}.")
    if before.customer:
        return
    for pair, (old, new) in found.points.items():
        page.point(f"{before.pair(pair)}: {signed(old / 1000)} -> {signed(new / 1000)} points")


def _clubs(found: WhatIf, page: Page, before: Words, after: Words) -> None:
    """Say what becomes of each club."""
    for one in found.decisions:
        if one.decision != "pairing" and _told(one, before.customer):
            old, new = _amount(one, one.before, before), _amount(one, one.after, after)
            page.point(f"{before.decision(one.decision)}: {old} -> {new}")
    for old_club, new_club in zip(found.before.clubs, found.after.clubs, strict=False):
        was, now = old_club.rung.flown.expected, new_club.rung.flown.expected
        if round(unit("yd").from_si(was)) != round(unit("yd").from_si(now)):
            ends = [distance(carry, before.system, about=before.customer) for carry in (was, now)]
            if ends[0] != ends[1]:
                page.point(f"carry to expect of the {old_club.role} club: {ends[0]} -> {ends[1]}")


def _told(one: Decision, customer: bool) -> bool:
    return not customer or one.decision.rpartition(".")[2] in _PARTS_TOLD


def _amount(one: Decision, pick: str | int | None, said: Words) -> str:
    """Write what a decision comes to."""
    if pick is None:
        return "not decided"
    if isinstance(pick, int):
        declared = said.base.decisions[one.decision.rpartition(".")[2]]
        return said.picked(one.decision, unit(declared.unit).to_si(pick / 1000))
    return said.picked(one.decision, pick)


def _said(found: WhatIf, page: Page, system: System, customer: bool) -> None:
    """Say which cautions come up and which go."""
    for heading, rules, outcome in (
        ("THEN MIND AS WELL", found.gained, found.after), ("NO LONGER SAID", found.lost, found.before)
    ):  # fmt: skip
        texts = [one.text(system) for one in outcome.notices if one.rule.id in rules]
        if texts:
            page.heading(heading)
            for text in texts:
                if page.once(text):
                    page.point(spelled(text) if customer else rounded(text))


def whatif_json(found: WhatIf, session_id: str) -> dict[str, Any]:
    """Return both outcomes as plain data, only where they differ."""
    facts = found.before.house.base.facts
    return {
        "schema": 1,
        "session": session_id,
        "before": _outcome(found.before),
        "after": _outcome(found.after),
        "decisions": [
            {"decision": one.decision, "before": _plain(one.before), "after": _plain(one.after)}
            for one in found.decisions
        ],
        "facts": [
            {"fact": one.fact, "unit": facts[one.fact].unit or None,
             "before": plain(one.before.best if one.before else None, facts[one.fact].unit),
             "after": plain(one.after.best if one.after else None, facts[one.fact].unit)}
            for one in found.facts
        ],
        "points": {
            pair: {"before": thousandths(old), "after": thousandths(new)}
            for pair, (old, new) in found.points.items()
        },
        "cautions": {"gained": list(found.gained), "lost": list(found.lost)},
    }  # fmt: skip


def _outcome(outcome: Outcome) -> dict[str, Any]:
    margin = outcome.pairing.margin if outcome.pairing else None
    return {
        "pick": outcome.picked.id if outcome.picked else None,
        "margin": thousandths(margin),
        "settled": outcome.settled,
    }


def _plain(pick: str | int | None) -> str | float | None:
    return thousandths(pick) if isinstance(pick, int) else pick
