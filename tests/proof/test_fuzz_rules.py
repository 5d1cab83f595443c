"""Rule bases changed at random places, and conditions and effects made by the grammar and beside it."""

from __future__ import annotations

import shutil
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from rules.engine import load
from rules.house import KNOWLEDGE, load_house
from tests.proof.fuzz_kit import (
    SAMPLES,
    mutated,
    nasty_text,
    place_of_its_own,
    polite,
    ran,
    spliced,
    toml_values,
    tries,
)

SWEEPER = str(next(file for file in SAMPLES if file.stem == "sweeper"))
GARDEN = Path(__file__).parents[1] / "engine" / "garden"
"""A small rule base of another trade, read a hundred times as fast as the house's own."""
WHOLE: dict[str, Any] = {}
for file in sorted(GARDEN.glob("*.toml")):
    WHOLE |= tomllib.loads(file.read_text())
BASE = load(GARDEN)
FACTS = sorted(BASE.facts)
HOUSE = sorted(KNOWLEDGE.glob("*.toml"))
ENTRIES = [
    (kind, entry)
    for file in HOUSE
    for kind, entries in tomllib.loads(file.read_text()).items()
    if kind in ("fact", "assumption", "decision", "rule")
    for entry in entries
]
CHECKS = ("rules check laid", "rules check laid --witnesses seen", "rules show --rules laid")
ROADS = ("recommend {0} --rules laid", "rules show hand --rules laid", "replay one --before laid")
OPERATORS = {
    "number": ("below", "at_most", "above", "at_least", "between", "known", "unknown", "is"),
    "choice": ("is", "is_not", "one_of", "known", "unknown", "below"),
    "set": ("contains", "lacks", "known", "unknown", "is"),
    "shares": ("known", "above"),
}
"""For each kind of fact what may be asked of it, and something that may not."""


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    with place_of_its_own(tmp_path_factory.mktemp("rules")) as folder:
        yield folder


def laid_over(own: Path, raw: bytes, line: str) -> int:
    """Make a folder of rules of one file and let a command read it."""
    load_house.cache_clear()  # it remembers folders by name, for one command
    for made in ("laid", "seen"):
        shutil.rmtree(own / made, ignore_errors=True)
    (own / "laid").mkdir()
    (own / "laid" / "base.toml").write_bytes(raw)
    return polite(ran([word.format(SWEEPER) for word in line.split()])).status


def values(fact: str) -> st.SearchStrategy[Any]:
    """What a fact may be held against, nearly always of its kind."""
    one = BASE.facts[fact]
    fitting: list[Any] = [{"assumption": id} for id in list(BASE.assumptions)[:3]]
    if one.kind == "number":
        fitting += [f"{n} {one.unit}".strip() for n in (0, 1, -3, 18, 85.5, 400)] * 2 + [True, 12]
    else:
        fitting += [*one.values, list(one.values[:2])] * 2
    return st.sampled_from(fitting)


@st.composite
def conditions(draw: st.DrawFn, depth: int = 0) -> dict[str, Any]:
    """A condition by the grammar, groups inside groups; sometimes deeper than is read."""
    if depth < 8 and draw(st.integers(0, 3)) == 0:
        group = draw(st.sampled_from(("all", "any", "none")))
        return {group: draw(st.lists(conditions(depth + 1), min_size=0 if depth else 1, max_size=3))}
    fact = draw(st.sampled_from(FACTS))
    operator = draw(st.sampled_from(OPERATORS[BASE.facts[fact].kind]))
    value = draw(values(fact))
    if operator == "between":
        value = [value, draw(values(fact))]
    return {"fact": fact, operator: True if operator in ("known", "unknown") else value}


@st.composite
def effects(draw: st.DrawFn) -> dict[str, Any]:
    """An effect: fixed, or a ramp over a fact, or a notice."""
    sort = draw(st.sampled_from(("points", "points", "adjust", "rule_out", "caution", "advise")))
    if sort in ("caution", "advise"):
        return {sort: draw(st.sampled_from(BASE.topics))}
    if sort == "rule_out":
        return {sort: True}
    fact = draw(st.sampled_from(FACTS))
    unit = BASE.facts[fact].unit
    nodes = draw(st.lists(st.tuples(st.integers(-5, 300), st.floats(-9, 9)), min_size=1, max_size=4))
    ramp = {"from": fact, "at": [[f"{x} {unit}".strip(), y] for x, y in sorted(nodes)]}
    return {sort: draw(st.sampled_from((2.5, -1, "1/4 in", "2 points", 1e9, ramp)))}


@st.composite
def rules(draw: st.DrawFn) -> dict[str, Any]:
    """A rule by the grammar; whether it may read and say what it does is for the loader to find out."""
    decision = draw(st.sampled_from([*BASE.decisions.values(), None]))
    said = draw(st.sampled_from(("So it is.", "It is {frost}.", "{", "{no_such}"))) + draw(nasty_text(8))
    rule = {
        "id": draw(st.sampled_from(("fuzzed", "fuzzed-2", "Fuzzed", ENTRIES[-1][1]["id"]))),
        "scope": decision.scope if decision else draw(st.sampled_from(BASE.scopes)),
        "effect": draw(effects()), "because": said, "teaches": "Nothing.",
        "source": {"kind": "common_practice"},
    }  # fmt: skip
    if decision:
        rule["decision"] = decision.id
    if draw(st.booleans()):
        rule["when"] = draw(conditions())
    return rule


@pytest.mark.parametrize("wrong", [[], {}, [1], 3, True, 1.5])
@pytest.mark.parametrize("key", ["decision", "scope", "fact", "assumption", "ramp"])
def test_an_id_that_is_no_text(own: Path, key: str, wrong: Any) -> None:
    rule = {**WHOLE["rule"][0], "id": "fuzzed"}
    if key == "fact":
        rule["when"] = {"fact": wrong, "is": "clay"}
    elif key == "assumption":
        rule["when"] = {"fact": "grown", "above": {"assumption": wrong}}
    elif key == "ramp":
        rule["effect"] = {"points": {"from": wrong, "at": [["1 m", 1], ["2 m", 2]]}}
    else:
        rule[key] = wrong
    whole = {**WHOLE, "rule": [*WHOLE["rule"], rule]}
    assert laid_over(own, tomli_w.dumps(whole).encode(), "rules check laid") == 2


@pytest.mark.parametrize("kind", ["decision", "fact", "assumption", "rule"])
@pytest.mark.parametrize("id", ["3 m", "", "-", "\u202e"])
def test_an_id_that_is_no_id(own: Path, kind: str, id: str) -> None:
    whole = {**WHOLE, kind: [{**entry, "id": id} for entry in WHOLE[kind]]}
    assert laid_over(own, tomli_w.dumps(whole).encode(), "rules check laid") == 2


WRONG = toml_values() | st.sampled_from(
    ["frost", "3 m", "points", 1, {"assumption": "x"}, BASE.topics[0], {"fact": "frost"}, []]
)


@given(data=mutated(WHOLE, WRONG), line=st.sampled_from(CHECKS))
@tries(40, 2000)
def test_a_rule_base_changed_at_some_places(own: Path, data: dict[str, Any], line: str) -> None:
    laid_over(own, tomli_w.dumps(data).encode("utf-8", "replace"), line)


@given(some=st.lists(rules(), min_size=1, max_size=3), line=st.sampled_from(CHECKS))
@tries(40, 2000)
def test_rules_by_the_grammar(own: Path, some: list[dict[str, Any]], line: str) -> None:
    whole = {**WHOLE, "rule": [*WHOLE["rule"], *some]}
    laid_over(own, tomli_w.dumps(whole).encode("utf-8", "replace"), line)


@given(entry=st.sampled_from(ENTRIES), line=st.sampled_from(ROADS), data=st.data())
@tries(8, 400)
def test_the_house_s_own_entries_changed_at_some_places(
    own: Path, entry: tuple[str, Any], line: str, data: st.DataObject
) -> None:
    kind, whole = entry
    (own / "one").mkdir(exist_ok=True)
    (own / "one" / "sweeper.toml").write_bytes(Path(SWEEPER).read_bytes())
    changed = data.draw(mutated({kind: [whole]}, WRONG))
    laid_over(own, tomli_w.dumps(changed).encode("utf-8", "replace"), line)


@given(
    file=st.sampled_from(HOUSE), at=st.floats(0, 1), length=st.integers(0, 40), put=nasty_text(),
    line=st.sampled_from(ROADS),
)  # fmt: skip
@tries(8, 400)
def test_a_rule_file_with_text_put_anywhere(
    own: Path, file: Path, at: float, length: int, put: str, line: str
) -> None:
    laid_over(own, spliced(file.read_text(), at, length, put), line)


@given(raw=st.binary(max_size=200), line=st.sampled_from(CHECKS))
@tries(8, 400)
def test_any_bytes_as_rules(own: Path, raw: bytes, line: str) -> None:
    laid_over(own, raw, line)
