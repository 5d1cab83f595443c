"""From a case and what was predicted of it to what the screens show, before and after it is marked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.trainer.marks import FactMark, MarkLine, RevealView
from interview.views.trainer.names import case_title, fact_title, part_title, picked_name, role_of
from interview.views.trainer.predict import Pickable, PredictLine, PredictView
from interview.views.trainer.said import said
from interview.wording.words import words
from rules.engine.ledger import Amount
from rules.inquiry.ledgers import picked_of
from rules.lessons.case import decided, ledger_of
from rules.lessons.marks import overall
from rules.lessons.naming import nameable
from rules.lessons.predict import asked

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from rules.lessons.case import Case
    from rules.lessons.marks import Mark
    from rules.lessons.predict import Prediction
    from rules.units import System


def predict_view(case: Case, predictions: Mapping[str, Prediction], system: System) -> PredictView:
    """Return the decisions of a case with what is predicted of each."""
    return PredictView(
        title=case_title(case.id),
        lines=tuple(_predict_line(case, id, predictions.get(id), system) for id in decided(case)),
    )


def _predict_line(case: Case, id: str, one: Prediction | None, system: System) -> PredictLine:
    """Return one decision as predicted."""
    return PredictLine(
        id=id,
        title=part_title(id),
        role=role_of(id),
        predicted=picked_name(case, id, one.value, system) if one else "",
        facts=tuple(case.base.facts[fact].title for fact in one.reasons) if one else (),
    )


def options_of(case: Case, decision: str, taken: Prediction | None, system: System) -> tuple[Pickable, ...]:
    """Return the candidates of a choice, in an order that tells nothing; empty for an amount."""
    value = taken.value if taken else None
    return tuple(
        Pickable(id, picked_name(case, decision, id, system), taken=id == value)
        for id in asked(case, decision).options
    )


def amount_hint(case: Case, decision: str, system: System) -> str:
    """Say what can be typed for an amount: its limits and its steps."""
    one = asked(case, decision)
    low, high = (picked_name(case, decision, end, system) for end in one.limits)
    return said("predict.amount_hint", low=low, high=high, unit=words().unit(one.unit))


def facts_of(case: Case, decision: str, named: Iterable[str], system: System) -> tuple[Pickable, ...]:
    """Return the facts that may be named for a decision, each with what was said of it."""
    chosen = set(named)
    return tuple(
        Pickable(id, fact_title(case.base, id), _about(case, id, system), id in chosen)
        for id in nameable(case, decision)
    )


def _about(case: Case, id: str, system: System) -> str:
    """Return what was said of a fact; empty where nobody said anything of it."""
    from interview.views.bay.sayings import value_words

    answer = case.subject.answers.get(id)
    if answer is None:
        return ""
    return value_words(case.base.facts[id], answer.value, system)


def reveal_view(case: Case, marks: Iterable[Mark], system: System) -> RevealView:
    """Return a prediction marked, decision by decision; what was left blank is shown and not marked."""
    found = {one.prediction.decision: one for one in marks}
    lines = tuple(
        _mark_line(case, found[id], system) if id in found else _blank(case, id, system)
        for id in decided(case)
    )
    total = round(100 * overall(tuple(found.values())))
    return RevealView(case_title(case.id), lines, total, case.note)


def _mark_line(case: Case, one: Mark, system: System) -> MarkLine:
    """Return one decision marked."""
    id = one.prediction.decision
    return MarkLine(
        id=id,
        title=part_title(id),
        role=role_of(id),
        predicted=picked_name(case, id, one.prediction.value, system),
        came=picked_name(case, id, one.pick, system),
        judged=one.verdict,
        marks=round(100 * one.total),
        near=round(100 * one.closeness),
        reasons=round(100 * one.reasons),
        facts=tuple(_facts(case, one)),
        why=tuple(_why(case, one, system)),
    )


def _facts(case: Case, one: Mark) -> Iterator[FactMark]:
    """Yield the facts named, then the heaviest of those that were not."""
    base, moved = case.base, one.drivers
    for id, share in sorted(one.carried.items(), key=lambda pair: -pair[1]):
        yield FactMark(base.facts[id].title, round(100 * share), named=True)
    for id in one.missed:
        yield FactMark(base.facts[id].title, round(100 * moved.share((id,))), named=False)


def _why(case: Case, one: Mark, system: System) -> Iterator[str]:
    """Yield why so many marks: how near the answer was, and what the reasons carried."""
    id, near, reasons = one.prediction.decision, round(100 * one.closeness), round(100 * one.reasons)
    if one.right:
        yield said("reveal.why_right")
    elif one.gap is None:
        yield said("reveal.why_out")
    elif isinstance(ledger_of(case, id), Amount):
        from interview.views.trainer.names import moved_words

        off = moved_words(case.base, id, abs(one.gap), system).removeprefix("+")
        yield said("reveal.why_amount", off=off, near=near)
    else:
        yield said("reveal.why_choice", points=f"{one.gap / 1000:.2f}", near=near)
    if not one.prediction.reasons and one.drivers.facts:
        yield said("reveal.why_no_reason")
    else:
        yield said("reveal.why_reasons", reasons=reasons)


def _blank(case: Case, id: str, system: System) -> MarkLine:
    """Return a decision of which nothing was predicted."""
    found = ledger_of(case, id)
    pick = picked_of(case.outcome, id, found)
    came = "" if pick is None else picked_name(case, id, pick, system)
    return MarkLine(id, part_title(id), role_of(id), "", came, "blank", 0)
