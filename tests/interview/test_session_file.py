"""The session file: strict, each fault with its place, and read back the same."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.session import Record, Session, SessionFaults, load, session_of, session_text
from interview.session.writing import _value
from rules.engine.document import FileProblem
from rules.facts.answers import Answer
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine.language import Fact

    Facts = Mapping[str, Fact]

SAMPLES = Path(__file__).parents[2] / "sample_sessions"

WHOLE = """schema = 1
id = "whole"
voice = "customer"
units = "metric"
created = 2026-05-04T09:30:00Z
note = "two\\nlines"

[answers]
hand = "left"
handicap = "+2"
driver_speed = { value = "85 mph", how = "measured" }
temperature = { unknown = true }
lies = { tight_fairway = 50, tee = 50 }
contact = ["thin", "heel"]
height = "5'11\\""

[[owned]]
name = "his 3-wood"
kind = "fairway"
loft = { value = "15 deg", how = "stamped" }
length = "43 1/4 in"
swing_weight = "D2"
liked = "no"

[[trial_clubs]]
name = "demo"
kind = "fairway"
loft = "18 deg"

[[shots]]
club = "demo"
toe_mm = -6.0
outcome = "up"

[readings."longer"]
total = "331 g"
face = "0.5 deg closed"

[record]
rules_digest = "abc"
consent = true
expires = 2026-06-03
skipped = ["wrist_to_floor"]

[overrides."longer.length"]
value = "42.25 in"
reason = "matches the demo he liked"
"""


def written(tmp_path: Path, text: str, name: str = "case.toml") -> Path:
    file = tmp_path / name
    file.write_text(text, encoding="utf-8")
    return file


def case(tmp_path: Path, body: str, facts: Facts) -> Session:
    return load(written(tmp_path, f'schema = 1\nid = "case"\n{body}\n'), facts)


def test_every_part_is_read_in_si(tmp_path: Path, facts: Facts) -> None:
    session = load(written(tmp_path, WHOLE), facts)
    assert (session.id, session.voice, session.units) == ("whole", "customer", "metric")
    assert session.created == datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
    answers = session.subject.answers
    assert answers["handicap"] == Answer(-2.0)
    assert answers["driver_speed"] == Answer(parse("85 mph", "mph"), "measured")
    assert answers["temperature"].unknown
    assert answers["height"].value == pytest.approx(71 * 0.0254)
    assert session.subject.owned[0].length == pytest.approx(43.25 * 0.0254)
    assert session.subject.shots[0].toe == pytest.approx(-0.006)
    assert session.subject.overrides["longer.length"].reason == "matches the demo he liked"
    assert session.record == Record(
        "abc", consent=True, expires=date(2026, 6, 3), skipped=("wrist_to_floor",)
    )


def test_a_file_saved_again_holds_the_same_words(tmp_path: Path, facts: Facts) -> None:
    session = load(written(tmp_path, WHOLE), facts)
    again = session_text(session)
    assert load(written(tmp_path, again, "again.toml"), facts) == session
    assert session_text(load(written(tmp_path, again), facts)) == again
    for said in ("43 1/4 in", "5'11\\\"", '"+2"', '{ value = "85 mph", how = "measured" }'):
        assert said in again


@pytest.mark.parametrize("file", sorted(SAMPLES.glob("*.toml")), ids=lambda f: f.stem)
def test_every_sample_session_reads_and_comes_back(file: Path, tmp_path: Path, facts: Facts) -> None:
    session = load(file, facts)
    assert session.id == file.stem
    assert session.note
    assert load(written(tmp_path, session_text(session)), facts) == session


@pytest.mark.parametrize(
    ("body", "place", "wanted"),
    [
        ("voise = 'fitter'", "line 3, column 1: voise", "did you mean 'voice'?"),
        ("voice = 'robot'", "line 3, column 9: voice", "one of fitter, customer, trainer"),
        ("units = 'cubits'", "line 3", "one of imperial, metric"),
        ("created = 2026-05-04", "line 3", "a date and time is wanted"),
        ("note = 5", "line 3", "a note is a text"),
        ("[answers]\nhandicup = 3", "line 4, column 1: answers.handicup", "did you mean 'handicap'?"),
        ("[answers]\nhandicap = 99", "line 4, column 12: answers.handicap", "outside what is possible"),
        ("[answers]\nhandicap = true", "line 4", "a number is wanted"),
        ("[answers]\nhandicap = nan", "line 4", "not a finite number"),
        ("[answers]\nhandicap = 99999999999999999999999", "line 4", "far too large"),
        ("[answers]\ndriver_speed = '85 yd'", "line 4", "a speed is wanted"),
        ("[answers]\nhand = 'rihgt'", "line 4", "did you mean 'right'?"),
        ("[answers]\nhand = { value = 'left', how = 'shouted' }", "line 4", "'how' is one of"),
        ("[answers]\npain = { unknown = 1 }", "line 4", "{ unknown = true }"),
        ("[answers]\nlies = { moon = 1 }", "line 4", "not one of tight fairway"),
        ("[answers]\nlies = { tee = -1 }", "line 4", "a number from 0 up"),
        ("answers = 3", "line 3", "'answers' is a table"),
        ("owned = 3", "line 3", "a list of tables"),
        ("[[owned]]\nname = 'x'", "line 3", "lacks its 'kind'"),
        (
            "[[owned]]\nname = 'x'\nkind = 'wedge'",
            "line 5, column 8: owned[1].kind",
            "one of fairway, hybrid",
        ),
        ("[[owned]]\nname = 'x'\nkind = 'hybrid'\nlenght = '40 in'", "line 6", "did you mean 'length'?"),
        ("[[shots]]\nclub = 'ghost'", "line 4", "no owned or trial club is called 'ghost'"),
        ("[readings.middle]\ntotal = '331 g'", "line 3", "the longer or the shorter club"),
        ("[overrides.pairing]\nreason = 'x'", "line 3", "lacks its 'value'"),
        ("[record]\nconsent = 'yes'", "line 4", "true or false is wanted"),
        ("[record]\nexpires = 2026-05-04T10:00:00", "line 4", "a date is wanted"),
        ("[record]\nskipped = ['wrist_to_flor']", "line 4, column 12", "did you mean 'wrist_to_floor'?"),
        ("[record]\nrule_digest = ''", "line 4", "did you mean 'rules_digest'?"),
    ],
)
def test_each_fault_has_its_place_and_says_what_is_wanted(
    body: str, place: str, wanted: str, tmp_path: Path, facts: Facts
) -> None:
    with pytest.raises(SessionFaults) as caught:
        case(tmp_path, body, facts)
    sentence = str(caught.value)
    assert place in sentence
    assert wanted in sentence
    assert "case.toml" in sentence
    assert "\n" not in sentence


def test_every_fault_is_found_in_file_order(tmp_path: Path, facts: Facts) -> None:
    body = "[answers]\nhandicap = 99\nhand = 'up'\nage_bnd = 'adult'\n"
    body += "[[owned]]\nname = ''\n[record]\nconsent = 1"
    with pytest.raises(SessionFaults) as caught:
        case(tmp_path, body, facts)
    assert [fault.line for fault in caught.value.faults] == [4, 5, 6, 8, 10]
    assert str(caught.value).endswith("(4 more faults, at line 5, 6, 8, 10)")


@pytest.mark.parametrize(
    ("head", "wanted"),
    [
        ('schema = 2\nid = "x"\nnonsense = 1', "written by a newer Turfpair"),
        ('schema = "1"\nid = "x"', "a session begins with 'schema = 1'"),
        ('schema = true\nid = "x"', "a session begins with 'schema = 1'"),
        ('id = "x"', "a session begins with 'schema = 1'"),
        ("schema = 1", "an id is wanted"),
        ('schema = 1\nid = "../../x"', "small letters, digits"),
    ],
)
def test_the_head_is_refused_with_one_fault(head: str, wanted: str, tmp_path: Path, facts: Facts) -> None:
    with pytest.raises(SessionFaults, match=wanted) as caught:
        load(written(tmp_path, head + "\n"), facts)
    assert len(caught.value.faults) == 1


def test_a_byte_order_mark_is_no_obstacle(tmp_path: Path, facts: Facts) -> None:
    file = tmp_path / "bom.toml"
    file.write_bytes(b"\xef\xbb\xbf" + WHOLE.replace("\n", "\r\n").encode())
    assert load(file, facts).id == "whole"


@pytest.mark.parametrize("raw", [b"", b"\xff\xfe\x00", b"\x00\x01", b"schema = 1\nid = \xe9\n", b"[[[["])
def test_a_file_that_is_no_session_is_one_sentence(raw: bytes, tmp_path: Path, facts: Facts) -> None:
    file = tmp_path / "raw.toml"
    file.write_bytes(raw)
    with pytest.raises(FileProblem) as caught:
        load(file, facts)
    assert "raw.toml" in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_file_cut_at_any_point_is_read_or_refused_in_one_sentence(tmp_path: Path, facts: Facts) -> None:
    raw = WHOLE.encode()
    file = tmp_path / "cut.toml"
    refused = 0
    for cut in range(0, len(raw), 7):
        file.write_bytes(raw[:cut])
        sentence = problem_of(file, facts)
        refused += bool(sentence)
        assert "\n" not in sentence
        assert not sentence or "cut.toml" in sentence
    assert refused > 40


def problem_of(file: Path, facts: Facts) -> str:
    """Return the sentence with which a file is refused, or nothing when it is read."""
    try:
        load(file, facts)
    except (FileProblem, SessionFaults) as problem:
        return str(problem)
    return ""


def test_what_steers_a_terminal_is_taken_out_as_it_enters(tmp_path: Path, facts: Facts) -> None:
    body = 'note = "a\\u001b[2Jb\\u202ec"\n[[owned]]\nname = "x\\u001b]0;t\\u0007y"\nkind = "fairway"'
    session = case(tmp_path, body, facts)
    assert session.note == "abc"
    assert session.subject.owned[0].name == "xy"
    assert "\\u00" not in session_text(session)


def test_an_answer_without_a_time_zone_is_universal_time(tmp_path: Path, facts: Facts) -> None:
    assert case(tmp_path, "created = 2026-05-04T09:30:00", facts).created == datetime(
        2026, 5, 4, 9, 30, tzinfo=UTC
    )


def test_plain_data_is_read_without_a_file(facts: Facts) -> None:
    data = tomllib.loads(WHOLE)
    assert session_of(data, facts).id == "whole"
    with pytest.raises(Exception, match="did you mean 'handicap'"):
        session_of({**data, "answers": {"handicup": 1}}, facts)


VALUES = st.recursive(
    st.one_of(
        st.text(st.characters(exclude_categories=["Cs"]), max_size=12),
        st.booleans(),
        st.integers(-(10**9), 10**9),
        st.floats(-1e6, 1e6),
        st.dates(date(1, 1, 1)),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(st.text(st.characters(exclude_categories=["Cs"]), max_size=6), inner, max_size=3),
    ),
    max_leaves=8,
)


@settings(max_examples=150)
@given(VALUES)
def test_any_value_is_written_as_toml_that_reads_back(value: Any) -> None:
    assert tomllib.loads(f"x = {_value(value)}") == {"x": value}


@settings(max_examples=60)
@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=80))
def test_any_note_reads_back(note: str) -> None:
    session = replace(Session("x"), note=note)
    assert tomllib.loads(session_text(session)).get("note", "") == note
