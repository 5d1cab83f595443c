"""A replay in words and as data: of the same rules, of parts and of shelves; no more rows than are read."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any, cast

import pytest

from interview.commands.errors import UsageProblem
from interview.commands.replay import _cores
from interview.views.inquiry.replay_text import replay_json, replay_markdown
from rules.fitting import House
from rules.inquiry.blame import Blame
from rules.inquiry.replay import Case, Tally
from rules.units import parse

LENGTH = (parse("42 in", "m"), parse("41.5 in", "m"))


def tally(*cases: Case) -> Tally:
    made = Tally()
    for case in cases:
        made.add(case)
    return made


@pytest.fixture
def built_otherwise() -> Tally:
    """The same pair, with a length, a grip and a tip cut decided otherwise."""
    parts: Any = {
        "longer.length": LENGTH, "shorter.grip": ("reed-1", None), "longer.shaft_tip": (0.0, 0.0127),
    }  # fmt: skip
    return tally(Case("one", "a", "a", parts, {"longer.length": (Blame("gap", -500),)}))


def test_parts_of_the_same_pair_are_told_in_their_units(house: House, built_otherwise: Tally) -> None:
    parts = {id: two for id, two in built_otherwise.changed[0].decisions.items() if _decided(house, id)}
    case = replace(built_otherwise.changed[0], decisions=parts)
    told = replay_markdown(tally(case), house, house)
    assert "They are the same rules" in told
    assert "longer.length: 42 in -> 41 1/2 in by gap (-0.50)" in told
    assert "shorter.grip: reed-1 -> none" in told
    (row,) = replay_json(tally(case), house, house)["changed"]
    length, grip = row["decisions"][:2]
    assert (length["from"], length["to"], length["unit"]) == (42.0, 41.5, "in")
    assert (grip["from"], grip["to"], grip["unit"]) == ("reed-1", None, None)
    assert length["because"] == [{"rule": "gap", "points": -0.5}]


def _decided(house: House, id: str) -> bool:
    return id.rpartition(".")[2] in house.base.decisions


def test_other_rules_are_not_called_the_same_and_another_catalogue_is_no_rule_s_doing(house: House) -> None:
    other = cast(House, SimpleNamespace(digest="0" * 64, base=house.base))
    told = replay_markdown(tally(Case("x", "a", None), Case("y", None, "b")), other, house)
    assert "same rules" not in told
    assert told.count("another choice of clubs") == 2
    assert "| a | none |" in told
    assert "| none | b |" in told


def test_rows_beyond_what_is_read_are_in_the_data(house: House) -> None:
    many = tally(*(Case(f"{number}", "a", "b") for number in range(203)))
    told = replay_markdown(many, house, house)
    assert "3 more cases are in the JSON" in told
    assert len(replay_json(many, house, house)["changed"]) == 203
    assert "more cases" not in replay_markdown(tally(Case("x", "a", "b")), house, house)


def test_processes_are_counted_from_one_and_none_is_begun_for_a_few() -> None:
    with pytest.raises(UsageProblem, match="from 1 up"):
        _cores(-1, 1000)
    assert _cores(7, 2) == 1
    assert _cores(7, 100_000) == 7
    assert math.isclose(_cores(0, 100_000), _cores(0, 200_000))
