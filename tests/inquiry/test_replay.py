"""Past cases under changed rules or another catalogue, and which rules did it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules.facts.reading import read_subject
from rules.facts.subject import Subject
from rules.fitting import House, fit
from rules.inquiry.blame import Blame
from rules.inquiry.invented import invented
from rules.inquiry.replay import Case, Tally, replayed

RULE = "five-wood-hit-well"


def subject(house: House, number: int) -> Subject:
    data = {key: part for key, part in invented(number).items() if key in ("answers", "owned", "shots")}
    return read_subject(house.base.facts, data)


def test_the_same_rules_change_nothing(house: House) -> None:
    for number in range(6):
        who = subject(house, number)
        case = replayed(house, house, str(number), who, who)
        assert not case.changed
        assert not case.because


def test_a_case_that_changes_says_from_what_to_what_and_because_of_which_rule(house: House) -> None:
    after = House(house.base.without(RULE), house.shelf)
    turned = []
    for number in range(40):
        who = subject(house, number)
        case = replayed(house, after, str(number), who, who)
        picks = [fit(one, replace(who, overrides={})).picked for one in (house, after)]
        assert [case.before, case.after] == [one and one.id for one in picks]
        if case.before != case.after:
            turned.append(case)
            assert case.because == {"pairing": (Blame(RULE, 2500),)}
    assert turned


def test_another_catalogue_is_blamed_on_no_rule(house: House) -> None:
    who = subject(house, 3)
    old = replayed(house, house, "3", who, who)
    assert old.before is not None
    gone = old.before.split("+")[0]
    kind, _, loft = gone.partition("-")
    heads = tuple(
        head for head in house.shelf.heads
        if not (head.kind == kind and abs(head.loft * 57.29578 - float(loft)) < 0.3)
    )  # fmt: skip
    after = House(house.base, replace(house.shelf, heads=heads))
    case = replayed(house, after, "3", who, who)
    assert case.before != case.after
    assert not case.because


def test_a_tally_counts_and_keeps_only_what_changed() -> None:
    tally = Tally()
    tally.add(Case("b", "x", "y"))
    tally.add(Case("a", "x", "y"))
    tally.add(Case("c", "x", "x"))
    tally.add(Case("d", "x", "x", {"longer.length": (1.0, 1.1)}))
    tally.add(Case("e", unreadable="broken"))
    tally.sort()
    assert tally.cases == 5
    assert [case.id for case in tally.changed] == ["a", "b", "d"]
    assert [case.id for case in tally.unreadable] == ["e"]
    assert tally.pairs["x", "y"] == 2
    assert tally.parts["length"] == 1


@pytest.mark.parametrize("number", [0, 7, 123456])
def test_invented_golfers_are_the_same_each_time_and_can_be_read(house: House, number: int) -> None:
    assert invented(number) == invented(number)
    subject(house, number)
