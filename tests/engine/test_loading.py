"""Loading as a whole: what is read, all faults in one go, folders, overlays and hostile files."""

from __future__ import annotations

import time
import tracemalloc
from pathlib import Path

import pytest

from rules.engine import RuleBase, RuleBaseFaults, load
from rules.engine.language import Assumed, Atom, Group
from rules.units import parse


def codes(folder: Path, *overlays: Path) -> list[str]:
    with pytest.raises(RuleBaseFaults) as caught:
        load(folder, overlays)
    assert "\n" not in str(caught.value)
    return [fault.code for fault in caught.value.faults]


def overlay(place: Path, text: str, base: str = "") -> Path:
    place.mkdir()
    (place / "changes.toml").write_text(text or "# nothing")
    if base:
        (place / "base.toml").write_text(base)
    return place


RULE = """
[[rule]]
id = "{id}"
decision = "tree"
scope = "tree"
effect = {{ points = {points} }}
because = "Because it is so."
teaches = "Teach it so."
source = {{ kind = "common_practice" }}
"""


def test_what_is_declared_is_read(garden: RuleBase) -> None:
    assert garden.scopes == ("garden", "tree")
    assert garden.topics == ("ground", "use")
    assert garden.largest_cliff == 3000
    frost = garden.facts["frost"]
    assert frost.range == (parse("-35 degC", "degC"), parse("10 degC", "degC"))
    assert frost.spread == {"measured": 1.0, "said": 4.0}
    assert frost.ask is not None
    assert frost.ask.always
    age = garden.facts["child_age"].ask
    assert age is not None
    assert age.applies == Atom("wishes", "is", "fruit")
    assert garden.facts["light.half_shade"].part_of == "light"
    assert garden.facts["light.half_shade"].range == (0.0, 1.0)
    assert garden.facts["wishes"].widest == (frozenset(), frozenset(("shade", "fruit", "blossom")))
    tall = garden.rules["tall-trees-trouble"]
    assert tall.when == Atom("grown", "above", Assumed("tall"))
    assert tall.effect.ramp is not None
    assert tall.effect.ramp.at == ((12.0, 0), (20.0, -4000), (30.0, -5000))
    blossom = garden.rules["blossom-wanted"].when
    assert isinstance(blossom, Group)
    assert blossom.parts[-1] == Group("none", (Atom("soil", "is", "clay"),))
    distance = garden.decisions["distance"]
    assert (distance.limits, distance.step, distance.materiality) == ((1500, 12000), 500, 500)
    assert garden.sources["grown"].cite == "A. Arborist (1998), Trees, p. 12"


def test_a_decision_in_which_any_difference_matters_may_be_declared(garden_folder: Path) -> None:
    decisions = garden_folder / "decisions.toml"
    decisions.write_text(decisions.read_text().replace('materiality = "0.5 m"', 'materiality = "0 m"'))
    assert load(garden_folder).decisions["distance"].materiality == 0


def test_a_decision_may_go_by_thousandths_of_its_unit(garden_folder: Path) -> None:
    decisions = garden_folder / "decisions.toml"
    decisions.write_text(decisions.read_text().replace('step = "0.5 m"', 'step = "1 mm"'))
    assert load(garden_folder).decisions["distance"].step == 1


def test_a_list_may_hold_as_many_words_as_are_read(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    text, old = facts.read_text(), 'values = ["shade", "fruit", "blossom"]'
    for more, found in ((61, None), (62, "too-many")):
        words = ", ".join(f'"w{i}"' for i in range(more))
        facts.write_text(text.replace(old, f"{old[:-1]}, {words}]", 1))
        if found is None:
            assert len(load(garden_folder).facts["wishes"].values) == 64
        else:
            assert codes(garden_folder) == [found]


def test_parts_of_shares_are_shares_of_one_and_decided_with_the_whole(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    text = facts.read_text()
    assert load(garden_folder).facts["light.sun"].widest == (0.0, 1.0)
    crown = """
[[fact]]
id = "crown"
scope = "tree"
kind = "shares"
values = ["leaf", "branch"]
title = "crown"
text = "What the crown is made of."
source = { kind = "common_practice" }
decided_with = "tree"
"""
    facts.write_text(text + crown)
    found = load(garden_folder).facts
    assert [found[id].decided_with for id in ("crown", "crown.leaf", "light.sun")] == ["tree", "tree", None]


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("decisions.toml", 'kind = "amount"\n', ""),
        ("facts.toml", 'kind = "number"\nunit = "degC"', 'unit = "degC"'),
        ("facts.toml", 'kind = "choice"\n', ""), ("facts.toml", 'kind = "published", ', ""),
        ("rules.toml", 'decision = "tree"\nscope = "tree"\nwhen = { fact = "grown", above',
         'decision = "tre"\nscope = "tree"\nwhen = { fact = "grown", above'),
    ],
)  # fmt: skip
def test_what_a_wrong_kind_leaves_unread_is_not_blamed_too(
    garden_folder: Path, file: str, old: str, new: str
) -> None:
    """No key is called unknown that the right kind would have had."""
    text = (garden_folder / file).read_text()
    assert old in text
    (garden_folder / file).write_text(text.replace(old, new, 1))
    assert "unknown-key" not in codes(garden_folder)


def test_the_other_side_of_a_contested_rule_reads_no_later_fact_either(garden_folder: Path) -> None:
    effect = '{ points = { from = "grown", at = [["1 m", 0], ["40 m", 2]] } }'
    other = f'contested = {{ other = "They say so.", leans = "They err.", effect = {effect} }}\n'
    text = RULE.format(id="early", points=1).replace('scope = "tree"', 'scope = "garden"')
    (garden_folder / "early.toml").write_text(text + other)
    with pytest.raises(RuleBaseFaults) as caught:
        load(garden_folder)
    found = [(fault.code, fault.key, fault.line) for fault in caught.value.faults]
    assert found == [("wrong-scope", "contested.effect", 10)]


def test_what_is_missing_in_a_table_is_told_at_the_name_of_the_table(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    facts.write_text(
        facts.read_text().replace('ask = { topic = "ground", order = 1 }', "ask = { order = 1 }")
    )
    with pytest.raises(RuleBaseFaults, match="'topic' is missing") as caught:
        load(garden_folder)
    assert [(fault.column, fault.key) for fault in caught.value.faults] == [(1, "ask")]


@pytest.mark.parametrize("effect", ["points = 1", "rule_out = true", 'adjust = "1 m"'])
def test_what_scores_needs_a_decision(garden_folder: Path, effect: str) -> None:
    text = RULE.format(id="x", points=1).replace('decision = "tree"\n', "").replace("points = 1", effect)
    (garden_folder / "x.toml").write_text(text)
    assert codes(garden_folder) == ["needs-decision"]


def test_a_number_without_end_is_told_as_it_was_given(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    facts.write_text(facts.read_text().replace("range = [0, 18]", "range = [0, inf]"))
    with pytest.raises(RuleBaseFaults, match=r"a finite number is wanted, not 'inf'$"):
        load(garden_folder)


def test_a_rule_without_a_decision_may_only_speak(garden_folder: Path) -> None:
    rules = garden_folder / "rules.toml"
    caution = 'effect = { caution = "safety" }'
    other = 'contested = { other = "They learn.", leans = "Too late.", effect = { points = 1 } }'
    rules.write_text(rules.read_text().replace(caution, f"{caution}\n{other}"))
    with pytest.raises(
        RuleBaseFaults, match=r"'points' does not fit a rule without a decision; use caution or advise$"
    ):
        load(garden_folder)


def test_the_house_rules_load(pytestconfig: pytest.Config) -> None:
    assert load(pytestconfig.rootpath / "rules" / "knowledge").decisions


def test_all_faults_come_at_once_in_file_order(garden_folder: Path) -> None:
    (garden_folder / "a.toml").write_text(
        RULE.format(id="one", points='"x"') + RULE.format(id="two", points="nan")
    )
    rules = garden_folder / "rules.toml"
    rules.write_text(rules.read_text().replace('is = "sand"', 'is = "snad"').replace("-4]", '"-4"]'))
    with pytest.raises(RuleBaseFaults) as caught:
        load(garden_folder)
    found = [(f.file.name, f.code) for f in caught.value.faults]
    assert found == [
        ("a.toml", "wrong-type"), ("a.toml", "too-fine"),
        ("rules.toml", "wrong-type"), ("rules.toml", "not-a-word"),
    ]  # fmt: skip
    assert [f.line for f in caught.value.faults if f.file.name == "rules.toml"] == [16, 56]
    assert "(3 more" in str(caught.value)


def test_a_faulty_fact_is_blamed_once_and_not_its_readers(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    facts.write_text(
        facts.read_text().replace('unit = "m"\nrange = ["1 m", "40 m"]', 'unit = "m"\nrange = ["1 m"]')
    )
    assert codes(garden_folder) == ["wrong-type"]


def test_unreadable_files_are_named_too(garden_folder: Path) -> None:
    (garden_folder / "b.toml").write_bytes(b"\xff\xff")
    (garden_folder / "c.toml").write_text("a = = 1")
    with pytest.raises(RuleBaseFaults) as caught:
        load(garden_folder)
    assert [f.file.name for f in caught.value.faults] == ["b.toml", "c.toml"]
    assert (caught.value.faults[1].line, caught.value.faults[1].column) == (1, 5)


def test_folders_that_hold_no_rule_base(tmp_path: Path) -> None:
    assert codes(tmp_path / "nowhere") == ["no-folder"]
    assert codes(tmp_path) == ["no-files"]
    (tmp_path / "x.toml").write_text("# nothing here")
    assert codes(tmp_path) == ["no-base"]
    assert codes(tmp_path / "x.toml") == ["not-folder"]
    for i in range(201):
        (tmp_path / f"{i}.toml").write_text("# nothing here")
    assert codes(tmp_path) == ["too-many-files"]
    for file in tmp_path.glob("1*.toml"):
        file.unlink()
    for i in range(5):
        (tmp_path / f"big{i}.toml").write_text("#" * 900_000)
    assert codes(tmp_path) == ["too-much"]


def test_a_folder_that_fails_is_told_with_a_way_out(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def refuse(_: Path) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "iterdir", refuse)
    with pytest.raises(RuleBaseFaults, match=r"permission denied\); let your user read it, or name another"):
        load(tmp_path)


def test_an_overlay_adds_replaces_and_switches_off(garden_folder: Path, tmp_path: Path) -> None:
    text = RULE.format(id="new", points=1) + RULE.format(id="fruit-wanted", points=7)
    ours = overlay(tmp_path / "ours", text, 'off = ["blossom-wanted"]')
    base = load(garden_folder, [ours])
    assert base.rules["new"].effect.amount == 1000
    assert base.rules["fruit-wanted"].effect.amount == 7000
    assert "blossom-wanted" not in base.rules
    assert load(garden_folder).rules["fruit-wanted"].effect.amount == 3000


def test_overlays_that_conflict_are_named(garden_folder: Path, tmp_path: Path) -> None:
    one = overlay(tmp_path / "one", RULE.format(id="fruit-wanted", points=7))
    two = overlay(tmp_path / "two", RULE.format(id="fruit-wanted", points=8))
    off = overlay(tmp_path / "off", "", 'off = ["fruit-wanted"]')
    unknown = overlay(tmp_path / "unknown", "", 'off = ["friut-wanted"]')
    twice = overlay(tmp_path / "twice", RULE.format(id="a", points=7) * 2)
    assert codes(garden_folder, one, two) == ["overlay-conflict"]
    assert codes(garden_folder, one, off) == ["overlay-conflict"]
    assert codes(garden_folder, unknown) == ["off-unknown"]
    assert codes(garden_folder, twice) == ["duplicate"]


def test_what_an_overlay_breaks_is_refused(garden_folder: Path, tmp_path: Path) -> None:
    off = overlay(tmp_path / "off", "", 'off = ["hardy"]')
    found = codes(garden_folder, off)
    assert set(found) == {"unknown-fact", "brace-unknown"}


@pytest.mark.parametrize(
    "text",
    [
        RULE.format(id="x", points=1) * 6000,
        "[[fact]]\n" * 30_000,
        "rule = [" + "{}," * 100_000 + "]",
        'rule = [{ id = "x", when = ' + "{ all = [" * 300 + "1" + "] }" * 300 + "}]",
        f'[[rule]]\nid = "x"\nbecause = "{"{grown}" * 20_000}"\n',
        "[[rule]]\n" + "".join(f"k{i} = 1\n" for i in range(20_000)),
        "".join(f"[t{i}]\n" for i in range(50_000)),
        "[[assumption]]\nid = 'x'\nvalue = '" + "9" * 100_000 + "'\n",
        "[[fact]]\nid = 'x'\nvalues = [" + ",".join(f"'w{i}'" for i in range(60_000)) + "]\n",
    ],
    ids=["rules", "facts", "array", "deep", "braces", "keys", "tables", "digits", "words"],
)
def test_hostile_files_are_refused_soon_and_in_little_memory(garden_folder: Path, text: str) -> None:
    (garden_folder / "hostile.toml").write_text(text)
    began = time.perf_counter()
    assert codes(garden_folder)
    assert time.perf_counter() - began < 10  # a hang, not a budget
    tracemalloc.start()
    codes(garden_folder)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 150_000_000
