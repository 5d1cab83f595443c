"""Every fact that the road stood on, with its value, its spread, and how it is known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from rules.engine.views import ABSENT

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.engine.views import Value, View
    from rules.fitting import Outcome


class FactView(NamedTuple):
    """One fact as it stands. Numbers in SI."""

    id: str
    """Facts of one club carry its role, such as longer.face_height."""
    title: str
    kind: str
    unit: str
    """Unit in which it is shown; empty for words and plain numbers."""
    value: Value | Mapping[str, float] | None
    """None while nobody knows it; shares by part."""
    how: str
    """measured, said, estimated, derived, assumed or shots."""
    spread: float
    """Standard deviation, SI; 0 for words."""
    open: bool
    """Whether an open question could still move it."""
    asked: bool
    """Whether it is a question of the interview."""


def fact_views(outcome: Outcome) -> dict[str, FactView]:
    """Return the golfer's facts and those of the pair that was picked; a club's own under its role."""
    facts = outcome.house.base.facts
    found = {id: _view(facts[id], id, view) for id, view in outcome.golfer.views.items()}
    found |= {one.id: one for one in _shares(outcome)}
    if outcome.picked is not None:
        found |= {id: _view(facts[id], id, view) for id, view in outcome.picked.views.items()}
    for club in outcome.clubs:
        for id, view in {**club.rung.views, **club.views}.items():
            if id not in outcome.golfer.views:
                found[f"{club.role}.{id}"] = _view(facts[id], f"{club.role}.{id}", view)
    return found


def _view(fact: Fact, id: str, view: View) -> FactView:
    """Return the view of one fact."""
    number = fact.kind == "number"
    return FactView(
        id=id,
        title=fact.title,
        kind=fact.kind,
        unit=fact.unit if number else "",
        value=view.best,
        how=view.how,
        spread=view.spread if number and view.best is not None else 0.0,
        open=view.status == "open",
        asked=fact.ask is not None,
    )


def _shares(outcome: Outcome) -> Iterator[FactView]:
    """Yield the questions of shares as wholes; their parts are facts of their own."""
    for id, fact in outcome.house.base.facts.items():
        if fact.kind != "shares":
            continue
        parts = {name: outcome.golfer.views.get(f"{id}.{name}", ABSENT) for name in fact.values}
        first = next(iter(parts.values()))
        value = {
            name: view.best for name, view in parts.items() if isinstance(view.best, float) and view.best
        }
        yield FactView(
            id, fact.title, "shares", "%", value or None, first.how, 0.0, first.status == "open", asked=True
        )
