"""A session's file is read strictly: what is wrong is told with its place and what is wanted."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest

from rules.facts.reading import SubjectProblem, read_subject
from rules.facts.subject import Subject
from rules.fitting import House

DEGREE = math.pi / 180
DEMO = {"name": "demo", "kind": "fairway"}
OWN = {"name": "his 3-wood", "kind": "fairway"}


def read(house: House, **parts: Any) -> Subject:
    return read_subject(house.base.facts, parts)


def test_a_face_is_told_by_its_side(house: House) -> None:
    def face(typed: object) -> float | None:
        return read(house, readings={"longer": {"face": typed}}).readings["longer"].face

    assert face("0.5 deg closed") == pytest.approx(0.5 * DEGREE)
    assert face("1 deg open") == pytest.approx(-1 * DEGREE)
    assert face("square") == 0.0
    assert face("-2 deg") == pytest.approx(-2 * DEGREE)
    assert face(1.5) == pytest.approx(1.5 * DEGREE)


REFUSED: tuple[tuple[Mapping[str, Any], str, str], ...] = (
    ({"readings": {"longer": {"total": True}}}, "readings longer total", "a number with its unit is wanted"),
    ({"readings": {"longer": "331 g"}}, "readings longer", "a table is wanted here"),
    ({"readings": ["331 g"]}, "readings", 'readings are written [readings."longer"]'),
    ({"readings": {"middle": {}}}, "readings middle", "not 'middle'"),
    ({"overrides": "42 in"}, "overrides", 'overrides are written [overrides."longer.length"]'),
    (
        {"owned": [OWN], "trial_clubs": [{**DEMO, "name": OWN["name"]}]},
        "owned",
        "two clubs have the same name",
    ),
    ({"owned": [{**OWN, "name": f"club {n}"} for n in range(200)]}, "owned", "more than the"),
    ({"owned": [{"name": "his 3-wood"}]}, "owned 0", "lacks its 'kind'"),
    ({"owned": OWN}, "owned", "is a list of tables, each under [[owned]]"),
    ({"trial_clubs": [DEMO], "shots": [{"club": "demmo"}]}, "shots 0 club", "did you mean 'demo'?"),
    (
        {"owned": [{**OWN, "loft": {"value": "15 deg", "how": "guessed"}}]},
        "owned 0 loft",
        "with how stamped, said, estimated or measured",
    ),
    ({"answers": {"lies": {"fairway": True}}}, "answers lies", "the share of fairway is not a number"),
    ({"answers": {"lies": {"fairway": "most"}}}, "answers lies", "must be a number from 0 up, not 'most'"),
    ({"answers": ["right"]}, "answers", "'answers' is a table, written [answers]"),
)


@pytest.mark.parametrize(("data", "place", "wanted"), REFUSED)
def test_what_cannot_be_is_refused_at_its_place(
    house: House, data: Mapping[str, Any], place: str, wanted: str
) -> None:
    with pytest.raises(SubjectProblem) as refused:
        read_subject(house.base.facts, data)
    assert " ".join(map(str, refused.value.path)) == place
    assert wanted in str(refused.value)
    assert "\n" not in str(refused.value)
