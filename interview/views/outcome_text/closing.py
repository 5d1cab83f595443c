"""How the text ends: what was taken by hand, what was assumed, what to be careful of, how to prove it."""

from __future__ import annotations

from collections.abc import Iterable

from interview.views.facts import FactView
from interview.views.leans import LeanView
from interview.views.notices import NoticeView
from interview.views.outcome import OutcomeView
from interview.views.outcome_text.ledgers import lesson
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import distance, listed, rounded, signed, spelled
from interview.views.study import Study
from interview.wording.words import words as wording
from rules.units import System, words

_UNLESS = "Unless told otherwise, "
_FEW = {"fit": 2, "evidence": 2}
"""Cautions of a topic that a golfer is told at most; those of every other topic are told whole."""
_FLAT = "landing-angles-compare-only"
"""Said once, beside the flights."""
_WEIGHTY = 1.0
"""An open question with less at stake than this, in points, is not worth a golfer's time."""
_YOU = (("the golfer is ", "you are "), ("the golfer does ", "you do "))
"""Assumptions speak of the golfer; to him they speak of himself."""
_BENCH = (
    "Cutting, gluing and adding weight belong to a trained bench: blades, dust, glue and heat hurt people. "
    "Local codes and licensed practice come first."
)
_FIRST = "Local codes and licensed practice come first."


def overrides(view: OutcomeView, page: Page) -> None:
    """Say what was taken by hand and what that costs."""
    if not view.overrides:
        return
    page.heading("TAKEN BY HAND")
    for one in view.overrides:
        if not one.followed:
            page.point(f"{one.decision}: {one.fitter} cannot be followed with the answers as they are now.")
            continue
        if one.stale:
            page.point(f"{one.decision}: {one.fitter}. The rules now decide the same by themselves.")
            continue
        price = (
            f"{signed(one.points)} points, {'+' if one.carry > 0 else ''}{distance(one.carry, view.system)} "
            f"of carry, {signed(one.balance, 1)} points of balance"
        )
        reason = f" ({one.reason})" if one.reason else ""
        page.point(f"{one.decision}: {one.fitter} instead of {one.engine}{reason}. Price: {price}.")


def assumed_for_customer(view: OutcomeView, page: Page) -> None:
    """Say in plain words what was taken for granted because nobody said."""
    taken = [one for one in view.leans if one.group == "answer" and _matters(one, view)]
    if not taken:
        return
    page.heading("WHAT WE TOOK FOR GRANTED")
    texts = [one.text.removeprefix(_UNLESS) for one in taken if one.text.startswith(_UNLESS)]
    unless = [text.partition(";")[0].rstrip(".") for text in texts]  # what comes after is for the trade
    numbers = [_usual(one, view) for one in taken if not one.text.startswith(_UNLESS)]
    if unless:
        page.say(_to_you(f"You did not tell us otherwise, so we took it that {listed(unless)}."))
    if numbers:
        page.say(spelled(f"Where a number was missing we took a usual one: {'; '.join(numbers)}."))


def _matters(one: LeanView, view: OutcomeView) -> bool:
    """Return whether an assumed answer could have moved something: it is closed, or much is at stake."""
    return not one.open or view.stakes.get(one.question, 0.0) >= _WEIGHTY


def _usual(one: LeanView, view: OutcomeView) -> str:
    """Name what was taken where a number was missing."""
    return f"{view.facts[one.question].title} {_plain(one.value, one.unit, view.system)}"


def _to_you(sentence: str) -> str:
    """Turn a sentence about the golfer into one that is said to him."""
    for before, after in _YOU:
        sentence = sentence.replace(before, after)
    return sentence


def assumed_for_trade(view: OutcomeView, page: Page, teach: bool) -> None:
    """Say what stands in for answers and measures; the trainer reads every assumption with its range."""
    page.heading("ASSUMED")
    _unsaid(view, page)
    for one in view.leans:
        if one.group == "shelf" and not teach and page.once(one.text):
            page.point(f"{one.text} {_between(one, view.system)}")
    if teach:
        for one in view.leans:
            if one.group != "answer" and page.once(one.text + one.part):
                page.point(f"{one.text} {_between(one, view.system)} Source: {one.source.words}.")
        return
    count = sum(one.group in ("physics", "rules") for one in view.leans)
    many = "1 more value" if count == 1 else f"{count} more values"
    page.say(f"The arithmetic leans on {many}, each with a range and a source.", indent=2)


def _unsaid(view: OutcomeView, page: Page) -> None:
    """List the answers that nobody gave with what stands in, and those for which nothing does."""
    taken, absent = [], []
    for fact in view.facts.values():
        if fact.asked and fact.how == "assumed":
            if fact.value is None:
                absent.append(fact.title)
            else:
                taken.append(f"{fact.title} {_value(fact, view.system)}")
    if taken:
        page.point(f"Not said or not known, so the usual stands in: {'; '.join(taken)}.")
    if absent:
        page.point(f"Not known, and nothing stands in: {'; '.join(absent)}.")


def _value(fact: FactView, system: System) -> str:
    """Write a fact's value."""
    value = fact.value
    if isinstance(value, str):
        return value.replace("_", " ")
    if isinstance(value, float | int):
        return words(float(value), fact.unit, system)
    if isinstance(value, frozenset):
        return listed(sorted(value))
    shares = value or {}
    called = wording().share
    return ", ".join(f"{called(fact.id, name)} {round(share * 100)} %" for name, share in shares.items())


def _between(one: LeanView, system: System) -> str:
    """Write an assumption's value and what else it could be."""
    if one.value is None:
        return ""
    said = [_plain(value, one.unit, system) for value in (one.value, *(one.range or ()))]
    if len(said) == 3 and not isinstance(one.value, str):
        return f"Taken: {said[0]} ({said[1]} to {said[2]})."
    return f"Taken: {said[0]}."


def _plain(value: object, symbol: str, system: System) -> str:
    return (
        words(float(value), symbol, system)
        if isinstance(value, float | int)
        else str(value).replace("_", " ")
    )


def cautions(view: OutcomeView, page: Page, customer: bool, teach: bool) -> None:
    """Write what to be careful of: what can hurt first, and for everyone."""
    found = [one for one in view.cautions if one.rule != _FLAT and page.once(one.text)]
    if customer:
        found = list(_for_customer(found))
    if not found:
        return
    page.heading("PLEASE MIND" if customer else "CAUTIONS")
    for one in found:
        page.point(spelled(one.text) if customer else rounded(one.text))
        if teach:
            _lesson(one, page, 4)
    if not any(_FIRST in one.text for one in found):
        page.point(_FIRST)


def _for_customer(found: Iterable[NoticeView]) -> Iterable[NoticeView]:
    """Yield what a golfer should hear: the bench's many cautions as one, and a few about fitting."""
    told: dict[str, int] = {}
    for one in found:
        told[one.topic] = told.get(one.topic, 0) + 1
        if one.topic == "bench":
            if told["bench"] == 1:
                yield NoticeView(one.rule, one.topic, _BENCH, "", one.source, None)
        elif told[one.topic] <= _FEW.get(one.topic, told[one.topic]):
            yield one


def _lesson(one: NoticeView, page: Page, indent: int) -> None:
    """Write what a caution teaches, its source, and the other school."""
    page.say(lesson(one.teaches, one.source), indent)
    if one.contested is not None:
        page.say(f"The other school: {one.contested.says}", indent)
        page.say(f"Why we lean this way: {one.contested.leans}", indent)


def proofs(view: OutcomeView, page: Page, customer: bool, teach: bool) -> None:
    """Write the plan to prove the clubs, step by step."""
    if not view.proofs:
        return
    page.heading("HOW TO MAKE SURE" if customer else "PROVE IT")
    for number, one in enumerate(view.proofs, 1):
        page.point(spelled(one.text) if customer else rounded(one.text), f"{number}.")
        if teach:
            _lesson(one, page, 5)


def sure(study: Study, page: Page, customer: bool) -> None:
    """Say how sure the pick is, where somebody has worked it out."""
    if study.sure is None:
        return
    share = f"{round(study.sure * 100)} %"
    if customer:
        page.say(f"Allowing for how roughly some of this is known, these two come out {share} of the time.")
    else:
        page.say(f"Sure: the pair stays in {share} of draws over what every fact could be.")
