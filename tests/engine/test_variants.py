"""Copies with something changed, the quick way, digests, writing back, completions and questions."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import cast

import pytest

from rules.engine import Candidate, RuleBase, View, assumed, known, load
from rules.engine.completions import completions, order
from rules.engine.faults import UnknownName
from rules.engine.language import Effect
from rules.engine.questions import amount_stakes, choice_stakes, next_questions
from rules.engine.views import Value
from rules.engine.writer import save

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


def test_saved_and_loaded_it_is_the_same(garden: RuleBase, tmp_path: Path) -> None:
    save(garden, tmp_path / "saved")
    again = load(tmp_path / "saved")
    assert again.digest == garden.digest
    assert again.rules == garden.rules
    assert again.facts == garden.facts
    shutil.rmtree(tmp_path / "saved")


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


def open_views(base: RuleBase) -> dict[str, View]:
    return {
        "soil": assumed("loam", base.facts["soil"].widest, open=True),
        "wishes": View(None, base.facts["wishes"].widest, "open", "assumed"),
        "frost": View(None, base.facts["frost"].widest, "open", "assumed"),
    }


def test_questions_come_by_topic_then_by_what_is_at_stake(garden: RuleBase, trees: list[Candidate]) -> None:
    choice = garden.choose("tree", open_views(garden), trees[::-1])
    assert not choice.settled
    asked = next_questions(garden, [choice], OPEN)
    assert [(q.id, q.always) for q in asked] == [("frost", True), ("soil", False), ("wishes", False)]
    assert [q.topic for q in asked] == ["ground", "ground", "use"]
    assert [q.stake for q in asked[1:]] == [2500, 2500]


def test_once_settled_only_what_is_always_asked_is_left(garden: RuleBase, trees: list[Candidate]) -> None:
    choice = garden.choose("tree", open_views(garden), trees[:1])
    assert choice_stakes(choice, OPEN) == {} or not choice.settled
    views = {**open_views(garden), "frost": known(280.0)}
    settled = garden.choose("tree", views, trees[:1])
    assert settled.settled
    assert [q.id for q in next_questions(garden, [settled], OPEN)] == ["frost"]


def test_stakes_reach_questions_through_derived_facts(garden: RuleBase) -> None:
    height = View(10.0, (8.0, 30.0), "open", "derived")
    amount = garden.amount("distance", {"grown": height})
    assert amount_stakes(amount, ["soil"], {"grown": ["soil"]})["soil"] > 0
    assert amount_stakes(amount, ["soil"]) == {}
    assert amount_stakes(garden.amount("distance", {}), ["soil"]) == {}
    swayed = garden.amount("distance", {"soil": assumed("clay", garden.facts["soil"].widest, open=True)})
    assert amount_stakes(swayed, ["soil"])["soil"] == 1500
