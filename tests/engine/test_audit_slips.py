"""Where a finding of the audit begins and ends: what just is one, beside what just is none."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from rules.engine import load
from rules.engine.audit import Finding, audit

Audited = Callable[..., list[Finding]]
RULE = """
[[rule]]
id = "{id}"
decision = "tree"
scope = "tree"
when = {when}
effect = {effect}
because = "{because} for reason {id}."
teaches = "It is taught as it stands, {id}."
source = {{ kind = "common_practice" }}
"""


@pytest.fixture
def audited(garden_folder: Path) -> Audited:
    """Audit the garden with a few rules more, each a condition and an effect: what is found of them."""

    def found(*rules: tuple[str, str], because: str = "So it is") -> list[Finding]:
        folder = garden_folder.parent / "more"
        shutil.copytree(garden_folder, folder, dirs_exist_ok=True)
        made = (
            RULE.format(id=f"r{i}", when=when, effect=effect, because=because)
            for i, (when, effect) in enumerate(rules)
        )
        (folder / "more.toml").write_text("".join(made), encoding="utf-8")
        return [one for one in audit(load(folder)) if all(id[1:].isdigit() for id in one.ids)]

    return found


def along(fact: str, *nodes: tuple[str, float]) -> str:
    """An effect along a ramp."""
    return f'{{ points = {{ from = "{fact}", at = {[list(node) for node in nodes]} }} }}'


def codes(findings: list[Finding]) -> list[str]:
    return [one.code for one in findings]


def test_a_jump_as_large_as_is_allowed_is_no_cliff(audited: Audited) -> None:
    """base.toml of the garden allows 3."""
    low = '{ fact = "hardy", below = "-20 degC" }'
    assert codes(audited((low, "{ points = 3 }"))) == []
    assert codes(audited((low, "{ points = 3.001 }"))) == ["cliff"]
    assert codes(audited((low, "{ points = -3.001 }"))) == ["cliff"]


@pytest.mark.parametrize(
    ("least", "most", "found"),
    [(-4, 1, ["cliff"]), (-1, 4, ["cliff"]), (-3, 1, []), (-1, 3, []), (-3, 3, [])],
)
def test_a_ramp_on_another_fact_counts_at_its_strongest(
    audited: Audited, least: int, most: int, found: list[str]
) -> None:
    """At the threshold of hardiness the points of some tree jump by so many, whichever its height."""
    ramp = along("grown", ("1 m", least), ("40 m", most))
    assert codes(audited(('{ fact = "hardy", below = "-20 degC" }', ramp))) == found


def test_a_silence_is_narrow_by_the_breadth_of_the_range_wherever_the_range_lies(audited: Audited) -> None:
    """A fiftieth of the 55 degrees from -45 to 10: 1.1 degrees, though the scale itself begins far below."""
    cold = ('{ fact = "hardy", below = "-20 degC" }', "{ points = 2 }")
    for degrees, found in (("-19 degC", ["gap"]), ("-18.5 degC", []), ("-12 degC", [])):
        mild = (f'{{ fact = "hardy", above = "{degrees}" }}', "{ points = 1 }")
        assert codes(audited(cold, mild)) == found, degrees


def test_ramps_that_pull_one_way_and_the_other_contradict(audited: Audited) -> None:
    """Wherever one speaks, the other does: from nought up, and from nought down."""
    tall, short = '{ fact = "grown", above = "5 m" }', '{ fact = "grown", above = "3 m" }'
    up, down = along("grown", ("5 m", 0), ("40 m", 2)), along("grown", ("5 m", 0), ("40 m", -2))
    for first, second in (
        ((tall, up), (tall, down)),
        ((tall, down), (short, up)),
        ((short, up), (tall, down)),
    ):
        (found,) = audited(first, second)
        assert (found.code, found.ids) == ("contradicts", ("r1", "r0"))
    both_ways = along("grown", ("1 m", -2), ("40 m", 2))
    assert codes(audited((tall, both_ways), (tall, down))) == []
    tallest = '{ fact = "grown", above = "25 m" }'  # where the ramp that goes both ways only gives
    assert codes(audited((tallest, both_ways), (tall, down))) == ["contradicts"]


def test_ramps_that_pull_the_same_way_in_the_same_cases_repeat(audited: Audited) -> None:
    tall = '{ fact = "grown", above = "5 m" }'
    up, steeper = along("grown", ("1 m", 0), ("40 m", 1)), along("grown", ("1 m", 0), ("40 m", 2))
    assert codes(audited((tall, up), (tall, steeper))) == ["repeats"]
    assert codes(audited((tall, up), ('{ fact = "grown", above = "6 m" }', steeper))) == []


def test_rules_of_which_each_speaks_alone_somewhere_do_not_contradict(audited: Audited) -> None:
    """Between 5 and 9 m one takes back what the other gives: a middle, as a person may mean it."""
    low, tall = '{ fact = "grown", below = "9 m" }', '{ fact = "grown", above = "5 m" }'
    assert codes(audited((low, "{ points = 1 }"), (tall, "{ points = -1 }"))) == []


@pytest.mark.parametrize(
    ("because", "found"),
    [
        ("With {grown} in the garden there is shade", []),
        ("With {grown} In the garden there is shade", []),
        ("It grows {grown} m and no more", ["doubled-unit"]),
        ("It grows {grown} in, and no more", ["doubled-unit"]),
        ("It bears {bears} in, and no more", []),
        ("It grows {grown} g and no more", []),
    ],
)
def test_a_unit_is_doubled_where_the_fact_brings_it_and_in_is_a_word_too(
    audited: Audited, because: str, found: list[str]
) -> None:
    rule = (
        '{ all = [{ fact = "grown", above = "5 m" }, { fact = "bears", is = "shade" }] }',
        "{ points = 1 }",
    )
    assert codes(audited(rule, because=because)) == found


@pytest.mark.parametrize(
    ("when", "found"),
    [
        ('{ all = [{ fact = "soil", unknown = true }, { fact = "soil", is = "loam" }] }', []),  # assumed
        ('{ all = [{ fact = "bears", is = "shade" }, { fact = "bears", is = "fruit" }, '
         '{ fact = "bears", is = "blossom" }] }', []),
        ('{ fact = "grown", at_least = "40 m" }', []),
        ('{ fact = "grown", at_most = "1 m" }', []),
        ('{ any = [{ all = [{ fact = "grown", above = "20 m" }, { fact = "grown", below = "10 m" }] }, '
         '{ all = [{ fact = "hardy", above = "0 degC" }, { fact = "hardy", below = "-9 degC" }] }] }',
         ["never"]),
        ('{ any = [{ all = [{ fact = "grown", above = "20 m" }, { fact = "grown", below = "10 m" }] }, '
         '{ fact = "hardy", above = "0 degC" }] }', []),
    ],
)  # fmt: skip
def test_a_rule_that_can_never_speak_is_one_of_which_no_way_can_hold(
    audited: Audited, when: str, found: list[str]
) -> None:
    assert codes(audited((when, "{ points = 1 }"))) == found


def test_two_rules_that_rule_out_in_the_same_cases_repeat_and_two_that_do_both_do_not(
    audited: Audited,
) -> None:
    tall = '{ fact = "grown", above = "5 m" }'
    assert codes(audited((tall, "{ rule_out = true }"), (tall, "{ rule_out = true }"))) == ["repeats"]
    both_ways = along("grown", ("1 m", -1), ("40 m", 1))
    assert codes(audited((tall, both_ways), (tall, both_ways))) == []
    nothing = "{ points = 0 }"
    assert codes(audited((tall, nothing), (tall, nothing))) == ["no-effect", "no-effect"]


def test_rules_that_part_only_where_a_fact_is_absent_do_not_repeat(audited: Audited) -> None:
    other = '{ fact = "bears", is_not = "fruit" }'
    assumed = '{ all = [{ fact = "bears", unknown = true }, { fact = "bears", is = "fruit" }] }'
    absent_too = '{ fact = "bears", unknown = true }'
    first, second = (f"{{ any = [{other}, {part}] }}" for part in (assumed, absent_too))
    assert codes(audited((first, "{ points = 1 }"), (second, "{ points = 1 }"))) == []
    assert codes(audited((first, "{ points = 1 }"), (first, "{ points = 1 }"))) == ["repeats"]


def test_a_narrow_silence_beside_a_broad_one_is_no_gap(audited: Audited) -> None:
    """Where nobody speaks beyond it either, there is nothing between two that do."""
    cold = ('{ fact = "hardy", below = "-20 degC" }', "{ points = 2 }")
    for also in ("above", "at_least"):
        twice = f'{{ fact = "hardy", above = "-19.5 degC" }}, {{ fact = "hardy", {also} = "-5 degC" }}'
        assert codes(audited(cold, (f"{{ all = [{twice}] }}", "{ points = 1 }"))) == []


def test_rules_on_other_grounds_do_not_make_up_for_one_another(audited: Audited) -> None:
    """What the one gives below the threshold to trees with fruit, the other gives above it to others."""
    rule = '{{ all = [{{ fact = "hardy", {side} = "-20 degC" }}, {{ fact = "bears", {bears} = "fruit" }}] }}'
    low, high = rule.format(side="below", bears="is"), rule.format(side="at_least", bears="is")
    assert codes(audited((low, "{ points = 4 }"), (high, "{ points = 4 }"))) == []
    other = rule.format(side="at_least", bears="is_not")
    found = codes(audited((low, "{ points = 4 }"), (other, "{ points = 4 }")))
    assert found == ["cliff", "cliff"]


@pytest.mark.parametrize(
    ("because", "found"),
    [
        ("Is it so that it is so?", []), ("It is so and so it is!", []), ("They say 'it is so and so.'", []),
        ('They say \\"it is so and so.\\"', []), ("It is so and so it is", ["no-end"]),
        ("It is so and so it is,", ["no-end"]),
    ],
)  # fmt: skip
def test_a_sentence_ends_as_sentences_do(garden_folder: Path, because: str, found: list[str]) -> None:
    text = RULE.format(
        id="r0", when='{ fact = "grown", above = "5 m" }', effect="{ points = 1 }", because="X"
    )
    (garden_folder / "more.toml").write_text(text.replace("X for reason r0.", because), encoding="utf-8")
    assert [one.code for one in audit(load(garden_folder)) if one.ids == ("r0",)] == found


def test_the_other_side_of_a_contested_rule_is_read_too(garden_folder: Path) -> None:
    rules = garden_folder / "rules.toml"
    text = rules.read_text().replace("is a carpet.", "is a carpet").replace("Carpets start", "carpets start")
    rules.write_text(text)
    found = [(one.code, one.ids, one.data["key"]) for one in audit(load(garden_folder))]
    assert found == [
        ("no-end", ("tall-trees-trouble",), "contested.other"),
        ("no-start", ("tall-trees-trouble",), "contested.leans"),
    ]


@pytest.mark.parametrize(
    ("source", "kind"),
    [
        ('{ kind = "memory", note = "as we recall it" }', "memory"),
        ('{ kind = "assumption", note = "as we suppose" }', "an assumption"),
        ('{ kind = "common_practice" }', ""),
    ],
)  # fmt: skip
def test_nothing_is_ruled_out_on_an_opinion(garden_folder: Path, source: str, kind: str) -> None:
    rules = garden_folder / "rules.toml"
    old = '{ kind = "common_practice", note = "nurseries ask for it first" }'
    assert old in rules.read_text()
    rules.write_text(rules.read_text().replace(old, source))
    found = [(one.code, one.data.get("kind")) for one in audit(load(garden_folder))]
    assert found == ([("opinion-without-basis", kind)] if kind else [])


def test_a_decision_too_has_a_source_that_says_something(garden_folder: Path) -> None:
    decisions = garden_folder / "decisions.toml"
    said = '{ kind = "memory", note = "hm" }'
    decisions.write_text(decisions.read_text().replace('{ kind = "common_practice" }', said, 1))
    (found,) = audit(load(garden_folder))
    assert (found.code, found.what, found.ids) == ("thin-source", "decision", ("tree",))


def test_a_question_that_only_a_rule_without_effect_reads_is_idle(garden_folder: Path) -> None:
    moon = """
[[fact]]
id = "moon"
scope = "garden"
kind = "choice"
values = ["new", "full"]
title = "moon"
text = "How the moon stands."
source = { kind = "common_practice" }
ask = { topic = "ground", order = 9 }
"""
    rule = RULE.format(id="r0", when='{ fact = "moon", is = "full" }', effect="{ points = 0 }", because="So")
    (garden_folder / "more.toml").write_text(moon + rule, encoding="utf-8")
    found = [(one.code, one.ids) for one in audit(load(garden_folder)) if one.code != "fragment"]
    assert found == [("no-effect", ("r0",)), ("idle", ("moon",))]


def test_an_adjustment_by_nothing_has_no_effect(garden_folder: Path) -> None:
    rules = garden_folder / "rules.toml"
    rules.write_text(rules.read_text().replace('adjust = "0.75 m"', 'adjust = "0 m"'))
    assert [(one.code, one.ids) for one in audit(load(garden_folder))] == [
        ("no-effect", ("sand-lets-roots-run",))
    ]
