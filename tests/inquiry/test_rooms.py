"""Which rooms read an entry: asked of the source, held to what a reader of the source would say."""

from __future__ import annotations

import pytest

from interview.commands.main import main
from rules.engine.aloud import leaners, readers
from rules.fitting import House
from rules.inquiry.moved import moved, moves
from rules.inquiry.rooms import assumption_rooms, fact_rooms


@pytest.mark.parametrize(
    ("id", "room"),
    [
        ("scattered-factor", "facts/strike"),
        ("flex-r-to-s", "facts/wanted"),
        ("attack-divot", "facts/delivery"),
        ("mishit-rough-extra-hybrid", "facts/mishits"),
        ("raise-tight", "facts/lies"),
        ("gap-least", None),
    ],
)
def test_an_assumption_is_read_where_its_name_stands_or_is_put_together(id: str, room: str | None) -> None:
    found = assumption_rooms(id)
    assert (room in found) if room else not found


@pytest.mark.parametrize(
    ("id", "room"), [("lies", "facts/golfer"), ("turf_mark", "facts/delivery"), ("tempo", "facts/wanted")]
)
def test_a_fact_is_read_where_it_is_asked_for(id: str, room: str) -> None:
    assert room in fact_rooms(id)


def test_nothing_stands_in_the_rule_base_that_nobody_reads(house: House) -> None:
    base = house.base
    idle = [id for id in base.assumptions if not leaners(base, id) and not assumption_rooms(id)]
    idle += [
        id
        for id, fact in base.facts.items()
        if fact.part_of is None and not readers(base, id) and not fact_rooms(id) and not fact.used_for
    ]
    assert idle == []


def test_what_a_derived_fact_moves_is_what_its_rules_move(house: House) -> None:
    assert moves(house.base, "strike_from")[0] in moved().values()
    assert moves(house.base, "no-such-entry") == ()


def test_show_says_who_reads_it_and_what_it_moves(capsys: pytest.CaptureFixture[str]) -> None:
    for id in ("scattered-factor", "turf_mark", "scattered-strikes-want-hybrid"):
        assert main(["rules", "show", id]) == 0
        out = capsys.readouterr().out
        assert f"moves the sample session: {moved()[id]}" in out
        assert "source: " in out
    main(["rules", "show", "turf_mark"])
    assert "read by the program in: rules/facts/delivery" in capsys.readouterr().out
    main(["rules", "show", "trial-level"])
    assert "moves no sample session by itself" in capsys.readouterr().out
