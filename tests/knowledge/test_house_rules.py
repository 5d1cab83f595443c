"""The rule base itself: it loads, its audit is clean, and every sentence and number says where it is from."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from rules.engine.audit import audit
from rules.engine.language import Rule, Source
from rules.fitting import House

TOPICS = {"body", "bench", "bay", "rules_of_golf", "claim", "bag", "fit", "evidence"}
"""Topics of cautions that others rely on."""


def test_the_audit_finds_nothing(house: House) -> None:
    assert [str(finding) for finding in audit(house.base)] == []


def test_every_rule_says_why_what_it_teaches_and_where_it_is_from(house: House) -> None:
    for rule in house.base.rules.values():
        assert rule.because.strip()
        assert rule.teaches.strip()
        assert rule.source.kind in ("published", "rules_of_golf", "common_practice", "memory", "assumption")
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", rule.id)


def test_published_sources_are_whole(house: House) -> None:
    published = [s for s in _sources(house) if s.kind == "published"]
    assert len(published) >= 5
    for source in published:
        assert all(source.parts.get(part) for part in ("author", "year", "title", "place"))


def test_rules_of_golf_name_rule_and_edition(house: House) -> None:
    cited = [s for s in _sources(house) if s.kind == "rules_of_golf"]
    assert len(cited) >= 3
    for source in cited:
        assert source.parts.get("rule")
        assert source.parts.get("edition")
        assert source.cite is not None
        assert source.cite.startswith(str(source.parts["rule"])), "named as its own book names it"


def test_memory_and_assumption_say_so(house: House) -> None:
    for source in _sources(house):
        if source.kind in ("memory", "assumption"):
            assert source.parts.get("note")


def _sources(house: House) -> list[Source]:
    base = house.base
    found = [rule.source for rule in base.rules.values()]
    found += [fact.source for fact in base.facts.values()]
    found += [one.source for one in base.assumptions.values()]
    return found + [decision.source for decision in base.decisions.values()]


def test_every_assumption_has_a_range_that_holds_its_value(house: House) -> None:
    for one in house.base.assumptions.values():
        if isinstance(one.value, float):
            assert one.range is not None, one.id
            assert one.range[0] <= one.value <= one.range[1], one.id
        else:
            assert one.value in one.values, one.id


def test_both_schools_are_heard_where_the_trade_disagrees(house: House) -> None:
    contested = [r for r in house.base.rules.values() if r.contested]
    assert len(contested) >= 15
    for rule in contested:
        assert rule.contested is not None
        assert rule.contested.other.strip()
        assert rule.contested.leans.strip()
    shorter_school = {"scattered-strikes-shorten", "heel-strikes-shorten", "own-marks-spread-sets-length"}
    assert shorter_school <= {r.id for r in contested}


def test_every_question_has_a_place_of_its_own(house: House) -> None:
    places: dict[tuple[str, int], list[str]] = {}
    for fact in house.base.facts.values():
        if fact.ask:
            places.setdefault((fact.ask.topic, fact.ask.order), []).append(fact.id)
    assert {place: ids for place, ids in places.items() if len(ids) > 1} == {}, "give each its own `order`"


def test_cautions_keep_to_the_topics(house: House) -> None:
    topics = Counter(r.effect.topic for r in house.base.rules.values() if r.effect.kind == "caution")
    assert set(topics) == TOPICS
    assert {r.effect.topic for r in house.base.rules.values() if r.effect.kind == "advise"} == {"prove"}


@pytest.mark.parametrize(
    "decision", ["head", "length", "balance", "shaft", "tip", "grip", "lie", "pairing", "ports"]
)
def test_every_decision_hears_rules(house: House, decision: str) -> None:
    assert [r for r in house.base.rules.values() if r.decision == decision]


def test_age_picks_nothing_but_cautions(house: House) -> None:
    # Common practice: age never picks flex; here it picks no loft either.
    readers = [r for r in house.base.rules.values() if "age_band" in r.reads]
    assert readers
    assert {r.effect.kind for r in readers} == {"caution"}


def test_nobody_is_asked_whether_he_is_a_man_or_a_woman(house: House) -> None:
    # Common practice builds "an inch less for women"; here strike, speed and build decide.
    sex = re.compile(r"\b(sex|gender|m[ae]n|wom[ae]n|lad(y|ies)|male|female)\b", re.IGNORECASE)
    for fact in house.base.facts.values():
        assert not sex.search(" ".join((fact.id.replace("_", " "), fact.title, fact.text, *fact.values))), (
            fact.id
        )


def test_a_strong_consideration_is_a_few_points_and_a_nudge_is_small(house: House) -> None:
    fixed = [_size(r) for r in house.base.rules.values() if r.effect.kind == "points"]
    assert max(fixed) <= 30_000
    assert sum(1 for points in fixed if points <= 3_000) > len(fixed) / 2


def _size(rule: Rule) -> int:
    ramp = rule.effect.ramp
    return max(abs(y) for _, y in ramp.at) if ramp else abs(rule.effect.amount)
