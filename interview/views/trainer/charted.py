"""From the map of the rule base, and a fact's influence over all cases, to what the screen shows of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry.words import listed
from interview.views.trainer.chart import ChartLine, FactView, InfluenceLine, InfluenceView, ReaderLine
from interview.views.trainer.names import case_title, decision_title, fact_title, moved_words
from interview.views.trainer.said import cases_words, said

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from rules.engine import RuleBase
    from rules.engine.language import Rule
    from rules.fitting import House
    from rules.lessons.influence import CaseMoved, Influence
    from rules.lessons.map import FactMap, Reader
    from rules.units import System


def chart_lines(house: House, maps: Iterable[FactMap], typed: str) -> tuple[ChartLine, ...]:
    """Return the facts in whose title every typed word begins one, in the order of the map."""
    wanted = typed.casefold().split()
    lines = (
        ChartLine(
            one.fact,
            fact_title(house.base, one.fact),
            len(one.readers),
            tuple(decision_title(house.base, id) for id in one.decisions),
        )
        for one in maps
    )
    return tuple(
        line
        for line in lines
        if all(any(word.startswith(part) for word in line.title.casefold().split()) for part in wanted)
    )


def fact_view(house: House, one: FactMap, system: System, influence: InfluenceView | None = None) -> FactView:
    """Return one fact with all that hangs on it."""
    base = house.base
    groups = [(decision_title(base, id), _readers(base, one, id, system)) for id in one.decisions]
    told = tuple(_reader(base, one, reader, system) for reader in one.on(None))
    if told:
        groups.append((said("chart.notices"), told))
    return FactView(
        title=fact_title(base, one.fact),
        text=base.facts[one.fact].text,
        follows=tuple(dict.fromkeys(base.facts[id].title for id in one.derived)),
        groups=tuple(groups),
        influence=influence,
    )


def _readers(base: RuleBase, one: FactMap, decision: str, system: System) -> tuple[ReaderLine, ...]:
    """Return the rules on one decision that a fact reaches; and that it starts from it, where it does."""
    start = (ReaderLine("", said("chart.start")),) if decision in one.starts else ()
    return (*start, *(_reader(base, one, reader, system) for reader in one.on(decision)))


def _reader(base: RuleBase, one: FactMap, reader: Reader, system: System) -> ReaderLine:
    """Return one rule that a fact reaches."""
    through = "" if reader.through == one.fact else base.facts[reader.through].title
    return ReaderLine(reader.rule.id, effect_words(base, reader.rule, system), through)


def effect_words(base: RuleBase, rule: Rule, system: System) -> str:
    """Return in a few words what a rule gives when it speaks."""
    effect = rule.effect
    if effect.kind not in ("points", "adjust"):
        return said(f"chart.does_{effect.kind}")
    if effect.ramp is None:
        return moved_words(base, rule.decision or "", effect.amount, system)
    ends = [result for _, result in effect.ramp.at]
    low, high = min(ends), max(ends)
    if low < 0 < high:
        both = (moved_words(base, rule.decision or "", one, system) for one in (low, high))
        return said("chart.does_between", ends=listed(list(both)))
    most = max(ends, key=abs)
    return said("chart.does_most", most=moved_words(base, rule.decision or "", most, system))


def working_influence(done: int, of: int) -> InfluenceView:
    """Return the view of an influence that is being worked out."""
    return InfluenceView(done, of)


def influence_view(base: RuleBase, found: Influence) -> InfluenceView:
    """Return what a fact does over all cases: those that flip first, then by how far they move."""
    ranked = sorted(found.cases, key=lambda one: (not one.picks, -one.points, one.case))
    count = len(found.cases)
    return InfluenceView(
        done=count,
        of=count,
        cases=tuple(_case(base, one) for one in ranked),
        summary=tuple(_summary(base, found)),
    )


def _summary(base: RuleBase, found: Influence) -> Iterator[str]:
    """Yield what an influence comes to, a sentence each."""
    told, cases = "chart.picks" if found.untouched else "chart.picks_or_moves", cases_words(len(found.cases))
    yield said(told, count=found.picks, cases=cases, still=found.untouched)
    if found.parts:
        parts = [
            said("chart.part", title=base.decisions[part].title, count=cases)
            for part, cases in found.parts.items()
        ]
        yield said("chart.parts", parts=listed(parts))
    if found.points:
        yield said("chart.points", points=f"{found.points / 1000:.2f}")


def _case(base: RuleBase, one: CaseMoved) -> InfluenceLine:
    """Return what a fact does in one case."""
    parts = dict.fromkeys(base.decisions[id.rpartition(".")[2]].title for id in one.parts)
    return InfluenceLine(case_title(one.case), one.picks > 0, ", ".join(parts), one.points)
