"""The map of the rule base line by line, and what a fact does over all cases."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.lessons.lines import chart_lines_plain, fact_lines, influence_lines
from interview.views.trainer.charted import chart_lines, fact_view, influence_view
from interview.views.trainer.said import cases_words
from rules.lessons.influence import influence as influence_of
from rules.lessons.map import fact_map, rule_map
from rules.lessons.naming import find_fact

if TYPE_CHECKING:
    from interview.commands.drill.sitting import Sitting


def map(sitting: Sitting, rest: str) -> None:
    """Say where one fact goes; without a fact, where each question goes, in a line."""
    house = sitting.house
    if not rest:
        sitting.show(chart_lines_plain(chart_lines(house, rule_map(house), "")))
        return
    fact = find_fact(house.base, rest)
    sitting.show(fact_lines(fact_view(house, fact_map(house, fact), sitting.system)))


def influence(sitting: Sitting, rest: str) -> None:
    """Change one question's answer in every case and say what moves."""
    base = sitting.house.base
    fact = find_fact(base, rest, [id for id, one in base.facts.items() if one.ask is not None])
    sitting.tell("working", cases=cases_words(len(sitting.cases)))
    sitting.show(influence_lines(influence_view(base, influence_of(sitting.cases, fact))))
