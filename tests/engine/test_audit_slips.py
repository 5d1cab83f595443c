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
