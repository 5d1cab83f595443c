"""Copies with something changed, the quick way, digests, writing back, completions and questions."""

from __future__ import annotations

import pickle
from pathlib import Path
from typing import cast

import pytest

from rules.engine import Candidate, RuleBase, known, load
from rules.engine.completions import completions, order
from rules.engine.fast import Ground
from rules.engine.faults import UnknownName
from rules.engine.language import Effect
from rules.engine.questions import sifted, stakes
from rules.engine.views import Value

TALL = [Candidate("tall", {"grown": known(14.0)}), Candidate("low", {"grown": known(3.0)})]


def points(base: RuleBase) -> int:
    standing = base.choose("tree", {}, TALL).standing("tall")
    assert standing is not None
    return standing.points


def test_assumptions_can_be_swung_on_a_copy(garden: RuleBase) -> None:
    assert points(garden) == -1000
    assert points(garden.with_assumptions({"tall": 15.0})) == 0
    assert points(garden) == -1000
    assert garden.with_assumptions({"tall": 15.0}).digest != garden.digest
    assert garden.with_assumptions({"tall": 12.0}).digest == garden.digest
    with pytest.raises(UnknownName):
        garden.with_assumptions({"tal": 1.0})


def test_a_copy_keeps_the_plans_that_do_not_change(garden: RuleBase) -> None:
    plan = garden.plan("tree")
    assert garden.with_assumptions({"usual-distance": 5.0}).plan("tree") is plan
    assert garden.with_assumptions({"tall": 10.0}).plan("tree") is not plan
    assert garden.without("sand-lets-roots-run").plan("tree") is plan


def test_the_other_view_and_other_effects(garden: RuleBase) -> None:
    assert points(garden.with_other_view("tall-trees-trouble")) == 1000
    assert points(garden.with_rule_effect("tall-trees-trouble", Effect("points", -7000))) == -7000
    assert points(garden.without("tall-trees-trouble")) == 0
    assert "fruit-wanted" not in garden.with_other_view("fruit-wanted").rules
    with pytest.raises(UnknownName, match="did you mean 'fruit-wanted'"):
        garden.without("friut-wanted")


def test_a_copy_without_a_caution_no_longer_gives_it(garden: RuleBase) -> None:
    views = {"child_age": known(3.0), "light.shade": known(0.5)}
    assert [told.topic for told in garden.notices("garden", views)] == ["safety", "ground"]
    assert [told.topic for told in garden.without("child-and-berries").notices("garden", views)] == ["ground"]
    swapped = garden.with_rule_effect("child-and-berries", Effect("caution", topic="children"))
    assert [told.topic for told in swapped.notices("garden", views)] == ["children", "ground"]


def test_a_question_and_a_caution_follow_the_assumption_they_hang_on(garden_folder: Path) -> None:
    """Also on a copy made after both were looked at."""
    facts, rules = garden_folder / "facts.toml", garden_folder / "rules.toml"
    applies = 'applies = { fact = "wishes", is = "fruit" }'
    tall = '{ fact = "height_seen", above = { assumption = "tall" } }'
    seen = """
[[fact]]
id = "height_seen"
scope = "garden"
kind = "number"
unit = "m"
range = ["0 m", "40 m"]
title = "tallest tree"
text = "The tallest tree that stands there."
source = { kind = "common_practice" }
ask = { topic = "ground", order = 9 }
"""
    facts.write_text(facts.read_text().replace(applies, f"applies = {tall}") + seen)
    rules.write_text(rules.read_text().replace('{ fact = "child_age", below = 6 }', tall))
    base = load(garden_folder)
    lower, views = None, {"height_seen": known(10.0), "child_age": known(3.0)}
    for _ in range(2):
        assert not base.applies("child_age", views)
        assert base.notices("garden", views) == ()
        lower = base.with_assumptions({"tall": 9.0})
        assert lower.applies("child_age", views)
        assert [told.topic for told in lower.notices("garden", views)] == ["safety"]
    assert not base.applies("child_age", {})


def test_what_may_be_forbidden_is_told_from_the_ground(garden: RuleBase) -> None:
    """Only frost can rule a tree out, and only a hard one."""
    assert garden.forbids("tree", Ground({"frost": 250.0}))
    assert not garden.forbids("tree", Ground({"frost": 270.0}))
    assert not garden.without("frost-kills").forbids("tree", Ground({"frost": 250.0}))
    assert not garden.forbids("distance", Ground({"frost": 250.0}))


def test_an_amount_starts_from_its_fact_wherever_that_is_told() -> None:
    base = load(Path(__file__).parent / "orchard")
    rest: dict[str, Value | None] = {"rain": 0.65, "slope": "flat_ground", "hands": 4.0}
    views = {id: known(value) for id, value in rest.items() if value is not None}
    wanted = base.amount("hole", {**views, "girth": known(0.1)}).pick_si
    assert base.fast_amount("hole", {**rest, "girth": 0.1}) == wanted
    assert base.fast_amount("hole", rest, Ground({"girth": 0.1})) == wanted
    assert base.fast_amount("hole", {**rest, "girth": 0.1}, Ground({"girth": 0.3})) == wanted


def test_the_quick_way_knows_what_is_absent(garden: RuleBase) -> None:
    told: dict[str, Value | None] = {"grown": 19.0, "soil": "sand"}
    for ids in ((), ("grown",), ("soil",), ("grown", "soil")):
        views = {id: known(value) for id, value in told.items() if id in ids and value is not None}
        best = {id: told[id] for id in ids}
        assert garden.fast_amount("distance", best) == garden.amount("distance", views).pick_si
        assert garden.fast_amount("distance", {**dict.fromkeys(told), **best}) == garden.fast_amount(
            "distance", best
        )


def test_the_quick_way_says_the_same(garden: RuleBase, trees: list[Candidate]) -> None:
    shared: dict[str, Value | None] = {"wishes": frozenset(("fruit",)), "soil": "loam", "frost": 260.0}
    own = [{id: view.best for id, view in tree.views.items()} for tree in trees]
    place, quick = garden.fast_choose("tree", shared, own)
    choice = garden.choose(
        "tree", {id: known(value) for id, value in shared.items() if value is not None}, trees
    )
    assert quick == [3000, 1000, 3000]
    assert choice.pick is not None
    assert place == choice.pick.place == 0
    assert garden.fast_choose("tree", {"frost": 250.0}, own[2:]) == (None, [None])
    assert garden.fast_amount("distance", {"grown": 19.0, "soil": "sand"}) == 8.0


def test_the_digest_knows_meaning_not_layout(garden: RuleBase, garden_folder: Path) -> None:
    rules = garden_folder / "rules.toml"
    text = rules.read_text()
    rules.unlink()
    parts = text.split("[[rule]]")[1:]
    for i, part in enumerate(reversed(parts)):
        (garden_folder / f"r{i}.toml").write_text("# moved\n[[rule]]" + part.replace('"30 m"', '"3e1 m"'))
    assert load(garden_folder).digest == garden.digest
    last = garden_folder / "r0.toml"
    last.write_text(last.read_text().replace("50 %", "51 %"))
    assert load(garden_folder).digest != garden.digest


def test_a_base_sent_to_another_process_decides_the_same(garden: RuleBase, trees: list[Candidate]) -> None:
    """What it declares goes along, overlays and swung assumptions too; how rules are laid out does not."""
    for base in (garden, garden.with_assumptions({"tall": 5.0}).without("fruit-wanted")):
        base.plan("tree")
        there: RuleBase = pickle.loads(pickle.dumps(base))
        assert there.digest == base.digest
        assert (there.name, there.scopes, there.topics) == (base.name, base.scopes, base.topics)
        assert there.largest_cliff == base.largest_cliff == 3000
        assert (list(there.facts), list(there.rules)) == (list(base.facts), list(base.rules))
        shared = {"wishes": known(frozenset(("fruit",)))}
        mine, other = (one.choose("tree", shared, trees) for one in (base, there))
        assert [s.points for s in mine.standings] == [s.points for s in other.standings]
        views = {"grown": known(19.0), "soil": known("sand")}
        assert there.amount("distance", views).pick == base.amount("distance", views).pick == 8000


def test_completions_are_fixed_and_fill_every_stratum(garden: RuleBase) -> None:
    facts = [garden.facts[id] for id in ("frost", "soil", "wishes", "light")]
    made = completions(facts, 40)
    assert made == completions(facts, 40)
    assert [one["frost"] for one in completions(facts[:1], 40)] == [one["frost"] for one in made]
    cold = sorted(one["frost"] for one in made if isinstance(one["frost"], float))
    low, high = cast("tuple[float, float]", garden.facts["frost"].plausible)
    assert cold == pytest.approx([low + (i + 0.5) / 40 * (high - low) for i in range(40)])
    assert [sum(one["soil"] == word for one in made) for word in ("clay", "loam", "sand")] == [10, 20, 10]
    for one in made:
        shares = one["light"]
        assert isinstance(shares, dict)
        assert sum(shares.values()) == pytest.approx(1)
        assert one["wishes"]
    assert len({one["wishes"] for one in made if isinstance(one["wishes"], frozenset)}) > 3


def test_orders_hang_on_the_name_alone() -> None:
    assert sorted(order("frost", 64)) == list(range(64))
    assert order("frost", 64) == order("frost", 64) != order("soil", 64)


OPEN = ("frost", "soil", "wishes", "child_age")


WAITS = {id: [id] for id in OPEN}


def test_questions_come_by_topic_then_by_what_is_at_stake(garden: RuleBase) -> None:
    at_stake = stakes(garden, WAITS, ["tree"])
    worth, needless = sifted(garden, OPEN, at_stake)
    assert worth[0] == "frost"  # asked whatever is at stake
    ranks = [garden.topics.index(ask.topic) for id in worth if (ask := garden.facts[id].ask)]
    assert ranks == sorted(ranks)
    assert set(worth) | set(needless) == set(OPEN)
    assert all(at_stake.get(id, 0.0) == 0.0 for id in needless)


def test_a_settled_decision_leaves_only_cautions_and_what_is_always_asked(garden: RuleBase) -> None:
    told = stakes(garden, WAITS, [])
    of_notices = {id for rule in garden.rules.values() if rule.decision is None for id in rule.reads}
    assert set(told) == of_notices & set(OPEN)
    assert sifted(garden, OPEN, {})[0] == ("frost",)


def test_stakes_reach_questions_through_derived_facts(garden: RuleBase) -> None:
    assert stakes(garden, {"grown": ["soil"]}, ["distance"])["soil"] > 0
    assert stakes(garden, {"grown": []}, ["distance"]) == {}
    assert stakes(garden, {"nothing that a rule reads": ["soil"]}, ["distance"]) == {}


def test_a_rule_weighs_by_what_it_can_move(garden: RuleBase) -> None:
    heavier = garden.with_rule_effect("tall-trees-trouble", Effect("points", -70000))
    facts = {id: [id] for id in garden.rule("tall-trees-trouble").reads}
    for id in facts:
        assert stakes(heavier, facts, ["tree"])[id] > stakes(garden, facts, ["tree"])[id]


def test_stakes_by_hand(garden: RuleBase) -> None:
    """What each rule can move at most: ten points where it rules out, a quarter where it only advises.

    tall-trees-trouble 5, fruit-wanted 3, blossom-wanted 2.5 points; roots-reach-far 6 m and
    sand-lets-roots-run 0.75 m, in half metres that matter: 12 and 1.5.
    """
    waits = {**WAITS, "grown": ["height"], "bears": ["wishes"], "light.shade": ["light"], "hardy": []}
    assert stakes(garden, waits, ["tree", "distance"]) == {
        "frost": 10.0, "height": 5 + 12, "wishes": 3 + 2.5, "soil": 2.5 + 1.5, "child_age": 0.25,
        "light": 0.25,
    }  # fmt: skip
    assert stakes(garden, waits, ["distance"]) == {
        "height": 12.0, "soil": 1.5, "child_age": 0.25, "light": 0.25,
    }  # fmt: skip
    worse = garden.with_rule_effect("fruit-wanted", Effect("points", -500))
    assert stakes(worse, {"wishes": ["wishes"]}, ["tree"])["wishes"] == 0.5 + 2.5


def test_questions_are_sifted_by_topic_safety_stake_and_order(garden: RuleBase) -> None:
    at_stake = {"soil": 1.0, "light": 2.0, "wishes": 0.5, "child_age": 0.5, "frost": 0.0}
    asked = ("child_age", "wishes", "light", "soil", "frost")
    assert sifted(garden, asked, at_stake) == (("frost", "light", "soil", "wishes", "child_age"), ())
    assert sifted(garden, asked, {"soil": 1.0}) == (("frost", "soil"), ("light", "wishes", "child_age"))
    assert sifted(garden, (), {}) == ((), ())
