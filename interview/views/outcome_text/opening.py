"""How the text begins: what must stop first, the pair in a sentence or two, and what outweighs it."""

from __future__ import annotations

from interview.views.club import ClubView
from interview.views.outcome import OutcomeView
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import degrees, length, listed, spelled, spoken_length, trimmed
from interview.views.pairing import PairingView

_ASKED = 4
"""Open questions named at most."""


def stop(view: OutcomeView, page: Page) -> bool:
    """Say first what ends a fitting: a body that hurts. Returns whether anything does."""
    found = [one for one in view.cautions if one.topic == "body"]
    for one in found:
        if page.once(one.text):
            page.say(one.text)
    page.gap()
    return bool(found)


def pair(view: OutcomeView, page: Page, customer: bool, stopped: bool) -> None:
    """Say which two clubs, how they stand, and what may make another answer the better one."""
    if not view.clubs:
        _no_pair(view, page, customer)
        return
    page.say(_sentence(view, customer, stopped))
    if not customer and view.pairing is not None:
        page.say(_standing(view, view.pairing) + ("" if stopped else _asking(view)))
    elif not view.settled and not stopped:
        page.say(f"This stands on what you said so far. Still open, and it could matter: {_open(view)}.")
    verdicts(view, page, customer)


def verdicts(view: OutcomeView, page: Page, customer: bool) -> None:
    """Say what outweighs the pair: one club is enough, keep what you have, mend the driver first."""
    for one in view.cautions:
        if one.topic == "bag" and page.once(one.text):
            page.gap()
            page.say(spelled(one.text) if customer else one.text)


def _sentence(view: OutcomeView, customer: bool, stopped: bool) -> str:
    """Return the pair in one sentence."""
    both = ", and ".join(named(club, view, customer) for club in view.clubs)
    if stopped:
        start = "For later, when you are well: " if customer else "For later, as arithmetic only: "
        return f"{start}{both}."
    return f"Your two clubs: {both}." if customer else f"The pair: {both}."


def named(club: ClubView, view: OutcomeView, customer: bool) -> str:
    """Name a club with its loft and length."""
    size = spoken_length(club.length, view.system) if customer else length(club.length, view.system)
    whose = "a" if club.owned is None else "your own" if customer else "the golfer's own"
    how = f"shortened to {size}" if club.cut else f"{size} long"
    return f"{whose} {club.label} with {degrees(club.loft)} of loft, {how}"


def _standing(view: OutcomeView, pairing: PairingView) -> str:
    """Return how the pair stands against the next best; empty where there is no other."""
    rival = pairing.rival(pairing.runner_up) if pairing.runner_up else None
    said = ""
    if rival is not None and pairing.margin is not None:
        points = trimmed(abs(pairing.margin) / 1000, 1)
        way = "behind" if pairing.margin >= 0 else "ahead of what was taken by hand"
        lofts = " and ".join(degrees(loft) for loft in rival.lofts).replace(" degrees and", " and")
        said = f"Next best: {rival.label} of {lofts} ({rival.id}), {points} points {way}. "
    return said


def _asking(view: OutcomeView) -> str:
    """Return what is still worth asking."""
    if view.settled:
        return "No open question can change anything any more."
    return f"Still worth asking: {_open(view)}."


def _open(view: OutcomeView) -> str:
    """Return the open questions that still matter, in the order to ask them, by title."""
    titles = [view.facts[id].title for id in view.worth_asking if id in view.facts]
    more = [f"{len(titles) - _ASKED} more"] if len(titles) > _ASKED else []
    return listed(titles[:_ASKED] + more)


def _no_pair(view: OutcomeView, page: Page, customer: bool) -> None:
    """Say that no pair is possible, and why; what has one reason is named together."""
    whom = "you from what is on the shelf here" if customer else "this golfer from this shelf"
    page.say(f"No pair of clubs can be made for {whom}.")
    reasons: dict[str, list[str]] = {}
    for one in view.ruled_out:
        reasons.setdefault(one.text, []).append(one.candidate)
    for text, candidates in reasons.items():
        page.point(text if customer else f"{', '.join(candidates)}: {text}")
