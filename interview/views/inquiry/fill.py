"""A study as the views of an outcome take it: sure, steady, what would change, what changes the pick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry.words import Words
from interview.views.numbers import Plain, plain
from interview.views.study import Change
from interview.views.study import Study as Filled

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.fitting import Outcome
    from rules.inquiry.flips import Flip
    from rules.inquiry.study import Study
    from rules.units import System


def filled(outcome: Outcome, study: Study | None, system: System = "imperial") -> Filled:
    """Return a study as views render it; without one its fields stay null."""
    if study is None:
        return Filled()
    return Filled(
        sure=study.sure.share if study.sure else None,
        steady=study.steady.steady if study.steady else None,
        would_change=would_change(outcome, study, system),
        changes_pick=changes_pick(outcome, study),
    )


def would_change(outcome: Outcome, study: Study, system: System) -> dict[str, tuple[Change, ...]]:
    """Return what would change each decision, the nearest first."""
    said = Words(outcome, system)
    flips = sorted((f for one in study.flips or () for f in one.flips), key=lambda f: (f.far, f.fact))
    found: dict[str, list[Change]] = {}
    for flip in flips:
        found.setdefault(flip.decision, []).append(_change(outcome.house.base.facts[flip.fact], flip, said))
    return {decision: tuple(changes) for decision, changes in found.items()}


def _change(fact: Fact, flip: Flip, said: Words) -> Change:
    """Return one change, numbers in the fact's own unit."""
    now, to = (_plain(value, fact) for value in (flip.now, flip.to))
    pick = str(flip.pick) if flip.decision == "pairing" else said.picked(flip.decision, flip.pick)
    return Change(flip.fact, now, to, fact.unit or None, pick)


def _plain(value: float | str | frozenset[str] | None, fact: Fact) -> Plain:
    return plain(value, fact.unit)


def changes_pick(outcome: Outcome, study: Study) -> dict[str, bool]:
    """Return for every assumption whether its plausible range changes the pick; one not read does not."""
    found = dict.fromkeys(outcome.house.base.assumptions, False)
    found |= dict.fromkeys((item.id for item in outcome.house.shelf.defaults.items), False)
    for lean in study.leans or ():
        if lean.sort in ("assumption", "shelf"):
            found[lean.id] = lean.changes_pick
    return found
