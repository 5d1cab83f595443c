"""What would change it, how sure it is, what is enough and what it leans on: a study in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry.words import Words, in_a_hundred, listed
from interview.views.outcome_text.quantities import trimmed

if TYPE_CHECKING:
    from interview.views.inquiry.asked import Explained
    from interview.views.outcome_text.page import Page
    from rules.inquiry.flips import Flip
    from rules.inquiry.leans import Lean
    from rules.inquiry.study import Study
    from rules.inquiry.sure import Sure, Winner
    from rules.inquiry.values import Trial

_FOR_CUSTOMER, _FOR_TRADE = 4, 16
"""Changes told at most."""
_JARGON = ("attack_angle", "driver_shaft_mass", "driver_loft", "longest_iron_loft")
"""Facts of which no customer thinks."""
_LEANS = 8
"""Assumptions told at most that change something."""
_OR = {"up": " or more", "down": " or less", "": ""}


def write(of: Explained, page: Page, said: Words) -> None:
    """Write a study's findings on a decision; nothing where no study was made."""
    study = of.study
    if study is None:
        return
    _changes(of, page, said)
    if of.decision.id != "pairing":
        return
    _overtake(study, page, said)
    _sure(study, page, said)
    _enough(study, page, said)
    _leans(study, page, said)


def _changes(of: Explained, page: Page, said: Words) -> None:
    """Write the nearest values that change the decision, and the facts that do not."""
    page.heading("WHAT WOULD CHANGE IT")
    told: set[tuple[str, str]] = set()
    most = _FOR_CUSTOMER if said.customer else _FOR_TRADE
    for flip in of.flips:
        key = (flip.fact, "" if said.customer else flip.direction)
        if key in told or len(told) >= most or (said.customer and flip.fact in _JARGON):
            continue
        told.add(key)
        page.point(change_sentence(flip, said))
    if not told:
        page.point("Nothing within its range, changed alone.")
    elif not said.customer and of.idle:
        titles = list(dict.fromkeys(said.title(id.partition(".")[0]) for id in of.idle))
        still = [t for t in titles if t not in {said.title(f.fact.partition(".")[0]) for f in of.flips}]
        if still:
            page.say(f"Nothing within their range changes it: {listed(still)}.", 2)


def change_sentence(flip: Flip, said: Words) -> str:
    """Say what a fact is, what it would have to be, and what would be decided then."""
    now, to = said.value(flip.fact, flip.now), said.value(flip.fact, flip.to)
    pick = said.picked(flip.decision, flip.pick)
    title = said.title(flip.fact)
    if said.customer:
        return f"If your {title} were {to}{_OR[flip.direction]}, it would be {pick}."
    return f"{title}: {to}{_OR[flip.direction]} (now {now}) gives {pick}."


def _overtake(study: Study, page: Page, said: Words) -> None:
    """Say what would make the runner-up win."""
    if study.rival is None:
        return
    rival = said.pair(study.rival)
    if study.overtake is None:
        if not said.customer:
            page.say(f"No three answers that were tried make the runner-up win: {rival}.", 2)
        return
    what = listed([_trial(one, said) for one in study.overtake.trials])
    if len(study.overtake.trials) > 1 or not said.customer:
        page.say(f"For {rival} to win it takes {what}.", 2)


def _trial(one: Trial, said: Words) -> str:
    return f"{said.title(one.fact)} {said.value(one.fact, one.value)}{_OR[one.direction]}"


def _sure(study: Study, page: Page, said: Words) -> None:
    """Say how sure it is, and who wins otherwise and when."""
    if study.sure is None:
        return
    page.heading("HOW SURE")
    sure = study.sure
    if said.customer:
        page.say(
            f"Allowing for how roughly some of this is known, these two come out {in_a_hundred(sure.share)}, "
            f"and two of the same types within two degrees of loft {in_a_hundred(sure.near)}."
        )
    else:
        page.say(_figures(sure))
        for winner in sure.others:
            page.point(_winner(winner, said))
    if study.steady is not None and study.steady.tried:
        page.say(_steady(study, said))


def _figures(sure: Sure) -> str:
    """Write the figures for the trade."""
    return (
        f"The pair stays in {round(sure.share * 100)} % of {sure.tried} draws over what every fact could be "
        f"(standard error {max(1, round(sure.error * 100))} %); the same types within two degrees of loft in "
        f"{round(sure.near * 100)} %."
    )


def _winner(winner: Winner, said: Words) -> str:
    """Say who wins otherwise, how often and when."""
    when = [
        f"the {said.title(one.fact)} is {one.word.replace('_', ' ')}"
        if one.word
        else f"the {said.title(one.fact)} is {said.off(one.fact, one.off)}"
        for one in winner.when
    ]
    said_when = f", mostly when {listed(when)}" if when else ""
    return f"{round(winner.share * 100)} %: {said.pair(winner.pair)}{said_when}."


def _steady(study: Study, said: Words) -> str:
    """Say whether open questions still matter for the pick."""
    steady = study.steady
    assert steady is not None
    if steady.steady:
        return "Whatever the open questions turn out to be, the pair stays."
    needed = [said.title(id) for id in list(steady.needed)[:3]]
    most = f"; most of it hangs on {listed(needed)}" if needed else ""
    return f"Questions still open could change the pair{most}."


def _enough(study: Study, page: Page, said: Words) -> None:
    """Say which answers are enough by themselves."""
    if study.enough is None:
        return
    page.heading("WHAT IS ENOUGH")
    titles = [said.title(id) for id in study.enough.answers]
    given = f"{'your ' if said.customer else ''}{study.enough.given} answers"
    if not titles:
        page.say(f"None of {given} was needed: the pair comes out whatever they are.")
        return
    page.say(
        f"{len(titles)} of {given} settle it by themselves, and none of these can be spared: "
        f"{listed(titles)}."
    )


def _leans(study: Study, page: Page, said: Words) -> None:
    """Say which assumptions the pick leans on."""
    if study.leans is None:
        return
    page.heading("WHAT IT LEANS ON")
    moving = [one for one in study.leans if one.changes_pick]
    if said.customer:
        page.say(
            "Some figures we had to assume could change it; your own shots will tell."
            if moving
            else "No figure that we had to assume would change it within reason."
        )
        return
    for one in moving[:_LEANS]:
        page.point(_lean(one, said))
    rest = len(study.leans) - len(moving[:_LEANS])
    page.say(f"{rest} more were swung over their range: {_count(study, moving)}.", 2)


def _count(study: Study, moving: list[Lean]) -> str:
    """Say what the rest do."""
    others = sum(one.changes and not one.changes_pick for one in study.leans or ())
    more = len(moving) - _LEANS
    parts = [f"{more} {'change' if more > 1 else 'changes'} the pair"] if more > 0 else []
    if others:
        parts.append(f"{others} {'change' if others > 1 else 'changes'} how a club is built")
    return listed([*parts, "the others change nothing"])


def _lean(one: Lean, said: Words) -> str:
    """Say what an assumption is taken to be, and at which end of its range the pair changes."""
    swing = next(swing for swing in one.swings if "pairing" in swing.changes)
    pick = said.pair(str(swing.picks.get("pairing", "")))
    if one.sort == "law":
        return f"the second flight law gives {pick}"
    if one.sort == "school":
        return f"the other school's view of {one.id} gives {pick}"
    assumption = said.base.assumptions.get(one.id)
    unit = assumption.unit if assumption else ""
    return f"{one.id}: {_plain(swing.to, unit, said)} (taken {_plain(one.value, unit, said)}) gives {pick}"


def _plain(value: object, unit: str, said: Words) -> str:
    from rules.units import words

    if isinstance(value, float | int):
        return words(float(value), unit, said.system) if unit else trimmed(float(value), 4)
    return str(value).replace("_", " ")
