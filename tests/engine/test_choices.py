"""Choices: points, ruling out, ties, bounds and the proof that a choice is settled."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rules.engine import ABSENT, Candidate, RuleBase, View, assumed, known
from rules.engine.faults import MisreadView, UnknownName

Celsius = Callable[[float], float]
OneRule = Callable[[str, str], RuleBase]
POINT = "{ points = 1 }"
FRUIT = known(frozenset(("fruit",)))
BLOSSOM = known(frozenset(("blossom",)))


def order(base: RuleBase, shared: dict[str, View], trees: list[Candidate]) -> list[str]:
    return [s.candidate.id for s in base.choose("tree", shared, trees).standings]


def test_points_decide_and_lines_add_up(garden: RuleBase, trees: list[Candidate], celsius: Celsius) -> None:
    shared = {"frost": known(celsius(-5)), "soil": known("loam"), "wishes": BLOSSOM}
    choice = garden.choose("tree", shared, trees)
    assert [(s.candidate.id, s.points) for s in choice.standings] == [
        ("apple", 2500),
        ("cherry", 500),
        ("fig", 0),
    ]
    assert choice.pick is choice.standings[0]
    assert choice.runner_up is choice.standings[1]
    assert choice.margin == 2000
    cherry = choice.standings[1]
    assert [(line.rule.id, line.points) for line in cherry.lines if line.rule] == [
        ("blossom-wanted", 2500), ("tall-trees-trouble", -2000),
    ]  # fmt: skip
    assert cherry.lines[1].text() == "It grows 17 yd tall, and the neighbours get the shade."
    assert cherry.lines[1].text("metric") == "It grows 16 m tall, and the neighbours get the shade."


def test_a_ramp_is_flat_beyond_its_ends(garden: RuleBase) -> None:
    heights = (12.0, 12.0001, 16, 20, 25, 30, 40)
    trees = [Candidate(str(h), {"grown": known(float(h))}) for h in heights]
    points = {s.candidate.id: s.points for s in garden.choose("tree", {}, trees).standings}
    assert points == {
        "12.0": 0, "12.0001": 0, "16": -2000, "20": -4000, "25": -4500, "30": -5000, "40": -5000,
    }  # fmt: skip


def test_ruling_out_beats_points_and_is_explained(
    garden: RuleBase, trees: list[Candidate], celsius: Celsius
) -> None:
    shared = {"frost": known(celsius(-18)), "wishes": FRUIT}
    choice = garden.choose("tree", shared, trees)
    fig = choice.standing("fig")
    assert fig is not None
    assert [s.candidate.id for s in choice.standings] == ["apple", "cherry", "fig"]
    assert fig.is_ruled_out
    assert [line.text() for line in fig.ruled_out] == [
        "At 0 degF this tree, hardy to 14 degF, would not live through the winter."
    ]
    assert fig.points == 3000
    assert (fig.low, fig.high) == (-math.inf, -math.inf)
    assert choice.standing("apple").ruled_out == ()  # type: ignore[union-attr]


def test_when_all_are_ruled_out_there_is_no_pick(
    garden: RuleBase, trees: list[Candidate], celsius: Celsius
) -> None:
    choice = garden.choose("tree", {"frost": known(celsius(-30))}, trees[2:])
    assert (choice.pick, choice.runner_up, choice.margin) == (None, None, None)
    assert choice.settled
    assert garden.choose("tree", {}, []).pick is None
    assert garden.choose("tree", {}, []).settled


def test_the_static_order_breaks_ties(garden: RuleBase, trees: list[Candidate]) -> None:
    assert order(garden, {}, [trees[0], trees[2]]) == ["apple", "fig"]
    assert order(garden, {}, [trees[2], trees[0]]) == ["fig", "apple"]


def test_an_absent_fact_holds_neither_way(garden: RuleBase, trees: list[Candidate]) -> None:
    silent = garden.choose("tree", {"wishes": BLOSSOM, "soil": ABSENT}, trees)
    assert silent.standings[0].points == 0
    assert silent.standings[0].low == silent.standings[0].high == 0
    spoken = garden.choose("tree", {"wishes": BLOSSOM, "soil": assumed("loam", open=False)}, trees)
    assert spoken.standings[0].points == 2500


def test_an_open_fact_bounds_and_does_not_fail(garden: RuleBase, trees: list[Candidate]) -> None:
    widest = garden.facts["soil"].widest
    shared = {"wishes": BLOSSOM, "soil": assumed("loam", widest, open=True)}
    apple = garden.choose("tree", shared, trees).standings[0]
    assert (apple.points, apple.low, apple.high) == (2500, 0, 2500)
    told = {**shared, "soil": known("clay")}
    apple = garden.choose("tree", told, trees).standings[0]
    assert (apple.points, apple.low, apple.high) == (0, 0, 0)


def test_bounds_of_a_ramp_are_its_extremes(garden: RuleBase) -> None:
    sure = Candidate("sure", {"grown": View(18.0, (14.0, 25.0), "open", "derived")})
    maybe = Candidate("maybe", {"grown": View(18.0, (10.0, 25.0), "open", "derived")})
    by_id = {s.candidate.id: s for s in garden.choose("tree", {}, [sure, maybe]).standings}
    assert (by_id["sure"].low, by_id["sure"].high) == (-4500, 0)  # its condition is open too
    assert (by_id["maybe"].low, by_id["maybe"].high) == (-4500, 0)


def test_an_undetermined_rule_out_lowers_without_limit(
    garden: RuleBase, trees: list[Candidate], celsius: Celsius
) -> None:
    frost = View(celsius(-5), (celsius(-20), celsius(0)), "open", "assumed")
    fig = garden.choose("tree", {"frost": frost, "wishes": FRUIT}, trees).standing("fig")
    assert fig is not None
    assert (fig.low, fig.high) == (-math.inf, 3000)


def test_shared_facts_are_read_once_and_win(garden: RuleBase) -> None:
    tree = Candidate("tree", {"grown": known(40.0), "wishes": FRUIT})
    standing = garden.choose("tree", {"grown": known(5.0)}, [tree]).standings[0]
    assert standing.points == 0
    assert standing.view("grown").best == 5.0
    assert standing.view("nowhere") is ABSENT


def test_many_candidates_are_no_trouble(garden: RuleBase) -> None:
    trees = [Candidate(f"t{i}", {"grown": known(1 + i % 39)}) for i in range(10_000)]
    choice = garden.choose("tree", {}, trees)
    assert len(choice.standings) == 10_000
    assert choice.standings[0].candidate.id == "t0"


def test_wrong_names_and_words_are_told(garden: RuleBase, trees: list[Candidate]) -> None:
    with pytest.raises(UnknownName, match="did you mean 'tree'"):
        garden.choose("treee", {}, trees)
    with pytest.raises(MisreadView, match="'laom' is no value of 'soil'; did you mean 'loam'"):
        garden.choose("tree", {"soil": known("laom")}, trees)
    with pytest.raises(MisreadView, match="'friut' is no value of 'wishes'"):
        garden.choose("tree", {"wishes": known(frozenset(("friut",)))}, trees)


@pytest.mark.parametrize(
    ("said", "value", "holds"),
    [
        ('below = "10 m"', 10.0, False), ('below = "10 m"', 9.999, True),
        ('at_most = "10 m"', 10.0, True), ('at_most = "10 m"', 10.001, False),
        ('above = "10 m"', 10.0, False), ('above = "10 m"', 10.001, True),
        ('at_least = "10 m"', 10.0, True), ('at_least = "10 m"', 9.999, False),
        ('is = "10 m"', 10.0, True), ('is = "10 m"', 10.001, False),
        ('is_not = "10 m"', 10.0, False), ('is_not = "10 m"', 9.0, True),
        ('between = ["5 m", "10 m"]', 5.0, True), ('between = ["5 m", "10 m"]', 10.0, True),
        ('between = ["5 m", "10 m"]', 10.001, False), ('between = ["5 m", "10 m"]', 4.999, False),
        ('at_least = "10 m"', 10.0 - 1e-12, True), ('above = "10 m"', 10.0 + 1e-12, False),
        ('at_least = "35 ft"', 10.668, True), ('known = true', 5.0, True), ('unknown = true', 5.0, False),
    ],
)  # fmt: skip
def test_comparisons_with_numbers(one_rule: OneRule, said: str, value: float, holds: bool) -> None:
    assert _speaks(one_rule(f'{{ fact = "grown", {said} }}', POINT), {"grown": known(value)}) == holds


@pytest.mark.parametrize(
    ("said", "words", "holds"),
    [
        ('is = "fruit"', ("fruit", "shade"), True), ('is = "fruit"', ("shade",), False),
        ('is_not = "fruit"', ("shade",), True), ('is_not = "fruit"', ("fruit",), False),
        ('one_of = ["fruit", "shade"]', ("shade",), True), ('one_of = ["fruit", "shade"]', (), False),
    ],
)  # fmt: skip
def test_comparisons_with_sets(one_rule: OneRule, said: str, words: tuple[str, ...], holds: bool) -> None:
    assert (
        _speaks(one_rule(f'{{ fact = "bears", {said} }}', POINT), {"bears": known(frozenset(words))}) == holds
    )


@pytest.mark.parametrize(
    ("view", "is_known"),
    [
        (known("loam"), True), (assumed("loam", open=False), False), (ABSENT, False),
        (View("loam", frozenset(("loam", "clay")), "open", "derived"), True),
        (View("loam", frozenset(("loam", "clay")), "open", "assumed"), False),
    ],
)  # fmt: skip
def test_known_and_unknown(one_rule: OneRule, view: View, is_known: bool) -> None:
    assert _speaks(one_rule('{ fact = "soil", known = true }', POINT), {"soil": view}) == is_known
    assert _speaks(one_rule('{ fact = "soil", unknown = true }', POINT), {"soil": view}) == (not is_known)
    assert _speaks(one_rule('{ none = [{ fact = "soil", known = true }] }', POINT), {"soil": view}) == (
        not is_known
    )


def test_a_word_can_be_compared_with_an_assumption(one_rule: OneRule) -> None:
    condition = '{ fact = "soil", is = { assumption = "usual-soil" } }'
    assert _speaks(one_rule(condition, POINT), {"soil": known("loam")})
    assert not _speaks(one_rule(condition, POINT), {"soil": known("clay")})


@pytest.mark.parametrize(
    ("fact", "view"),
    [
        ("soil", View("loam", frozenset(("loam", "clay")), "open", "assumed")),
        ("grown", View(5.0, (2.0, 9.0), "open", "assumed")),
        ("wishes", View(frozenset(), (frozenset(), frozenset(("fruit",))), "open", "assumed")),
    ],
)
def test_nobody_both_knows_and_does_not(one_rule: OneRule, fact: str, view: View) -> None:
    both = f'{{ all = [{{ fact = "{fact}", known = true }}, {{ fact = "{fact}", unknown = true }}] }}'
    for condition, high in ((both, 0), (both.replace("all", "any"), 1000)):
        base = one_rule(condition, POINT)
        standing = base.choose("tree", {fact: view}, [Candidate("one", {})]).standings[0]
        assert (standing.low, standing.high) == (0, high)


def _speaks(base: RuleBase, views: dict[str, View]) -> bool:
    """Whether the single rule of a base speaks."""
    return base.choose("tree", {}, [Candidate("one", views)]).standings[0].points == 1000
