"""The class in its folder: kept whole, shared, never written over when damaged, nothing known but a name."""

from __future__ import annotations

import csv
import io
import os
import stat
import tomllib
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import settings as limits
from hypothesis import strategies as st

from interview.classroom import (
    Attempt,
    BadName,
    CannotKeepClass,
    ClassBook,
    ClassProblem,
    Nobody,
    Roll,
    Trainee,
    Unreadable,
    due,
    lessons_in,
    progress,
    summary_csv,
    summary_toml,
    write_summary,
)
from interview.classroom.file import read_roll, roll_text
from interview.classroom.progress import harmless
from interview.classroom.roll import LONGEST_NAME, MOST_ATTEMPTS
from rules.house import House

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
SAMPLES = Path(__file__).parents[2] / "sample_sessions"


def tried(who: str, score: float = 1.0, *, item: str = "myth:windy-links:1", days: int = 0) -> Attempt:
    return Attempt(who, NOW + timedelta(days=days), item, item.partition(":")[0], score, "right")


def test_a_class_is_kept_and_read_back(tmp_path: Path) -> None:
    book = ClassBook.open(tmp_path / "class")
    assert not (tmp_path / "class").exists(), "nothing is written before the first change"
    ann, bo = book.add("Ann"), book.add("  Bo\tbo ")
    book.record(tried(ann.id, 0.4))
    again = ClassBook.open(tmp_path / "class")
    assert again.roll == book.roll
    assert [one.name for one in again.trainees] == ["Ann", "Bo bo"]
    assert again.roll.named("ANN") == ann
    again.rename(bo.id, "Bert")
    again.remove(ann.id)
    assert ClassBook.open(tmp_path / "class").roll == Roll((Trainee(bo.id, "Bert"),))
    assert stat.S_IMODE(book.file.stat().st_mode) == 0o600
    assert sorted(path.name for path in (tmp_path / "class").iterdir() if path.suffix == ".toml") == [
        "class.toml"
    ]


def test_two_programs_lose_nothing_of_one_another(tmp_path: Path) -> None:
    one, other = ClassBook.open(tmp_path), ClassBook.open(tmp_path)
    ann = one.add("Ann")
    bo = other.add("Bo")
    one.record(tried(ann.id))
    other.record(tried(bo.id))
    assert len(ClassBook.open(tmp_path).attempts) == 2
    assert [person.name for person in ClassBook.open(tmp_path).trainees] == ["Ann", "Bo"]


@pytest.mark.parametrize(
    "text",
    [
        "schema = 2\n",
        "schema = 1\nteacher = 'x'\n",
        "schema = 1\ntrainee = 5\n",
        "schema = 1\n[[trainee]]\nid = 't1'\n",
        "schema = 1\n[[trainee]]\nid = 'x'\nname = 'A'\n",
        "schema = 1\n[[attempt]]\ntrainee = 't1'\nat = 2026-03-02T09:00:00Z\nitem = 'a'\nkind = 'b'\n"
        "score = 0.5\nverdict = ''\n",
        "schema = 1\n[[trainee]]\nid = 't1'\nname = 'A'\n[[attempt]]\ntrainee = 't1'\n"
        "at = 2026-03-02T09:00:00Z\nitem = 'a'\nkind = 'b'\nscore = 7.0\nverdict = ''\n",
        "schema = [\n",
        "",
    ],
)
def test_a_damaged_class_is_told_and_left_as_it_is(tmp_path: Path, text: str) -> None:
    file = tmp_path / "class.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable, match="left as it is"):
        ClassBook.open(tmp_path)
    assert file.read_text(encoding="utf-8") == text


def test_a_file_damaged_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    book = ClassBook.open(tmp_path)
    book.add("Ann")
    book.file.write_bytes(b"\xff\xfe rubbish")
    with pytest.raises(Unreadable):
        book.add("Bo")
    assert book.file.read_bytes() == b"\xff\xfe rubbish"


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(CannotKeepClass):
        ClassBook.open(tmp_path / "file")
    with pytest.raises(ClassProblem, match="name another folder"):
        ClassBook.open(tmp_path / "file" / "below").add("Ann")
    if os.geteuid():
        (tmp_path / "locked").mkdir(mode=0o500)
        with pytest.raises(CannotKeepClass, match="permission denied"):
            ClassBook.open(tmp_path / "locked").add("Ann")


def test_names_are_wanted_and_each_once() -> None:
    roll = Roll().with_trainee("Ann")
    for name in ("", " \t", "\x1b[31m", "ann"):
        with pytest.raises(BadName):
            roll.with_trainee(name)
    assert roll.with_trainee("x" * 500).trainees[-1].name == "x" * (LONGEST_NAME - 1) + "…"
    with pytest.raises(Nobody):
        roll.with_attempt(tried("t9"))


def test_of_very_many_attempts_the_oldest_go() -> None:
    full = Roll((Trainee("t1", "A"),), tuple(tried("t1", days=day) for day in range(MOST_ATTEMPTS)))
    assert len(full.with_attempt(tried("t1", 0.0)).attempts) == MOST_ATTEMPTS
    assert full.with_attempt(tried("t1", 0.0)).attempts[-1].score == 0


names = st.text(min_size=1, max_size=30).filter(
    lambda text: bool(Roll()) and text.isprintable() and text.strip()
)


@limits(max_examples=50)
@given(st.lists(names, max_size=4), st.lists(st.floats(0, 1), max_size=5))
def test_the_file_reads_back_equal(people: list[str], marks: list[float]) -> None:
    roll = Roll()
    for name in people:
        try:
            roll = roll.with_trainee(name)
        except BadName:
            continue
    for day, score in enumerate(marks if roll.trainees else ()):
        roll = roll.with_attempt(tried(roll.trainees[0].id, score, days=day))
    assert read_roll(Path("class.toml"), tomllib.loads(roll_text(roll))) == roll


def test_the_summary_is_the_trainers_and_no_cell_is_a_formula(tmp_path: Path) -> None:
    """What a spreadsheet acts on: OWASP, CSV Injection."""
    book = ClassBook.open(tmp_path)
    for name in ('=HYPERLINK("http://x")', "+1", "-1", "@sum", "' =1", 'Ann, "B"'):
        book.add(name)
    book.record(tried("t1", 0.4))
    book.record(tried("t1", 0.8, item="claim:windy-links:3", days=1))
    toml, table = write_summary(book, NOW + timedelta(days=1))
    rows = list(csv.reader(io.StringIO(table.read_bytes().decode(), newline="")))
    assert len({len(row) for row in rows}) == 1
    assert not any(cell.lstrip().startswith(("=", "+", "-", "@")) for row in rows for cell in row)
    assert ['\'=HYPERLINK("http://x")', "all", "2", "60", "80", "60", "1", "1"] in rows
    said = tomllib.loads(toml.read_text(encoding="utf-8"))["trainee"][0]
    assert said["progress"][0] == {
        "kind": "all", "attempts": 2, "average_percent": 60, "best_percent": 80, "latest_percent": 60,
        "due": 1, "coming_back": 1,
    }  # fmt: skip
    assert said["coming_back"][0]["item"] == "myth:windy-links:1"
    assert summary_csv(book.roll, NOW) != ""
    assert summary_toml(Roll(), NOW).startswith("schema = 1")
    assert harmless("safe") == "safe"


def test_progress_is_kind_by_kind() -> None:
    made = [
        tried("t1", share, item=item)
        for share, item in ((0.0, "myth:a:1"), (1.0, "claim:a:1"), (0.5, "myth:a:2"))
    ]
    whole, myths, claims = progress(made, NOW)
    assert (whole.kind, whole.attempts, whole.average, whole.best) == ("all", 3, 0.5, 1.0)
    assert (myths.kind, myths.average, myths.coming_back) == ("myth", 0.25, 2)
    assert (claims.kind, claims.due) == ("claim", 0)
    assert progress((), NOW) == ()
    assert [one.item for one in due(made, NOW + timedelta(days=2))] == ["myth:a:1", "myth:a:2"]


def test_cases_come_from_a_file_a_folder_or_are_invented(house: House, tmp_path: Path) -> None:
    one = lessons_in(SAMPLES / "windy-links.toml", house)
    assert [case.id for case in one.cases] == ["windy-links"]
    assert one.cases[0].note
    invented = lessons_in(None, house)
    assert len(invented.cases) == len({case.id for case in invented.cases}) == 16
    text = (SAMPLES / "windy-links.toml").read_text(encoding="utf-8")
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    (tmp_path / "b.toml").write_text(text, encoding="utf-8")
    (tmp_path / "c.toml").write_text("rubbish", encoding="utf-8")
    some = lessons_in(tmp_path, house)
    assert len(some.cases) == 1
    assert [problem for problem in some.problems if "called 'windy-links' too" in problem]
    assert [problem for problem in some.problems if "c.toml" in problem]
    assert len(some.problems) == 2
