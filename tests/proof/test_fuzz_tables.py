"""Tables of trial shots as no spreadsheet would write them, and what is written for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, reject
from hypothesis import strategies as st

from interview.session import begin, with_club, with_shots
from rules.evidence.table import read_shots, shots_table
from rules.evidence.table.columns import COLUMNS
from rules.fitting import House
from rules.problems import Problem
from tests.proof.fuzz_kit import NASTY, SAMPLES, clean_bytes, nasty_text, place_of_its_own, polite, ran, tries

SWEEPER = str(next(file for file in SAMPLES if file.stem == "sweeper"))
TABLES = [file.read_bytes() for file in sorted((SAMPLES[0].parent / "trials").glob("*.csv"))]
HEADINGS = [name for column in COLUMNS for name in column.names[:2]]
CELLS = st.one_of(
    st.sampled_from(["demo", "hybrid", "15", "6 R", "-4", "1,234", "171 yd", "up", "thin", "mat", "yes", ""]),
    nasty_text(8),
)  # fmt: skip
ENCODINGS = ("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-32", "cp1252", "latin-1", "utf-7", "cp037")
MORE = [[], ["--json"], ["--club", "his 3-wood"], ["--club", "\x1b[31m"], ["--against", "[/b]"]]
ACTS = ("=", "+", "-", "@", "\t", "\r", "\n")
"""How a cell begins that a spreadsheet acts on (OWASP, CSV Injection)."""


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    with place_of_its_own(tmp_path_factory.mktemp("tables")) as folder:
        yield folder


def taken_in(own: Path, raw: bytes, *more: str) -> None:
    """Let `trial` take a table in and write all balls again; nothing in either steers anything."""
    (own / "shots.csv").write_bytes(raw)
    polite(ran(["trial", SWEEPER, "--shots", "shots.csv", "--save", "all.csv", *more]))
    for written in own.glob("all.csv"):
        clean_bytes(written.read_bytes().replace(b"\r\n", b"\n"))
        harmless(written.read_text())
        written.unlink()
    for kept in own.rglob("*.toml"):
        clean_bytes(kept.read_bytes())
        kept.unlink()


def harmless(text: str) -> list[list[str]]:
    """Hold that no cell of a table is a formula; a negative number is a number."""
    rows = list(csv.reader(io.StringIO(text, newline="")))
    for cell in (cell for row in rows for cell in row):
        if cell.startswith(ACTS):
            float(cell)
    return rows


@given(
    rows=st.lists(st.lists(CELLS, max_size=6), max_size=6),
    heads=st.lists(st.sampled_from(HEADINGS) | nasty_text(8), min_size=1, max_size=6),
    encoding=st.sampled_from(ENCODINGS), mark=st.sampled_from(",;\t|"),
    ending=st.sampled_from(["\r\n", "\n", "\r"]), more=st.sampled_from(MORE),
)  # fmt: skip
@tries(60, 4000)
def test_a_table_of_any_cells(
    own: Path, rows: list[list[str]], heads: list[str], encoding: str, mark: str, ending: str, more: list[str]
) -> None:
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=mark, lineterminator=ending, escapechar="\\")
    writer.writerows([heads, *rows])
    taken_in(own, out.getvalue().encode(encoding, "replace"), *more)


@given(
    raw=st.sampled_from(TABLES), at=st.floats(0, 1), length=st.integers(0, 30),
    put=st.one_of(nasty_text(20).map(lambda text: text.encode("utf-8", "replace")), st.binary(max_size=20)),
)  # fmt: skip
@tries(60, 4000)
def test_a_table_with_anything_put_anywhere(
    own: Path, raw: bytes, at: float, length: int, put: bytes
) -> None:
    place = int(at * len(raw))
    taken_in(own, raw[:place] + put + raw[place + length :])


@given(raw=st.binary(max_size=300))
@tries(40, 3000)
def test_any_bytes_as_a_table(own: Path, raw: bytes) -> None:
    taken_in(own, raw, "--club", "his 3-wood")


@pytest.mark.parametrize("mark", [*",;\t|\n\r\"'=", "\0", "club,", "\r\n", "club\n,", '"",', "\x1b"])
def test_a_table_of_one_sign_without_end(own: Path, mark: str) -> None:
    taken_in(own, b"club,carry\n" + mark.encode() * (1_900_000 // len(mark)))
    taken_in(own, mark.encode() * (1_900_000 // len(mark)))


NAMES = st.one_of(st.sampled_from(NASTY), st.tuples(st.sampled_from(ACTS), nasty_text(8)).map("".join))


@given(name=NAMES)
@tries(60, 3000)
def test_a_club_of_any_name_is_written_harmless_and_read_back(house: House, name: str) -> None:
    facts = house.base.facts
    club: dict[str, Any] = {"name": name, "kind": "hybrid", "loft": "19 deg"}
    try:
        session = with_club(begin("one"), facts, "trial_clubs", club)
    except Problem:
        reject()
    kept = session.written["trial_clubs"][0]["name"]
    session = with_shots(session, facts, [{"club": kept, "toe_mm": -6.0, "side_yd": -8.0, "carry": "171 yd"}])
    text = shots_table(session.subject)
    harmless(text)
    again = read_shots(text, facts, {"trial_clubs": session.written["trial_clubs"]})
    assert [row["club"] for row in again.rows] == [kept]
    assert again.rows[0]["toe_mm"] == -6.0
