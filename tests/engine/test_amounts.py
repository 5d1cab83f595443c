"""Amounts: start, adjustments, limits and rounding, all of them lines."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules.engine import RuleBase, View, known
from rules.engine.amounts import NoStart, final, rounded
from rules.engine.language import Decision, Source
from rules.problems import Problem

PLAIN = Source("common_practice", {})


def amount(low: int, high: int, step: int) -> Decision:
    return Decision("a", "s", 1, "amount", "t", "t", PLAIN, "m", None, "x", (low, high), step, step)


def lines(base: RuleBase, **views: View) -> list[tuple[str, int]]:
    return [(line.kind, line.adjust) for line in base.amount("distance", views).lines]


def test_what_is_nearest_to_a_limit_goes_to_it() -> None:
    decision = amount(1500, 12_000, 500)
    assert [rounded(decision, value) for value in (1500, 1740, 11_740, 11_750, 11_999, 12_000)] == [
        1500, 1500, 11_500, 12_000, 12_000, 12_000,
    ]  # fmt: skip


def test_start_and_adjustments_add_up(garden: RuleBase) -> None:
    decided = garden.amount("distance", {"grown": known(19.0), "soil": known("sand")})
    assert decided.start == 4000
    assert [(line.kind, line.adjust) for line in decided.lines] == [
        ("start", 0), ("rule", 3000), ("rule", 750), ("rounding", 250),
    ]  # fmt: skip
    assert decided.pick == 8000
    assert decided.pick_si == 8.0
    assert [line.text("metric") for line in decided.lines] == [
        "A tree is usually planted about four metres from the house.",
        "A tree 19 m tall has roots to match.",
        "In sand the roots run farther for their water.",
        "It is rounded to 8 m, in steps of 0.5 m.",
    ]


def test_limits_are_lines(garden: RuleBase) -> None:
    swung = garden.with_assumptions({"usual-distance": 7.5})
    assert lines(swung, grown=known(40.0)) == [("start", 0), ("rule", 6000), ("limit", -1500)]
    told = swung.amount("distance", {"grown": known(40.0)}).lines[-1].text("metric")
    assert told == "It is held at 12 m, the most that is allowed here."
    low = garden.with_assumptions({"usual-distance": 1.0}).amount("distance", {})
    assert [line.text("metric") for line in low.lines][1:] == [
        "It is held at 1.5 m, the least that is allowed here."
    ]


def test_bounds_and_materiality(garden: RuleBase) -> None:
    open_height = View(8.0, (8.0, 9.0), "open", "derived")
    near = garden.amount("distance", {"grown": open_height})
    assert (near.low, near.pick, near.high) == (4000, 4000, 4500)
    assert near.settled
    wide = garden.amount("distance", {"grown": View(8.0, (8.0, 30.0), "open", "derived")})
    assert (wide.low, wide.high) == (4000, 10000)
    assert not wide.settled


@pytest.mark.parametrize(
    ("value", "low", "high", "step", "wanted"),
    [
        (1250, 0, 9000, 500, 1500), (1249, 0, 9000, 500, 1000), (-250, -9000, 9000, 500, 0),
        (-251, -9000, 9000, 500, -500), (8900, 0, 8900, 500, 8500), (-20_000, 1100, 8900, 500, 1500),
        (1150, 1100, 1200, 500, 1150), (333, 0, 1000, 1, 333),
    ],
)  # fmt: skip
def test_rounding_stays_between_the_limits(value: int, low: int, high: int, step: int, wanted: int) -> None:
    assert final(amount(low, high, step), value) == wanted
    assert rounded(amount(low, high, step), max(low, min(high, value))) == wanted


def test_an_amount_without_a_start_is_told(garden: RuleBase) -> None:
    decision = replace(garden.decisions["distance"], start_fact="grown", start_assumption=None)
    base = garden._copy({"distance"})
    base.decisions = {**garden.decisions, "distance": decision}  # type: ignore[assignment]
    assert base.amount("distance", {"grown": known(5.0)}).start == 5000
    with pytest.raises(NoStart, match="its start, 'grown', is not known"):
        base.amount("distance", {})
    with pytest.raises(Problem):
        base.fast_amount("distance", {})
    told = base.amount("distance", {"grown": known(5.0)}).lines[0]
    assert told.text("metric") == "It starts from the grown height, 5 m."
    open_start = base.amount("distance", {"grown": View(5.0, (2.0, 6.0), "open", "derived")})
    assert (open_start.low, open_start.high) == (2000, 6000)


def test_a_person_can_pin_it(garden: RuleBase) -> None:
    decided = garden.amount("distance", {"grown": known(19.0)}).pinned(6.0, lambda _: "Set by hand.")
    assert decided.pick == decided.start + sum(line.adjust for line in decided.lines) == 6000
    assert decided.lines[-1].text() == "Set by hand."
    assert decided.settled


def test_facts_of_start_limit_and_rounding_lines_are_none(garden: RuleBase) -> None:
    line = garden.amount("distance", {}).lines[0]
    assert line.rule is None
    assert line.facts == {}
    assert line.conditions is None
    assert line.teaches() == ""
