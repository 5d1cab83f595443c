"""What the trainer's views show, as plain lines: for pipes, screen readers and dumb terminals."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.views.trainer.names import decision_title
from interview.views.trainer.said import cases_words
from interview.wording.words import words

if TYPE_CHECKING:
    from interview.classroom import Progress
    from interview.views.trainer.change import ChangeView, FlipView
    from interview.views.trainer.chart import ChartLine, FactView, InfluenceView
    from interview.views.trainer.edit import EditView, Effect
    from interview.views.trainer.marks import MarkLine
    from interview.views.trainer.steps import RunningBar, StepView
    from rules.engine import RuleBase

IN = "  "
"""How far a line under another stands in."""


def plain(key: str, **values: object) -> str:
    """Return a sentence of the lessons line by line."""
    return words().say(f"trainer.plain.{key}", "trainer", **values)


def mark_lines(base: RuleBase, one: MarkLine) -> Iterator[str]:
    """Say a marked prediction: the verdict, what was predicted and came, why, and what each fact carried."""
    verdict = words().say(f"trainer_screen.reveal.{one.judged}", "trainer")
    yield plain("marked", decision=decision_title(base, one.id), verdict=verdict)
    yield IN + plain("predicted", predicted=one.predicted, came=one.came)
    yield IN + plain("earned", total=one.marks, near=one.near, reasons=one.reasons)
    for text in one.why:
        yield IN + text
    for fact in one.facts:
        key = "fact_missed" if not fact.named else "fact_drove" if fact.share else "fact_nothing"
        yield IN + plain(key, fact=fact.title, share=fact.share)


def step_lines(view: StepView) -> Iterator[str]:
    """Say one step: what it read, why it speaks, what it did to whom, and on whose word."""
    yield plain("step", at=view.at, count=view.count, decision=view.decision)
    yield IN + view.text
    for read in view.read:
        yield IN + plain("step_read", read=read.text)
    for bar in view.bars:
        yield IN + _did(bar, race=len(view.bars) > 1)
    if view.other:
        yield IN + plain("step_own", leans=view.leans)
        yield IN + plain("step_other", other=view.other)
    if view.teaches:
        yield IN + plain("step_teaches", teaches=view.teaches)
    if view.rule:
        yield IN + plain("step_source", source=view.source, rule=view.rule)


def _did(bar: RunningBar, *, race: bool) -> str:
    """Say what a step did to one candidate; in a race also whether it leads."""
    leads = plain("step_out") if bar.out else plain("step_leads") if bar.leads and race else ""
    key = "step_did" if bar.moved else "step_still"
    return plain(key, name=bar.name, moved=bar.moved, after=bar.said, leads=leads)


def change_lines(view: ChangeView) -> Iterator[str]:
    """Say what one changed answer moves, the pair first."""
    yield plain("change_line", title=view.question, before=view.was, after=view.now)
    shifts = [one for one in (view.pair, *view.decisions, *view.facts) if one and one.before != one.after]
    if not (view.flipped or view.decisions):
        yield IN + plain("change_none")
    for one in (*shifts, *view.points):
        yield IN + plain("change_line", title=one.title, before=one.before, after=one.after)
    for text in view.gained:
        yield IN + plain("change_gained", text=text)
    for text in view.lost:
        yield IN + plain("change_lost", text=text)


def flip_lines(view: FlipView) -> Iterator[str]:
    """Say the guesses at a flip, and once it is over what is true."""
    for value, gave, _ in view.guesses[-1:]:
        yield IN + (plain("flip_guess", value=value, gave=gave) if gave else value)
    for text in view.told:
        yield IN + text
    if view.marks is not None:
        yield IN + plain("flip_marks", marks=view.marks)


def chart_lines_plain(lines: tuple[ChartLine, ...]) -> Iterator[str]:
    """Say where every fact goes, a line each."""
    for one in lines:
        decisions = ", ".join(one.decisions) or plain("map_nothing")
        yield plain("map_line", fact=one.title, rules=one.rules, decisions=decisions)


def fact_lines(view: FactView) -> Iterator[str]:
    """Say where one fact goes: what follows from it, and rule by rule what it reaches."""
    yield plain("map_about", fact=view.title, text=view.text)
    if view.follows:
        yield IN + plain("map_follows", facts=", ".join(view.follows))
    if not view.groups:
        yield IN + plain("map_none")
    for decision, readers in view.groups:
        yield IN + plain("map_decision", decision=decision)
        for one in readers:
            key = "map_through" if one.through else "map_rule"
            yield IN * 2 + plain(key, rule=one.rule, does=one.does, through=one.through)


def influence_lines(view: InfluenceView) -> Iterator[str]:
    """Say what a fact does over all cases: in sum, then in each case that it moves."""
    yield from view.summary
    for one in view.cases:
        if one.flips or one.moved:
            key = "influence_pair_and" if one.moved else "influence_pair"
            moved = plain(key, moved=one.moved) if one.flips else one.moved
            yield IN + plain("influence_case", case=one.title, moved=moved)


def edit_lines(view: EditView) -> Iterator[str]:
    """Say one rule or assumption on the copy, with the places that may be changed."""
    if view.entry is not None:
        yield view.entry.text
    if view.off:
        yield IN + plain("edit_off")
    for one in view.fields:
        changed = plain("edit_changed") if one.changed else ""
        yield IN + plain("edit_line", path=one.path, about=one.about, text=one.text, changed=changed)


def here_lines_plain(moved: tuple[tuple[str, str, str], ...]) -> Iterator[str]:
    """Say what edits do to one golfer."""
    if not moved:
        yield plain("effect_none")
    for title, before, after in moved:
        yield IN + plain("change_line", title=title, before=before, after=after)


def effect_lines(view: Effect) -> Iterator[str]:
    """Say what edits do to all cases."""
    moved = view.moved or ()
    yield plain("replay_some" if moved else "replay_none", count=len(moved), cases=cases_words(view.of))
    for title, before, after in moved:
        yield IN + plain("change_line", title=title, before=before, after=after)


def progress_lines(name: str, parts: tuple[Progress, ...], kinds: dict[str, str]) -> Iterator[str]:
    """Say how one trainee gets on: in sum, then kind by kind; `kinds` names them."""
    if not parts:
        yield plain("class_new", name=name)
        return
    whole, *rest = parts
    yield plain(
        "class_line", name=name, attempts=whole.attempts, average=round(100 * whole.average), due=whole.due
    )
    for one in rest:
        average, best, latest = (round(100 * share) for share in (one.average, one.best, one.latest))
        title = kinds.get(one.kind, one.kind)
        yield IN + plain(
            "class_kind", kind=title, attempts=one.attempts, average=average, best=best, latest=latest
        )
