"""Settled: a proof that no answer can change the pick, told by hand."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from rules.engine import Candidate, RuleBase, View, assumed, known, load
from rules.engine.views import Status

Celsius = Callable[[float], float]
OneRule = Callable[[str, str], RuleBase]
FRUIT = known(frozenset(("fruit",)))


def test_what_both_share_cancels(garden: RuleBase, trees: list[Candidate]) -> None:
    wishes = View(frozenset(("fruit",)), garden.facts["wishes"].widest, "open", "assumed")
    shared = {"wishes": wishes, "soil": known("loam")}
    assert not garden.choose("tree", shared, [trees[2], trees[0]]).settled  # blossom would part them
    assert garden.choose("tree", shared, [trees[0], trees[2]]).settled  # and only for the better
    two_figs = [trees[2], Candidate("fig2", trees[2].views)]
    assert garden.choose("tree", {"wishes": wishes}, two_figs).settled


def test_a_tie_is_settled_only_with_the_static_order_on_its_side(garden: RuleBase) -> None:
    """An open rule that can at best draw level loses to the earlier candidate, and beats the later one."""
    ahead = Candidate("ahead", {"grown": known(16.0)})  # 2 points lost
    open_one = Candidate("open", {"grown": View(20.0, (16.0, 25.0), "open", "derived")})
    sure_first = garden.choose("tree", {}, [ahead, open_one])
    assert not sure_first.settled  # absent height would cost it nothing at all
    worst = Candidate("worst", {"grown": View(20.0, (13.0, 25.0), "open", "derived")})
    best = Candidate("best", {"grown": known(12.0)})  # nothing lost
    assert garden.choose("tree", {}, [best, worst]).settled
    assert not garden.choose("tree", {}, [worst, best]).settled


def test_a_leader_that_may_be_ruled_out_is_not_settled(
    garden: RuleBase, trees: list[Candidate], celsius: Celsius
) -> None:
    frost = View(celsius(-5), (celsius(-20), celsius(0)), "open", "assumed")
    assert not garden.choose("tree", {"frost": frost, "wishes": FRUIT}, trees[2:]).settled
    assert garden.choose("tree", {"frost": frost, "wishes": FRUIT}, trees[:1]).settled


def test_a_rival_sure_to_be_ruled_out_is_no_rival(
    garden: RuleBase, trees: list[Candidate], celsius: Celsius
) -> None:
    wishes = View(frozenset(), garden.facts["wishes"].widest, "open", "assumed")
    shared = {"wishes": wishes, "frost": known(celsius(-18))}
    assert garden.choose("tree", shared, [trees[2], trees[0]]).settled


def test_a_rule_that_speaks_for_both_or_neither_cancels_as_far_as_it_is_the_same(
    one_rule: OneRule,
) -> None:
    """Whether it speaks hangs on an open shared fact; what it gives, on each candidate's own height."""
    effect = '{ points = { from = "grown", at = [["1 m", 0], ["40 m", -39]] } }'
    base = one_rule('{ fact = "soil", is = "sand" }', effect)
    soil = {"soil": assumed("loam", base.facts["soil"].widest, open=True)}
    low, high = Candidate("low", {"grown": known(5.0)}), Candidate("high", {"grown": known(9.0)})
    assert base.choose("tree", soil, [low, high]).settled  # nought for both, or four to nine
    assert not base.choose("tree", soil, [high, low]).settled  # the tie goes to the first, sand to the other


def test_a_ramp_gives_nothing_where_its_question_may_stop_applying(one_rule: OneRule) -> None:
    """The age is asked only of those who wish for fruit; the frost is asked of everybody."""
    fruit = Candidate("fruit", {"bears": FRUIT})
    points = {
        "child_age": '{ points = { from = "child_age", at = [[0, 2], [18, 5]] } }',
        "frost": '{ points = { from = "frost", at = [["-35 degC", 2], ["10 degC", 5]] } }',
    }
    for id, low in (("child_age", 0), ("frost", 2000)):
        base = one_rule('{ fact = "bears", is = "fruit" }', points[id])
        best = base.facts[id].range[0]
        for could_be in (base.facts[id].range, None):
            view = View(best, could_be, "open", "assumed")
            (standing,) = base.choose("tree", {id: view}, [fruit]).standings
            assert (standing.low, standing.points, standing.high) == (low, 2000, 5000), (id, could_be)


def test_a_lead_that_only_an_open_rule_gives_is_not_settled(garden_folder: Path) -> None:
    """On sand the low tree leads, for sand takes a point for every metre; off it the tall one would."""
    rule = """
[[rule]]
id = "{id}"
decision = "tree"
scope = "tree"
when = {when}
effect = {{ points = {points} }}
because = "Because it is so."
teaches = "Teach it so."
source = {{ kind = "common_practice" }}
"""
    metres = '{ from = "grown", at = [["1 m", 0], ["40 m", -39]] }'
    (garden_folder / "rules.toml").write_text(
        rule.format(id="sand", when='{ fact = "soil", is = "sand" }', points=metres)
        + rule.format(id="tall", when='{ fact = "grown", above = "8 m" }', points=3)
    )
    base = load(garden_folder)
    low, high = Candidate("low", {"grown": known(5.0)}), Candidate("high", {"grown": known(9.0)})
    cases: tuple[tuple[Status, bool], ...] = (("open", False), ("unknown", True))
    for status, settled in cases:
        soil = {"soil": View("sand", frozenset(("sand", "loam")), status, "assumed")}
        choice = base.choose("tree", soil, [low, high])
        assert [(s.candidate.id, s.points) for s in choice.standings] == [("low", -4000), ("high", -5000)]
        assert choice.settled is settled
    assert base.choose("tree", {"soil": known("loam")}, [low, high]).standings[0].candidate is high


def test_a_rule_of_several_cases_cancels_only_where_both_hold_all_of_them(
    one_rule: OneRule,
) -> None:
    """Sand brings both in, clay the leader alone: which case speaks hangs on an open fact."""
    condition = """{ any = [
        { all = [{ fact = "soil", is = "sand" }, { fact = "bears", is = "fruit" }] },
        { all = [{ fact = "soil", is = "clay" }, { fact = "bears", is = "blossom" }] },
        { all = [{ fact = "soil", is = "loam" }, { fact = "bears", is = "shade" }] },
    ] }""".replace("\n", " ")
    base = one_rule(condition.replace(", ] }", "] }"), "{ points = -5 }")
    soil = {"soil": assumed("loam", base.facts["soil"].widest, open=True)}
    both = Candidate("both", {"bears": known(frozenset(("fruit", "blossom")))})
    one = Candidate("one", {"bears": known(frozenset(("fruit",)))})
    assert not base.choose("tree", soil, [both, one]).settled  # clay would cost the leader five points
    every = Candidate("every", {"bears": known(frozenset(("fruit", "blossom", "shade")))})
    again = Candidate("again", every.views)
    assert base.choose("tree", soil, [every, again]).settled
    clay = {"soil": known("clay")}
    assert base.choose("tree", clay, [both, one]).standings[0].candidate is one


def test_who_is_ruled_out_so_far_may_come_back(
    garden: RuleBase, trees: list[Candidate], celsius: Celsius
) -> None:
    """All are ruled out on the best values; a milder answer would bring the fig back."""
    frost = View(celsius(-20), (celsius(-20), celsius(0)), "open", "assumed")
    choice = garden.choose("tree", {"frost": frost}, trees[2:])
    assert choice.pick is None
    assert not choice.settled
    cold = View(celsius(-20), (celsius(-30), celsius(-18)), "open", "assumed")
    assert not garden.choose("tree", {"frost": cold}, trees[2:]).settled  # an open fact may end unknown
    assert garden.choose("tree", {"frost": known(celsius(-20))}, trees[2:]).settled
