"""The trace: conditions with truth and value, what kept a rule silent, notices, and their sentences."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rules.engine import Candidate, RuleBase, View, assumed, known
from rules.engine.lines import Silent
from rules.engine.text import fill, named_facts, stray_brace
from rules.engine.truth import ABSENT, FALSE, TRUE, all_of, any_of, best_word, opposite, word
from rules.engine.views import ABSENT as NOT_KNOWN

FRUIT = frozenset(("fruit",))


def silent(base: RuleBase, rule: str, shared: dict[str, View], tree: dict[str, View]) -> Silent:
    standing = base.choose("tree", shared, [Candidate("one", tree)]).standings[0]
    return next(quiet for quiet in standing.silent if quiet.rule.id == rule)


def test_a_silent_rule_names_what_kept_it_silent(garden: RuleBase) -> None:
    tree = {"bears": known(frozenset(("blossom",)))}
    quiet = silent(garden, "blossom-wanted", {"wishes": known(FRUIT), "soil": known("clay")}, tree)
    kept = [(told.fact, told.best) for told in quiet.blockers]
    assert kept == [("wishes", "fails"), ("soil", "holds")]  # clay holds, and none of it was wanted
    assert [part.best for part in quiet.conditions.parts] == ["fails", "holds", "fails"]
    view = quiet.conditions.parts[0].view
    assert view is not None
    assert view.best == FRUIT


def test_only_what_holds_keeps_a_none_from_holding(one_rule: Callable[[str, str], RuleBase]) -> None:
    condition = '{ none = [{ fact = "soil", is = "clay" }, { fact = "wishes", is = "fruit" }] }'
    base = one_rule(condition, "{ points = 1 }")
    quiet = silent(base, "tried", {"soil": known("clay"), "wishes": known(frozenset())}, {})
    assert [(told.fact, told.best) for told in quiet.blockers] == [("soil", "holds")]
    both = silent(base, "tried", {"soil": known("clay"), "wishes": known(FRUIT)}, {})
    assert [told.fact for told in both.blockers] == ["soil", "wishes"]
    gone = silent(base, "tried", {"wishes": known(FRUIT)}, {})
    assert [(told.fact, told.best) for told in gone.blockers] == [("soil", "absent"), ("wishes", "holds")]


def test_an_absent_ramp_fact_is_named(garden: RuleBase) -> None:
    quiet = silent(garden, "tall-trees-trouble", {}, {})
    assert [told.fact for told in quiet.blockers] == ["grown", "grown"]
    assert quiet.conditions.best == "absent"


def test_open_conditions_are_undetermined(garden: RuleBase) -> None:
    soil = assumed("clay", garden.facts["soil"].widest, open=True)
    quiet = silent(garden, "blossom-wanted", {"soil": soil}, {})
    (soil_part,) = quiet.conditions.parts[2].parts
    assert (soil_part.best, soil_part.could) == ("holds", "undetermined")
    assert quiet.conditions.parts[2].could == "undetermined"


@pytest.mark.parametrize(
    ("status", "how", "held"),
    [("open", "assumed", "unknown"), ("open", "derived", "known"), ("unknown", "assumed", "unknown")],
)
def test_whether_an_open_fact_is_known_may_turn_but_has_its_best_value(
    one_rule: Callable[[str, str], RuleBase], status: Any, how: Any, held: str
) -> None:
    base = one_rule("{ any = [{ fact = \"soil\", known = true }, { fact = \"soil\", unknown = true }] }",
                    "{ points = 1 }")  # fmt: skip
    soil = View("loam", frozenset(("loam", "clay")), status, how)
    (line,) = base.choose("tree", {"soil": soil}, [Candidate("one", {})]).standings[0].lines
    assert line.conditions is not None
    told = {getattr(atom.condition, "op", ""): atom for atom in line.conditions.atoms()}
    assert {op: atom.best for op, atom in told.items()} == {
        "known": "holds" if held == "known" else "fails",
        "unknown": "holds" if held == "unknown" else "fails",
    }
    sure = {"known": "fails", "unknown": "holds"}
    for op, atom in told.items():
        assert atom.could == ("undetermined" if status == "open" else sure[op])


def test_lines_hold_their_facts_and_conditions(garden: RuleBase) -> None:
    shared = {"wishes": known(frozenset(("blossom",))), "soil": known("loam")}
    tree = {"bears": known(frozenset(("blossom", "shade")))}
    (line,) = garden.choose("tree", shared, [Candidate("one", tree)]).standings[0].lines
    assert set(line.facts) == {"wishes", "bears", "soil"}
    assert line.conditions is not None
    assert line.conditions.could == "holds"
    assert line.text() == "You wish for blossom, and on loam it blossoms."
    assert line.teaches() == "Clay keeps the buds waiting."
    assert "blossom-wanted" in repr(line)


def test_notices_speak_on_the_best_values(garden: RuleBase) -> None:
    views = {"child_age": known(4.0), "light.shade": known(0.5)}
    told = garden.notices("garden", views)
    assert [(n.rule.id, n.kind, n.topic) for n in told] == [
        ("child-and-berries", "caution", "safety"), ("shade-is-there", "advise", "ground"),
    ]  # fmt: skip
    assert told[0].text() == "A child of 4 years eats what it finds; plant nothing that is poisonous."
    assert told[1].text() == "The place lies in shade for 50 % of the day."
    assert told[0].facts == {"child_age": views["child_age"]}
    assert told[0].conditions is not None
    assert garden.notices("garden", {}) == ()
    assert garden.notices("tree", views) == ()


def test_a_question_applies_when_its_condition_holds(garden: RuleBase) -> None:
    assert garden.applies("frost", {})
    assert garden.applies("child_age", {"wishes": known(FRUIT)})
    assert not garden.applies("child_age", {"wishes": known(frozenset())})
    assert not garden.applies("child_age", {"wishes": NOT_KNOWN})
    assert not garden.applies("grown", {})


def test_what_a_fact_says_is_never_read_as_braces(garden: RuleBase) -> None:
    said = fill("On {soil}, {nobody}.", garden.facts, lambda _: known("{frost}"))
    assert said == "On {frost}, {nobody}."
    assert fill("On {soil}.", garden.facts, lambda _: NOT_KNOWN) == "On not known."
    assert fill("For {wishes}.", garden.facts, lambda _: known(frozenset())) == "For none."
    both = known(frozenset(("shade", "fruit", "blossom")))
    assert fill("For {wishes}.", garden.facts, lambda _: both) == "For shade, fruit and blossom."


def test_braces() -> None:
    assert named_facts("a {b} and {c.d}") == ("b", "c.d")
    assert stray_brace("a {b} c") is None
    assert stray_brace("a {b c") == "a {b c"
    assert stray_brace("a }b") is not None


UNDETERMINED = 9


@pytest.mark.parametrize(
    ("parts", "every", "some"),
    [
        ([TRUE, TRUE], TRUE, TRUE), ([TRUE, FALSE], FALSE, TRUE), ([FALSE, FALSE], FALSE, FALSE),
        ([TRUE, ABSENT], ABSENT, TRUE), ([FALSE, ABSENT], FALSE, ABSENT), ([ABSENT, ABSENT], ABSENT, ABSENT),
        ([UNDETERMINED, TRUE], UNDETERMINED, TRUE), ([UNDETERMINED, FALSE], FALSE, UNDETERMINED),
    ],
)  # fmt: skip
def test_three_values(parts: list[int], every: int, some: int) -> None:
    """Kleene, Introduction to Metamathematics (1952), section 64, table for strong conjunction."""
    assert all_of(parts) == every
    assert any_of(parts) == some
    assert any_of([opposite(p) for p in parts]) == opposite(every)


def test_truths_have_names() -> None:
    assert [word(t) for t in (TRUE, FALSE, ABSENT, UNDETERMINED)] == [
        "holds",
        "fails",
        "absent",
        "undetermined",
    ]
    assert [best_word(t) for t in (TRUE, FALSE, ABSENT)] == ["holds", "fails", "absent"]


def test_an_absent_part_beside_an_open_one_can_never_hold(garden: RuleBase) -> None:
    soil = assumed("loam", garden.facts["soil"].widest, open=True)
    tree = {"bears": NOT_KNOWN}
    standing = garden.choose(
        "tree", {"soil": soil, "wishes": known(FRUIT)}, [Candidate("one", tree)]
    ).standings[0]
    assert (standing.low, standing.high) == (0, 0)
