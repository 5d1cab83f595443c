"""What would change it, how sure it is, what is enough and what it leans on: a study in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry.asked_of import if_clause, is_likely, name
from interview.views.inquiry.words import Words, in_a_hundred, listed
from interview.views.outcome_text.quantities import trimmed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from interview.views.inquiry.asked import Explained
    from interview.views.outcome_text.page import Page
    from rules.inquiry.flips import Flip
    from rules.inquiry.leans import Lean
    from rules.inquiry.study import Study
    from rules.inquiry.sure import Sure, Winner
    from rules.inquiry.values import Trial

_FOR_CUSTOMER, _FOR_TRADE = 4, 16
"""Changes told at most."""
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
    """Write the nearest values that change the decision, by what comes of them, and the facts that do not."""
    page.heading("WHAT WOULD CHANGE IT")
    told: dict[str, list[str]] = {}
    seen: set[tuple[str, str]] = set()
    most = _FOR_CUSTOMER if said.customer else _FOR_TRADE
    for flip in of.flips:
        key = (flip.fact, "" if said.customer else flip.direction)
        if (
            key in seen
            or len(seen) >= most
            or (said.customer and not is_likely(said.base.facts[flip.fact], flip))
        ):
            continue
        seen.add(key)
        told.setdefault(said.picked(flip.decision, flip.pick), []).append(change_clause(flip, said))
    for pick, clauses in told.items():
        page.say(f"It would be {pick}:", 2)
        for clause in clauses:
            page.point(clause)
    if not told:
        page.say("Nothing that you could well have said otherwise, by itself." if said.customer
                 else "Nothing within its range, changed alone.", 2)  # fmt: skip
    elif not said.customer and of.idle:
        titles = list(dict.fromkeys(said.title(id.partition(".")[0]) for id in of.idle))
        still = [t for t in titles if t not in {said.title(f.fact.partition(".")[0]) for f in of.flips}]
        if still:
            page.say(f"Nothing within their range changes it: {listed(still)}.", 2)


def change_clause(flip: Flip, said: Words) -> str:
    """Say what a fact would have to be; for the trade also what it is."""
    facts = said.base.facts
    fact = facts[flip.fact]
    if said.customer:
        clause = if_clause(fact, facts[flip.fact.partition(".")[0]], flip, said.system)
        return f"{clause[:1].lower()}{clause[1:]}."
    to = said.value(flip.fact, flip.to)
    now = "not known now" if flip.now is None else f"now {said.value(flip.fact, flip.now)}"
    return f"{said.title(flip.fact)}: {to}{_OR[flip.direction]} ({now})."


def _overtake(study: Study, page: Page, said: Words) -> None:
    """Say what would make the runner-up win, or what was tried for it in vain; the trade alone hears it."""
    found = study.overtake
    if found is None or said.customer:
        return
    rival = said.pair(found.pair)
    if found.trials:
        what = listed([_trial(one, said) for one in found.trials])
        more = "" if len(found.trials) == 1 else " together; none of them can be spared"
        page.say(f"For {rival} to win it takes {what}{more}.", 2)
        return
    alone = "No one answer changed" if found.alone else "No one answer changed as far as was tried"
    pool = f", and no two or three of {listed(_titles(found.pool, said))} together," if found.pool else ""
    page.say(f"{alone}{pool or ' alone'} makes the runner-up win: {rival}.", 2)


def _titles(ids: Iterable[str], said: Words) -> list[str]:
    return list(dict.fromkeys(said.title(id) for id in ids))


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
            f"Some of this is known only roughly. Allowing for that, these two come out "
            f"{in_a_hundred(sure.share)}, and two much like them {in_a_hundred(sure.near)}."
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
        f"{said.title(one.fact)} ({one.word.replace('_', ' ') if one.word else said.off(one.fact, one.off)})"
        for one in winner.when
    ]
    said_when = f", mostly with {listed(when)}" if when else ""
    return f"{round(winner.share * 100)} %: {said.pair(winner.pair)}{said_when}."


def _steady(study: Study, said: Words) -> str:
    """Say whether open questions still matter for the pick."""
    steady = study.steady
    assert steady is not None
    needed = list(steady.needed)[:3]
    if said.customer:
        if steady.steady:
            return "Whatever you have not told us, it stays these two."
        names = listed([name(said.base.facts[id]) for id in needed])
        return f"What you have not told us could still change it{f', most of all {names}' if needed else ''}."
    if steady.steady:
        return "Whatever the open questions turn out to be, the pair stays."
    most = f"; most of it hangs on {listed([said.title(id) for id in needed])}" if needed else ""
    return f"Questions still open could change the pair{most}."


def _enough(study: Study, page: Page, said: Words) -> None:
    """Say which answers are enough by themselves, whether fewer would do, and what that takes for granted."""
    few = study.enough
    if few is None or not few.given:
        return
    page.heading("WHAT IS ENOUGH")
    facts, count = said.base.facts, len(few.answers)
    if not count:
        page.say(f"None of {'your ' if said.customer else 'the '}{few.given} answers was needed.")
        return
    if said.customer:
        names = listed([name(facts[id]) for id in few.answers])
        page.say(
            f"{count} of your {few.given} answers settle it: {names}. "
            f"Whatever you had said to the rest, it would be the same two clubs."
        )
        return
    rest = "the rest and the open questions" if few.anyhow else "the rest"
    usual = "" if few.anyhow else " (open questions taken as they usually are)"
    fewer = (
        "No fewer would do." if few.proved
        else f"At least {few.at_least} are needed; whether fewer than {count} would do was not found out."
    )  # fmt: skip
    page.say(
        f"{count} of the {few.given} answers settle the pair, whatever {rest} might have been{usual}: "
        f"{listed([said.title(id) for id in few.answers])}. {fewer}"
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
    told: dict[str, list[str]] = {}
    for one in moving[:_LEANS]:
        pick, what = _lean(one, said)
        told.setdefault(pick, []).append(what)
    for pick, some in told.items():
        page.say(f"It would be {pick}:", 2)
        for what in some:
            page.point(what)
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


def _lean(one: Lean, said: Words) -> tuple[str, str]:
    """Say which pair comes of an assumption, and at which end of its range."""
    swing = next(swing for swing in one.swings if "pairing" in swing.changes)
    pick = said.pair(str(swing.picks.get("pairing", "")))
    if one.sort == "law":
        return pick, f"by the {one.id.replace('-', ' ')}."
    if one.sort == "school":
        return pick, f"by the other school's view of {one.id}."
    assumption = said.base.assumptions.get(one.id)
    unit = assumption.unit if assumption else ""
    return pick, f"with {one.id} at {_plain(swing.to, unit, said)} (taken {_plain(one.value, unit, said)})."


def _plain(value: object, unit: str, said: Words) -> str:
    from rules.units import words

    if isinstance(value, float | int):
        return words(float(value), unit, said.system) if unit else trimmed(float(value), 4)
    return str(value).replace("_", " ")
