"""What a typed line means, and how lines go in and out."""

from __future__ import annotations

import io
from collections.abc import Mapping
from typing import TYPE_CHECKING

import pytest

from interview.commands.ask.lines import Lines
from interview.commands.ask.spoken import Spoken, question_names, spoken

if TYPE_CHECKING:
    from rules.engine.language import Fact


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("", Spoken("nothing")),
        (" \x1b[A \t", Spoken("nothing")),
        ("?", Spoken("why")),
        ("why", Spoken("why")),
        ("why wind", Spoken("why", "wind")),
        ("-", Spoken("skip")),
        ("SKIP", Spoken("skip")),
        ("skip usual score", Spoken("skip", "typical_score")),
        ("back", Spoken("back")),
        ("done", Spoken("done")),
        ("quit", Spoken("quit")),
        ("clear", Spoken("clear")),
        ("clear handicap", Spoken("clear", "handicap")),
        ("go wrist to floor", Spoken("go", "wrist_to_floor")),
        ("go to Wrist-To-Floor", Spoken("go", "wrist_to_floor")),
        ("go nowhere", Spoken("go", "nowhere")),
        ("handicap = 18", Spoken("answer", "handicap", "18")),
        ("Usual score: 95", Spoken("answer", "typical_score", "95")),
        ("lies = tee: 20, rough: 80", Spoken("answer", "lies", "tee: 20, rough: 80")),
        ("tee: 20", Spoken("answer", None, "tee: 20")),
        ("-3", Spoken("answer", None, "-3")),
        ("back of the heel", Spoken("answer", None, "back of the heel")),
        ("skip it please", Spoken("answer", None, "skip it please")),
        ("dk", Spoken("answer", None, "dk")),
        ("x" * 900, Spoken("answer", None, "x" * 399 + "…")),
    ],
)
def test_a_line_means_what_a_person_would_think(line: str, meant: Spoken, facts: Mapping[str, Fact]) -> None:
    assert spoken(line, question_names(facts)) == meant


def test_no_steering_word_is_also_a_choice(facts: Mapping[str, Fact]) -> None:
    names = question_names(facts)
    for fact in facts.values():
        for value in fact.values if fact.ask else ():
            assert spoken(value, names).word == "answer"
            assert spoken(value.replace("_", " "), names).word == "answer"


def test_two_questions_never_go_by_one_name(facts: Mapping[str, Fact]) -> None:
    asked = [id for id, fact in facts.items() if fact.ask is not None]
    names = question_names(facts)
    assert set(names.values()) == set(asked)
    assert all(names[id] == id for id in asked)


def test_lines_are_echoed_where_there_is_no_terminal() -> None:
    out = io.StringIO()
    lines = Lines(io.StringIO("18\r\n\x1b[2Jleft\nlast"), out)
    assert [lines.ask() for _ in range(4)] == ["18", "left", "last", None]
    assert out.getvalue() == "> 18\n> left\n> last\n> \n"


def test_a_line_of_any_length_is_one_answer() -> None:
    lines = Lines(io.StringIO("x" * 100_000 + "\nnext\n" + "y" * 4096 + "\n"), io.StringIO())
    assert len(lines.ask() or "") == 4096
    assert lines.ask() == "next"
    assert len(lines.ask() or "") == 4096
    assert lines.ask() is None


def test_what_is_printed_is_wrapped_and_harmless() -> None:
    out = io.StringIO()
    lines = Lines(io.StringIO(), out)
    lines.say("word " * 40 + "\x1b[31m", indent="  ")
    lines.say("two\n\nlines")
    printed = out.getvalue()
    assert max(map(len, printed.splitlines())) <= 78
    assert "\x1b" not in printed
    assert printed.endswith("two\n\nlines\n")


def test_without_an_input_there_is_no_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", None)
    assert Lines(None, io.StringIO()).ask() is None
