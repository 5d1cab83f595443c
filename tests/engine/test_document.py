"""One TOML file: what cannot be read is told in one sentence, and every path is found again."""

from __future__ import annotations

import os
import time
import tomllib
from pathlib import Path
from random import Random
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.engine.document import MOST_BYTES, FileProblem, parse_toml, read_toml


def refused(file: Path) -> FileProblem:
    with pytest.raises(FileProblem) as caught:
        read_toml(file)
    assert "\n" not in str(caught.value)
    assert str(file) in str(caught.value)
    return caught.value


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (b"", "empty"),
        (b" \n\t\n", "empty"),
        (b"\xff\xfea\0=\x001\0", "utf16"),
        (b"a = 'caf\xe9'", "not-text"),
        (b"a = 1\0", "not-text"),
        (b"\x89PNG\r\n\x1a\n\0\0", "not-text"),
        (b"a = ", "not-toml"),
        (b"a = 1\na = 2", "not-toml"),
        (b"x" * (MOST_BYTES + 1), "too-big"),
        (b"a = " + b"[" * 20_000, "too-deep"),
        (b"a = " + b"9" * 5_000, "not-toml"),
        (b".".join([b"a"] * 400_000) + b" = 1", "too-deep"),
        (b".".join([b'"a"'] * 200_000) + b" = 1", "too-deep"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_cannot_be_read_is_told_at_once(tmp_path: Path, raw: bytes, code: str) -> None:
    file = tmp_path / "file.toml"
    file.write_bytes(raw)
    began = time.perf_counter()
    assert refused(file).code == code
    assert time.perf_counter() - began < 5  # a hang, not a budget


def test_a_fault_of_toml_has_its_place(tmp_path: Path) -> None:
    file = tmp_path / "file.toml"
    file.write_text("a = 1\nb = = 2\n")
    problem = refused(file)
    assert str(problem) == f"{file} line 2, column 5: this is not valid TOML: invalid value"
    file.write_text(" ")
    assert str(refused(file)) == f"{file}: this file is empty"
    file.write_text('a = 1\nb = "open')
    assert refused(file).line == 2


@pytest.mark.parametrize(
    ("text", "code", "place"),
    [
        ("a = 1\n" + ".".join("a" * 70) + " = 1\n", "too-deep", (2, 1)),
        ("b" * 20 + " = 1\n" + ".".join("a" * 62) + " = 1\n", "too-deep", (2, 1)),
        (f"a = [1,\n  {10**100}]\n", "too-large", (2, 3)),
        (f"[t]\nb = {{ c = -{10**100} }}\n", "too-large", (2, 11)),
        ("a = 1\n\nb = [", "not-toml", (3, 1)),
    ],
)
def test_what_goes_too_far_has_its_place(
    tmp_path: Path, text: str, code: str, place: tuple[int, int]
) -> None:
    file = tmp_path / "file.toml"
    file.write_text(text)
    problem = refused(file)
    assert (problem.code, problem.line, problem.column) == (code, *place)
    assert f"line {place[0]}, column {place[1]}: " in str(problem)


def test_whole_numbers_and_dots_up_to_the_limit_are_read(tmp_path: Path) -> None:
    deepest = ".".join("a" * 61)
    assert parse_toml(tmp_path, f"{deepest} = {10**100 - 1}\nb = {-(10**100) + 1}\n").data["b"] == 1 - 10**100


def test_a_problem_of_a_whole_file_names_no_line() -> None:
    assert str(FileProblem(Path("a.toml"), "it is torn")) == "a.toml: it is torn"
    assert str(FileProblem(Path("a.toml"), "it is torn", 3, 7)) == "a.toml line 3, column 7: it is torn"


def test_what_is_no_file_is_told(tmp_path: Path) -> None:
    assert refused(tmp_path / "absent.toml").code == "absent"
    assert refused(tmp_path).code == "folder"
    os.mkfifo(tmp_path / "pipe")
    assert refused(tmp_path / "pipe").code == "special"
    too_long = refused(tmp_path / ("x" * 400))
    assert too_long.code == "unreadable"
    assert str(too_long).endswith("x: this file cannot be read: File name too long")
    assert refused(Path("a\0b")).code == "unreadable"


def test_a_file_that_may_not_be_read_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "file.toml"
    file.write_text("a = 1")

    def forbidden(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", forbidden)
    assert refused(file).code == "forbidden"


def test_a_byte_order_mark_and_other_line_ends_are_read(tmp_path: Path) -> None:
    file = tmp_path / "file.toml"
    file.write_bytes(b"\xef\xbb\xbfa = 1\r\n[b]\r\nc = 2\r\n")
    document = read_toml(file)
    assert document.data == {"a": 1, "b": {"c": 2}}
    assert document.position(("b", "c")) == (3, 5)


def test_a_sentence_with_many_dots_is_no_deep_key(tmp_path: Path) -> None:
    text = f'a = "{"." * 300}"\nb = [{", ".join(["1.5"] * 200)}]\n'
    assert len(parse_toml(tmp_path, text).data["b"]) == 200


TRICKY = (Path(__file__).parent / "tricky.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("path", "begins"),
    [
        (("a", "b", "c d"), "1 # a"),
        (("e]", 0), '"]"'),
        (("e]", 1, 1), "2 ]"),
        (("e]", 2, "y", "z", 0), "3,]"),
        (('f"',), '"""many'),
        (("t", "u", 0, "k"), "'''x"),
        (("t", "u", 1, "k"), "1979"),
        (("t", "u", 1, "v", "w"), "{ }"),
        (("t", "u", 1, "r", 0, "s"), "+1_000"),
        (("t", "q", "z"), "[ ]"),
        (("t", "q", "nowhere", 3), '[ t . "q" ]'),
        (("t", "u", 0), "[[t.u]]"),
        (("t", "u"), "[[t.u]]"),
        (("t", "u", 0, "u"), "[[t.u]]"),
        (("a", "b", "nowhere"), "b."),
    ],
)
def test_paths_are_found_in_tricky_text(tmp_path: Path, path: tuple[str | int, ...], begins: str) -> None:
    document = parse_toml(tmp_path, TRICKY)
    line, column = document.position(path)
    assert document.text.split("\n")[line - 1][column - 1 :].startswith(begins.split("\n")[0])


def test_places_are_found_where_nothing_is_spaced_out(tmp_path: Path) -> None:
    document = parse_toml(tmp_path, "a={b=1,c=[2,3],d={e=4}}\nf=5\n")
    found = {path: document.position(path) for path in (("a", "c"), ("a", "c", 1), ("a", "d", "e"), ("f",))}
    assert found == {("a", "c"): (1, 10), ("a", "c", 1): (1, 13), ("a", "d", "e"): (1, 21), ("f",): (2, 3)}


def test_the_key_itself_can_be_asked_for(tmp_path: Path) -> None:
    document = parse_toml(tmp_path, "a = 1\n  bcd = 2\n")
    assert document.position(("bcd",)) == (2, 9)
    assert document.position(("bcd",), key=True) == (2, 3)
    assert document.position(("nothing",)) == (1, 1)


def random_data(rng: Random, depth: int = 0) -> dict[str, Any]:
    """Random tables, arrays and texts full of what TOML itself uses."""
    letters = "ab]['\"#=.{},\\ é\n\t"

    def some(depth: int) -> Any:
        part = rng.random()
        if depth < 4 and part < 0.3:
            return random_data(rng, depth + 1)
        if depth < 4 and part < 0.5:
            return [some(depth + 1) for _ in range(rng.randint(0, 4))]
        if part < 0.6:
            return rng.choice((True, 1.5, -7, float("inf")))
        return "".join(rng.choice(letters) for _ in range(rng.randint(0, 9)))

    keys = {"".join(rng.choice("ab c.'\"]#") for _ in range(rng.randint(1, 4))) for _ in range(4)}
    return {key: some(depth) for key in sorted(keys)}


def leaves(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[tuple[str | int, ...], Any]]:
    if isinstance(value, dict):
        return [leaf for key, inner in value.items() for leaf in leaves(inner, (*path, key))]
    if isinstance(value, list):
        return [leaf for i, inner in enumerate(value) for leaf in leaves(inner, (*path, i))]
    return [(path, value)]


@given(st.randoms(use_true_random=True), st.booleans())
@settings(max_examples=80, deadline=None)
def test_random_paths_are_found(rng: Random, multiline: bool) -> None:
    data = random_data(rng)
    text = tomli_w.dumps(data, multiline_strings=multiline)
    document = parse_toml(Path("random.toml"), text)
    assert document.data == tomllib.loads(text)
    for path, value in leaves(document.data):
        line, column = document.position(path)
        rest = "\n".join([document.text.split("\n")[line - 1][column - 1 :], *text.split("\n")[line:]])
        assert reads_as(rest, value), (path, rest[:40])


def reads_as(rest: str, value: Any) -> bool:
    """Whether a text begins with a TOML value: some beginning of it must read as that value."""
    for end in range(1, len(rest) + 1):
        if rest[end : end + 1] in (",", "\n", "]", "}", " ", ""):
            try:
                if tomllib.loads(f"x = {rest[:end]}")["x"] == value:
                    return True
            except tomllib.TOMLDecodeError:
                continue
    return False
