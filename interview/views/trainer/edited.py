"""From a copy of the rules that is being changed to what the screen shows of it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from interview.views.inquiry.words import listed
from interview.views.sources import source_of
from interview.views.trainer.changed import picked_words
from interview.views.trainer.edit import EditView, Effect, EntryLine, FieldLine
from interview.views.trainer.names import case_title, decision_title, pair_name
from interview.views.trainer.said import said
from rules.lessons.overlay import editable, entry

if TYPE_CHECKING:
    from collections.abc import Iterator

    from rules.engine import RuleBase
    from rules.fitting import Outcome
    from rules.inquiry.replay import Case as Replayed
    from rules.inquiry.replay import Tally
    from rules.inquiry.whatif import WhatIf
    from rules.lessons.case import Case
    from rules.lessons.fields import Field
    from rules.lessons.overlay import Overlay
    from rules.units import System

_OPS = {
    "is": "is", "is_not": "is not", "one_of": "is one of", "below": "below", "at_most": "at most",
    "above": "above", "at_least": "at least", "between": "between",
}  # fmt: skip


def entry_lines(overlay: Overlay, typed: str) -> tuple[EntryLine, ...]:
    """Return the rules and values in whose words every typed word begins one; those changed come first."""
    base, wanted = overlay.house.base, typed.casefold().replace("-", " ").split()
    found = [_entry_line(overlay, id) for id in (*base.rules, *base.assumptions)]
    found = [one for one in found if all(any(w.startswith(p) for w in _words(one)) for p in wanted)]
    return tuple(sorted(found, key=lambda one: not one.changed))


def _words(one: EntryLine) -> list[str]:
    """Return the words that an entry is found by."""
    return f"{one.id} {one.about} {one.text}".casefold().replace("-", " ").split()


def _entry_line(overlay: Overlay, id: str) -> EntryLine:
    """Return one rule or value of the list."""
    base = overlay.house.base
    changed = id in overlay.rows or id in overlay.off
    if id in base.rules:
        rule = base.rules[id]
        about = base.decisions[rule.decision].title if rule.decision else said("edit.notice_of")
        return EntryLine(id, about, rule.because, changed)
    return EntryLine(id, said("edit.value_of"), base.assumptions[id].text, changed)


def edit_view(overlay: Overlay, id: str, golfer: str) -> EditView:
    """Return the copy with one entry in hand, its effects filled in later; LessonProblem where it is none."""
    if not id:
        return EditView(changes=len(overlay.rows) + len(overlay.off), golfer=case_title(golfer))
    base = overlay.house.base
    row = entry(overlay, id)[1]
    return EditView(
        entry=replace(_entry_line(overlay, id), text=str(row.get("because", row.get("text", "")))),
        fields=tuple(_fields(overlay, id)),
        off=id in overlay.off,
        source=source_of(base.sources[id]).words,
        teaches=str(row.get("teaches", "")),
        changes=len(overlay.rows) + len(overlay.off),
        golfer=case_title(golfer),
    )


def _fields(overlay: Overlay, id: str) -> Iterator[FieldLine]:
    """Yield the places of an entry that may be changed, each marked where it differs from ours."""
    ours = {one.path: one.text for one in editable(replace(overlay, rows={}, off=frozenset()), id)}
    for one in editable(overlay, id):
        facts = overlay.house.base.facts
        fact = facts[one.fact].title if one.fact in facts else one.fact
        yield FieldLine(one.path, _about(one), one.text, fact, ours.get(one.path) != one.text)


def _about(one: Field) -> str:
    """Say what stands in a place."""
    last = one.path.rpartition(".")[2]
    if one.kind == "sentence":
        return said(f"edit.field_{last}")
    op = next((_OPS[part] for part in reversed(one.path.split(".")) if part in _OPS), last)
    return said(f"edit.field_{one.kind}", op=op)


def here_lines(found: WhatIf, system: System) -> tuple[tuple[str, str, str], ...]:
    """Return what comes out otherwise for one golfer: title, before, after; a pair that flips alone."""
    base = found.before.house.base
    lines = []
    for one in found.decisions:
        if one.decision == "pairing":
            return ((_title(base, one.decision), _pair(found.before, system), _pair(found.after, system)),)
        ends = (
            picked_words(found.before, one.decision, one.before, system),
            picked_words(found.after, one.decision, one.after, system),
        )
        if ends[0] != ends[1]:
            lines.append((_title(base, one.decision), *ends))
    points = [_points(found, pair) for pair in found.points]
    return (*lines, *(one for one in points if one[1] != one[2]))


def _title(base: RuleBase, decision: str) -> str:
    """Return what a decision is about, with a capital."""
    title = decision_title(base, decision)
    return title[:1].upper() + title[1:]


def _pair(outcome: Outcome, system: System) -> str:
    """Return the pair of an outcome in words, without its id."""
    return pair_name(outcome, outcome.picked.id if outcome.picked else None, system)


def _points(found: WhatIf, pair: str) -> tuple[str, str, str]:
    """Return the points of a pair before and after."""
    before, after = found.points[pair]
    return said("edit.points"), f"{before / 1000:.2f}", f"{after / 1000:.2f}"


def effect_view(tally: Tally, cases: dict[str, Case], system: System) -> Effect:
    """Return what a change does to all past cases."""
    moved = tuple(_moved(one, cases[one.id], system) for one in tally.changed if one.id in cases)
    return Effect(tally.cases, tally.cases, moved)


def _moved(one: Replayed, case: Case, system: System) -> tuple[str, str, str]:
    """Return one past case that comes out otherwise: its pair before and after, or the parts that differ."""
    if one.before != one.after:
        ends = [pair_name(case.outcome, id, system) for id in (one.before, one.after)]
        return case_title(one.id), ends[0], ends[1]
    parts = dict.fromkeys(decision_title(case.base, id) for id in one.decisions)
    return case_title(one.id), said("edit.same_pair"), listed(list(parts))
