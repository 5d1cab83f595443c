"""From the class to what the screens show of it: how far each case has got, and how each trainee gets on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.trainer.cases import CaseLine, CasesView
from interview.views.trainer.names import case_title, part_title
from interview.views.trainer.roll import DueLine, KindLine, RollLine, RollView, TraineeView
from interview.views.trainer.said import said

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from interview.classroom import Attempt, ClassBook, Due, Progress
    from rules.engine import RuleBase
    from rules.lessons.case import Case

ALL = "all"
"""What the class calls every kind together."""


def cases_view(
    cases: Iterable[Case], book: ClassBook | None, trainee: str, now: datetime, *, notes: bool
) -> CasesView:
    """Return the list of cases, with the marks of whoever is at the keys."""
    made = book.roll.of(trainee) if book is not None and trainee else ()
    scores, due = _scores(made), _due(made, now)
    return CasesView(
        cases=tuple(_case(one, scores.get(one.id), one.id in due) for one in cases),
        trainee=_name(book, trainee),
        open=book is not None,
        notes=notes,
    )


def _case(one: Case, scores: list[float] | None, due: bool) -> CaseLine:
    """Return one case of the list."""
    marks = f"{round(100 * sum(scores) / len(scores))} %" if scores else ""
    progress = "new" if not scores else "due" if due else "tried"
    return CaseLine(one.id, case_title(one.id), one.note, progress, marks)  # type: ignore[arg-type]


def _name(book: ClassBook | None, trainee: str) -> str:
    """Return the name of a trainee; empty for nobody."""
    return next((one.name for one in book.trainees if one.id == trainee), "") if book is not None else ""


def _scores(made: Iterable[Attempt]) -> dict[str, list[float]]:
    """Return by case what a trainee earned for each decision the last time he predicted it."""
    last = {one.item: one.score for one in made if one.kind == "predict"}
    found: dict[str, list[float]] = {}
    for item, score in last.items():
        found.setdefault(case_of(item), []).append(score)
    return found


def case_of(item: str) -> str:
    """Return the case that an item is about: what stands between its kind and its last part."""
    return item.partition(":")[2].rpartition(":")[0]


def _due(made: Iterable[Attempt], now: datetime) -> set[str]:
    """Return the cases of which a prediction is due to be repeated."""
    from interview.classroom import due

    return {case_of(one.item) for one in due(made, now) if one.kind == "predict"}


def roll_view(book: ClassBook | None, here: str, now: datetime) -> RollView:
    """Return the class: everybody, with how much was tried and how well."""
    if book is None:
        return RollView((), open=False)
    from interview.classroom import progress

    lines = []
    for one in book.trainees:
        every = next((p for p in progress(book.roll.of(one.id), now) if p.kind == ALL), None)
        mean = None if every is None else round(100 * every.average)
        tried, due = (every.attempts, every.due) if every else (0, 0)
        lines.append(RollLine(one.id, one.name, tried, mean, due, one.id == here))
    return RollView(tuple(lines), folder=str(book.folder))


def trainee_view(book: ClassBook, id: str, base: RuleBase, now: datetime) -> TraineeView:
    """Return one trainee in full: kind by kind, and what comes back."""
    from interview.classroom import due, progress, repeats

    made = book.roll.of(id)
    now_due = due(made, now)
    later = [one for one in repeats(made) if one not in now_due]
    return TraineeView(
        name=book.roll.trainee(id).name,
        kinds=tuple(_kind(one) for one in progress(made, now) if one.kind != ALL),
        due=tuple(_due_line(one, base, now) for one in now_due),
        later=tuple(_due_line(one, base, now) for one in later),
    )


def _kind(one: Progress) -> KindLine:
    """Return how a trainee gets on with one kind of work."""
    figures = (round(100 * share) for share in (one.average, one.best, one.latest))
    return KindLine(said(f"roll.kind_{one.kind}"), one.attempts, *figures)


def due_lines(found: Iterable[Due], base: RuleBase) -> tuple[DueLine, ...]:
    """Return what is due by now."""
    return tuple(DueLine(one.item, item_title(one.item, one.kind, base), said("roll.now")) for one in found)


def _due_line(one: Due, base: RuleBase, now: datetime) -> DueLine:
    """Return one item that comes back: what it is, and when."""
    days = (one.when.date() - now.date()).days
    when = said("roll.in_days", days=days) if days > 0 else said("roll.now")
    return DueLine(one.item, item_title(one.item, one.kind, base), when)


def item_title(item: str, kind: str, base: RuleBase) -> str:
    """Return what an item is in words: its case, and the decision or fact that it is about."""
    last, case = item.rpartition(":")[2], case_title(case_of(item))
    if kind == "predict":
        role = last.rpartition(".")[0]
        what = f"{role} {part_title(last)}".strip() if last.rpartition(".")[2] in base.decisions else last
        return said("roll.item", case=case, what=what)
    if kind == "flip":
        what = said("roll.flip_of", fact=base.facts[last].title if last in base.facts else last)
        return said("roll.item", case=case, what=what)
    return said("roll.item", case=case, what=said(f"roll.kind_{kind}"))
