"""What a run leaned on: answers nobody gave, house values of the physics, thresholds, gaps of the shelf.

The list is not written down anywhere: what the road reads is noted while it is walked once more, on
best values alone and with a flight that costs nothing in the place of real ones.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple, cast

from interview.views.sources import SourceView, source_of
from rules.engine.ledger import Choice
from rules.engine.plan import assumptions_of
from rules.facts.golfer import golfer
from rules.fitting import rungs
from rules.house import House
from rules.ladder.judge import Judge
from rules.ladder.pairs import pairs
from rules.units import unit

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Assumption, Fact, Rule
    from rules.engine.views import Value
    from rules.fitting import Outcome
    from rules.shelf import Assumption as Gap


_USUAL = "usual-"
"""How the rule base names what stands in for an answer."""


class LeanView(NamedTuple):
    """One assumption that the run stood on."""

    id: str
    text: str
    group: str
    """answer (nobody said), physics, rules, or shelf (nobody measured)."""
    value: Value | None
    """SI, or a word."""
    range: tuple[Value, ...] | None
    """Low and high, SI; the words that it could be instead; None where nothing else is plausible."""
    unit: str
    source: SourceView
    part: str = ""
    """Of the shelf: which part was not measured."""
    question: str = ""
    """Of an answer: the fact that it stands in for."""
    open: bool = False
    """Of an answer: whether a question that could replace it is still open."""


class _Noted(Mapping[str, "Assumption"]):
    """The assumptions, noting which were read."""

    def __init__(self, inner: Mapping[str, Assumption]) -> None:
        self._inner = inner
        self.read: dict[str, None] = {}

    def __getitem__(self, id: str) -> Assumption:
        found = self._inner[id]
        self.read[id] = None
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._inner)

    def __len__(self) -> int:
        return len(self._inner)


class _Watched:
    """A rule base whose assumptions are noted as they are read; all else is the rule base's own."""

    def __init__(self, base: RuleBase) -> None:
        self._base = base
        self.assumptions = _Noted(base.assumptions)

    def __getattr__(self, name: str) -> object:
        return getattr(self._base, name)


def leans(outcome: Outcome) -> tuple[LeanView, ...]:
    """Return everything that the run leaned on: answers first, then physics, thresholds and the shelf."""
    base = outcome.house.base
    read = _read(outcome)
    answers = _answers(outcome, read)
    physics = [id for id in read if id not in answers]
    rules = [id for id in dict.fromkeys(_thresholds(outcome)) if id not in answers and id not in physics]
    found = [_lean(base.assumptions[id], "answer", *stands) for id, stands in answers.items()]
    found += [_lean(base.assumptions[id], "physics") for id in physics]
    found += [_lean(base.assumptions[id], "rules") for id in rules]
    return (*found, *_gaps(outcome))


def _answers(outcome: Outcome, read: Iterable[str]) -> dict[str, tuple[str, bool]]:
    """Return what stands in for answers nobody gave: for which fact, and whether its question is open.

    A question names its fallback. A derived fact that is assumed, such as the head speed of a golfer of
    whom nothing is known, stands on the assumption that has its very value.
    """
    base = outcome.house.base
    found: dict[str, tuple[str, bool]] = {}
    for id, view in outcome.golfer.views.items():
        if view.how != "assumed" or view.best is None:
            continue
        fact = base.facts[id]
        stands = fact.fallback
        if stands is None and fact.derived:
            usual = (a for a in read if a.startswith(_USUAL))
            stands = next((a for a in usual if _same(base.assumptions[a], fact, view.best)), None)
        if stands is not None:
            found.setdefault(stands, (id, view.status == "open"))
    return found


def _same(assumption: Assumption, fact: Fact, value: Value) -> bool:
    """Return whether an assumption is what a derived number stands on."""
    if fact.kind != "number" or fact.unit == "" or assumption.value != value:
        return False
    return unit(assumption.unit).dimension == unit(fact.unit).dimension


def _read(outcome: Outcome) -> list[str]:
    """Return the assumptions that the road reads, from the golfer's facts to the pairs."""
    watched = _Watched(outcome.house.base)
    base = cast("RuleBase", watched)
    shelf = outcome.house.shelf
    judge = Judge(House(base, shelf), golfer(base, outcome.subject, shelf))
    filled, _ = rungs(judge, outcome.subject, lambda _: outcome.golfer.driver)
    pairs(judge, filled)
    return list(watched.assumptions.read)


def _thresholds(outcome: Outcome) -> Iterator[str]:
    """Yield the starts of amounts, and the thresholds of the rules that spoke on the pick."""
    base = outcome.house.base
    for rule in _spoke(outcome):
        yield from sorted(assumptions_of(rule))
    if outcome.picked is not None:
        yield from (d.start_assumption for d in base.decisions.values() if d.start_assumption is not None)


def _spoke(outcome: Outcome) -> Iterator[Rule]:
    """Yield the rules that spoke for or against the pick, of its pair and of its clubs, and the notices."""
    yield from (notice.rule for notice in outcome.notices)
    if outcome.picked is None or outcome.pairing is None:
        return
    standings = [outcome.pairing.standing(outcome.picked.id)]
    for club in outcome.clubs:
        choices = (*club.rung.decisions.values(), club.direction)
        standings += [one.pick for one in choices if isinstance(one, Choice)]
        for one in choices:
            if one is not None and not isinstance(one, Choice):
                yield from (line.rule for line in one.lines if line.rule is not None)
    for standing in standings:
        if standing is not None:
            yield from (line.rule for line in standing.lines if line.rule is not None)


def _lean(assumption: Assumption, group: str, question: str = "", is_open: bool = False) -> LeanView:
    """Return the view of one assumption of the rule base."""
    return LeanView(
        id=assumption.id,
        text=assumption.text,
        group=group,
        value=assumption.value,
        range=assumption.range or assumption.values or None,
        unit=assumption.unit,
        source=source_of(assumption.source),
        question=question,
        open=is_open,
    )


def _gaps(outcome: Outcome) -> Iterator[LeanView]:
    """Yield what nobody measured of the parts that the two clubs are made of, and of the shop's bench."""
    shelf = outcome.house.shelf
    parts: list[object] = [shelf.shop] if any(club.build for club in outcome.clubs) else []
    for club in outcome.clubs:
        spec = club.rung.spec
        parts += [
            part for part in (spec.head, spec.shaft, spec.grip) if part is not None and part not in parts
        ]
    for gap in shelf.assumptions(*parts) if parts else ():  # type: ignore[arg-type]
        yield _gap(gap)


def _gap(gap: Gap) -> LeanView:
    """Return the view of one gap of the shelf."""
    value = gap.value if isinstance(gap.value, str | float) else None
    return LeanView(
        id=gap.id,
        text=gap.text,
        group="shelf",
        value=value,
        range=gap.span,
        unit=gap.symbol,
        source=SourceView(gap.source, gap.note or None),
        part=gap.part,
    )
