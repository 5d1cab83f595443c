"""From a walk through the trace to what the screen shows of one step."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from interview.views.bay.sayings import blocked
from interview.views.sources import source_of
from interview.views.trainer.names import decision_title, fact_words, moved_words, part_title, picked_name
from interview.views.trainer.steps import ReadFact, RunningBar, StepView
from rules.engine.language import Atom, atoms
from rules.engine.trace import Traced, atom_truth

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from interview.views.trainer.steps import Truth
    from rules.engine.language import Rule
    from rules.lessons.case import Case
    from rules.lessons.steps import Did, Step, Walk
    from rules.units import System


def step_view(case: Case, walk: Walk, system: System) -> StepView:
    """Return the step at which a walker stands, its running ledgers on the scale of its whole decision."""
    step = walk.step
    mine = [one for one in walk.steps if one.decision == step.decision]
    before = mine[: step.number - 1]
    out = {did.candidate for one in (*before, step) for did in one.did if did.ruled_out}
    amount = case.base.decisions[step.decision.rpartition(".")[2]].kind == "amount"
    rule, contested = step.rule, step.contested
    return StepView(
        at=step.number,
        count=step.of,
        decision=decision_title(case.base, step.decision),
        rule=rule.id if rule else "",
        text=step.text,
        read=tuple(_read(case, step, system)),
        bars=tuple(_bar(case, step, did, out, mine[0], system) for did in step.did),
        teaches=step.teaches,
        source=source_of(step.source).words if step.source else "",
        other=contested.other if contested else "",
        leans=contested.leans if contested else "",
        scale=_scale(mine, amount=amount),
    )


def _scale(steps: Sequence[Step], *, amount: bool) -> int:
    """Return the largest that any bar of a decision shows; of an amount how far it came from its start."""
    start = steps[0].did[0].running if amount else 0
    return max((abs(did.running - start) for one in steps for did in one.did), default=1) or 1


def _bar(case: Case, step: Step, did: Did, out: set[str], first: Step, system: System) -> RunningBar:
    """Return one running ledger; an amount's bar stands about its start."""
    amount = not did.candidate
    start = first.did[0].running if amount else 0
    name = part_title(step.decision)
    if not amount:
        name = picked_name(case, step.decision, did.candidate, system)
    return RunningBar(
        name=name,
        after=did.running - start,
        said=picked_name(case, step.decision, did.running, system) if amount else f"{did.running / 1000:.2f}",
        by=did.by,
        moved=moved_words(case.base, step.decision, did.by, system) if did.by else "",
        leads=amount or did.candidate == step.leader,
        out=did.candidate in out,
    )


def _read(case: Case, step: Step, system: System) -> Iterator[ReadFact]:
    """Yield what the rule wanted of each fact and what that was; then what it read without wanting."""
    base, views = case.base, {one.fact: one.view for one in step.reads}
    wanted = list(_atoms(step.rule))
    for atom in wanted:
        view = views.get(atom.fact)
        if view is None:
            continue
        bits = atom_truth(base.plan(step.decision.rpartition(".")[2]), atom, view)
        traced = Traced(atom, bits, atom.fact, view)
        yield ReadFact(_once(blocked(traced, base, system)), _truth(traced))
    told = {atom.fact for atom in wanted}
    for id, view in views.items():
        if id not in told:
            yield ReadFact(f"{base.facts[id].title}: {fact_words(base, id, view.best, system)}")


def _once(text: str) -> str:
    """Return a comparison without what it was where that is what was wanted: `type is fairway`."""
    wanted, _, rest = text.partition(" (it is ")
    return wanted if rest and wanted.endswith(f" is {rest.removesuffix(')')}") else text


def _atoms(rule: Rule | None) -> Iterator[Atom]:
    """Yield the comparisons of a rule, each once."""
    if rule is not None:
        yield from dict.fromkeys(atoms(rule.when))


def _truth(traced: Traced) -> Truth:
    """Return how a comparison came out on the best values, or that the question behind it is still open."""
    return cast("Truth", "undetermined" if traced.could == "undetermined" else traced.best)
