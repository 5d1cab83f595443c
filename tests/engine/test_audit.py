"""The audit: each thing that a rule base can say and hardly mean, with a witness; and reading aloud."""

from __future__ import annotations

import ast
import re
import sys
from pathlib import Path

import pytest

import rules.engine
from rules.engine import Candidate, RuleBase, known, load
from rules.engine.aloud import leaners, read_aloud, readers
from rules.engine.audit import Finding, audit
from rules.engine.audit.findings import WORDING
from rules.engine.faults import UnknownName
from rules.engine.views import Value
from rules.units import System

HERE = Path(__file__).parent


@pytest.fixture(scope="module")
def base() -> RuleBase:
    return load(HERE / "audited")


@pytest.fixture(scope="module")
def findings(base: RuleBase) -> tuple[Finding, ...]:
    return audit(base)


def test_every_sort_is_found_once_and_nothing_else(findings: tuple[Finding, ...]) -> None:
    found = [(finding.code, finding.ids[0]) for finding in findings]
    assert found == [
        ("never", "never-speaks"), ("always", "always-speaks"), ("no-effect", "moonlight-means-nothing"),
        ("void", "steep-but-nice"), ("contradicts", "tall-is-bad"), ("repeats", "sandy-and-wet"),
        ("same-sentence", "same-words-b"), ("cliff", "low-is-lovely"), ("gap", "little-rain"),
        ("idle", "moonlight"), ("idle", "echo"), ("unread", "needles"),
        ("thin-source", "rain"), ("thin-source", "grown"), ("opinion-without-basis", "on-a-hunch"),
        ("doubled-unit", "says-units-twice"), ("code-word", "speaks-in-code"), ("no-end", "does-not-end"),
        ("no-start", "does-not-begin"), ("fragment", "is-too-short"), ("same-text", "says-it-twice"),
        ("may-be-unknown", "may-say-not-known"),
    ]  # fmt: skip
    assert {code for code, _ in found} == set(WORDING)


def test_findings_name_both_rules_and_read_as_sentences(findings: tuple[Finding, ...]) -> None:
    by_code = {finding.code: finding for finding in findings}
    assert by_code["contradicts"].ids == ("tall-is-bad", "tall-is-good")
    assert by_code["gap"].ids == ("little-rain", "much-rain")
    assert str(by_code["cliff"]) == (
        "rule 'low-is-lovely': the points jump by 4 at grown height 5 m; base.toml allows 3; use a ramp"
    )
    assert all(
        "\n" not in str(finding) and "{" not in str(finding).replace("{grown}", "") for finding in findings
    )


def points(base: RuleBase, witness: dict[str, Value], rule: str) -> int | None:
    """What one rule gives on a witness; None when it is silent."""
    tree = Candidate("one", {id: known(value) for id, value in witness.items()})
    standing = base.choose("tree", {}, [tree]).standings[0]
    return next((line.points for line in standing.lines if line.rule and line.rule.id == rule), None)


def test_witnesses_show_what_was_found(base: RuleBase, findings: tuple[Finding, ...]) -> None:
    shown = {f.code: dict(f.witness) for f in findings if f.witness is not None}
    assert points(base, shown["contradicts"], "tall-is-good") == 2000
    assert points(base, shown["contradicts"], "tall-is-bad") == -2000
    assert points(base, shown["repeats"], "wet-and-sandy") == 1000
    assert points(base, shown["repeats"], "sandy-and-wet") == 1500
    assert points(base, shown["always"], "always-speaks") == 2000
    assert points(base, shown["no-effect"], "moonlight-means-nothing") == 0
    assert points(base, shown["void"], "steep-but-nice") == 1000
    assert points(base, shown["gap"], "little-rain") is None
    assert points(base, shown["gap"], "much-rain") is None
    edge = float(str(shown["cliff"]["grown"]))
    assert points(base, {"grown": edge}, "low-is-lovely") is None
    assert points(base, {"grown": edge - 0.001}, "low-is-lovely") == 4000


def test_rules_that_make_up_for_one_another_are_no_cliff(tmp_path: Path) -> None:
    for file in (HERE / "audited").glob("*.toml"):
        (tmp_path / file.name).write_text(file.read_text())
    extra = (tmp_path / "rules.toml").read_text().split("# cliff")[1].split("# gap")[0]
    extra = extra.replace("low-is-lovely", "not-so-low").replace('below = "5 m"', 'at_least = "5 m"')
    (tmp_path / "more.toml").write_text(
        extra.replace("points = 4", "points = 2").replace("of reason", "of a reason")
    )
    assert "cliff" not in {finding.code for finding in audit(load(tmp_path))}


def test_a_sound_base_has_nothing_to_find(garden: RuleBase) -> None:
    assert audit(garden) == ()


def test_a_rule_is_read_aloud(garden: RuleBase) -> None:
    assert read_aloud(garden, "tall-trees-trouble", "metric").splitlines() == [
        "rule tall-trees-trouble, on the tree",
        "when",
        "  grown height is above 12 m (assumption 'tall')",
        "then",
        "  along the grown height, straight between:",
        "    12 m: +0 points",
        "    20 m: -4 points",
        "    30 m: -5 points",
        "because: It grows {grown} tall, and the neighbours get the shade.",
        "teaches: Look up before you dig.",
        "another view: A garden without one tall tree is a carpet.",
        "  +1 points",
        "why it leans this way: Carpets start no quarrels.",
        "source: common practice",
    ]


def test_all_that_is_read_aloud_is_in_the_units_asked_for(garden_folder: Path) -> None:
    """Also what a question hangs on, what the other side would do, and whether a set is known."""
    facts, rules = garden_folder / "facts.toml", garden_folder / "rules.toml"
    applies = 'applies = { fact = "wishes", is = "fruit" }'
    cold = 'applies = { all = [{ fact = "frost", below = "-10 degC" }, { fact = "wishes", known = true }] }'
    facts.write_text(facts.read_text().replace(applies, cold))
    sand = 'when = { fact = "soil", is = "sand" }'
    other = 'contested = { other = "Roots stay.", leans = "They run.", effect = { adjust = "3 m" } }'
    rules.write_text(rules.read_text().replace(sand, f"{sand}\n{other}"))
    base = load(garden_folder)
    cases: tuple[tuple[System, str, str], ...] = (
        ("metric", "-10 degC", "+3 m"),
        ("imperial", "14 degF", "+3 yd"),
    )
    for system, frost, roots in cases:
        told = read_aloud(base, "child_age", system)
        assert f"hardest frost is below {frost}\n" in told
        assert "wishes is known\n" in told
        assert f"another view: Roots stay.\n  {roots}\n" in read_aloud(base, "sand-lets-roots-run", system)


def test_an_adjustment_in_inches_is_read_aloud_in_fractions(garden_folder: Path) -> None:
    decisions, rules = garden_folder / "decisions.toml", garden_folder / "rules.toml"
    decisions.write_text(
        decisions.read_text().replace('unit = "m"', 'unit = "in"').replace('"0.5 m"', '"20 in"')
    )
    rules.write_text(rules.read_text().replace('adjust = "0.75 m"', 'adjust = "2.5 in"'))
    assert "\n  +2 1/2 in\n" in read_aloud(load(garden_folder), "sand-lets-roots-run")


def test_everything_can_be_read_aloud(garden: RuleBase) -> None:
    for id in (*garden.rules, *garden.facts, *garden.assumptions, *garden.decisions):
        told = read_aloud(garden, id)
        assert "source: " in told
        assert "None" not in told
    assert "used by: tall-trees-trouble" in read_aloud(garden, "tall")
    assert "only when\n  wishes has fruit" in read_aloud(garden, "child_age")
    assert "weighed by: roots-reach-far, sand-lets-roots-run" in read_aloud(garden, "distance")
    assert "source: published: A. Arborist (1998), Trees, p. 12" in read_aloud(garden, "grown")
    with pytest.raises(UnknownName, match="did you mean 'wishes'"):
        read_aloud(garden, "wihses")


def test_who_uses_what(garden: RuleBase) -> None:
    assert readers(garden, "light") == ("shade-is-there",)
    assert readers(garden, "wishes") == ("fruit-wanted", "blossom-wanted", "question child_age")
    assert leaners(garden, "usual-soil") == ("fact soil",)
    assert leaners(garden, "usual-distance") == ("decision distance",)


FILES = sorted(Path(rules.engine.__file__).parent.rglob("*.py"))


def test_the_engine_knows_no_golf() -> None:
    words = re.compile(
        r"\b(?!golf\. )(golf\w*|clubs?|shafts?|lofts?|driver|hybrid|fairway|handicap|hosel|grips?)\b", re.I
    )
    for file in FILES:
        text = file.read_text(encoding="utf-8").replace("It knows nothing of golf.", "")
        assert not words.search(text), (file.name, words.search(text))


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_the_engine_can_be_lifted_out(file: Path) -> None:
    allowed = {"rules.engine", "rules.units", "rules.problems", "tomli_w"}
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        for name in names:
            top = name.split(".")[0]
            assert top in sys.stdlib_module_names or ".".join(name.split(".")[:2]) in allowed, name


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_no_text_of_a_rule_file_is_ever_run_or_formatted(file: Path) -> None:
    """A stranger's file can do nothing but score: nothing here runs code or formats with its text."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in {"eval", "exec", "compile", "__import__", "globals", "open"}
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "format":
            assert not any(
                isinstance(inner, ast.Attribute) and inner.attr in {"because", "teaches", "text"}
                for inner in ast.walk(node.func.value)
            )
