"""The store: found by path, id or ticket; copied before it is changed; never over somebody else's."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from interview.session import Session, SessionFaults, begin, load, ticket_code, with_answer, with_record
from interview.store import (
    AlreadyThere,
    CannotKeep,
    CannotLook,
    NoSuchSession,
    Store,
    sessions_folder,
    state_folder,
)
from rules.engine.document import FileProblem

if TYPE_CHECKING:
    from rules.engine.language import Fact

    Facts = Mapping[str, Fact]

NOW = datetime(2026, 5, 4, tzinfo=UTC)


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Store:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return Store(tmp_path / "sessions")


def keep(store: Store, facts: Facts, id: str, handicap: int = 18) -> Session:
    return store.begin(begin(id)).save(with_answer(begin(id), facts, "handicap", handicap))


def test_the_usual_folders_follow_the_platform(tmp_path: Path) -> None:
    # XDG Base Directory Specification 0.8: $XDG_STATE_HOME, default $HOME/.local/state; relative is ignored
    home = {"HOME": "/home/x"}
    assert state_folder({**home, "XDG_STATE_HOME": "/s"}) == Path("/s/turfpair")
    assert state_folder({**home, "XDG_STATE_HOME": "s"}, "linux") == Path("/home/x/.local/state/turfpair")
    assert state_folder(home, "darwin") == Path("/home/x/Library/Application Support/turfpair")
    assert state_folder({**home, "LOCALAPPDATA": "/l"}, "win32") == Path("/l/turfpair")
    assert sessions_folder(None, {"TURFPAIR_SESSIONS": "/t"}) == Path("/t")
    assert sessions_folder("/a", {"TURFPAIR_SESSIONS": "/t"}) == Path("/a")
    assert sessions_folder(None, home) == state_folder(home) / "sessions"


def test_nothing_is_written_until_something_is_said(store: Store, facts: Facts) -> None:
    draft = store.begin(begin("new"))
    assert draft.save(begin("new")) == begin("new")
    assert store.ids() == ()
    draft.save(with_answer(begin("new"), facts, "handicap", 5))
    assert store.ids() == ("new",)
    assert load(store.file("new"), facts).subject.answers["handicap"].value == 5


def test_a_session_is_found_by_path_id_and_ticket(store: Store, facts: Facts) -> None:
    keep(store, facts, "smith-autumn")
    file = store.file("smith-autumn")
    code = ticket_code("smith-autumn")
    for text in (str(file), "smith-autumn", code, code.lower().replace("-", "")):
        assert store.locate(text) == file
        assert store.open(text, facts).id == "smith-autumn"
    assert store.locate("./a") == Path("a")
    with pytest.raises(NoSuchSession, match="did you mean 'smith-autumn'"):
        store.locate("smith-autum")
    with pytest.raises(NoSuchSession, match="sessions list"):
        store.locate("\x1b[2J!!")
    with pytest.raises(FileProblem, match="no such file"):
        store.open("nowhere.toml", facts)


def test_a_file_outside_is_copied_at_its_first_change(store: Store, facts: Facts, tmp_path: Path) -> None:
    outside = tmp_path / "case.toml"
    outside.write_text('schema = 1\nid = "case"\n')
    draft = store.open(str(outside), facts)
    draft.save(draft.session)
    assert (draft.notices, store.ids()) == ([], ())
    kept = draft.save(with_answer(draft.session, facts, "handicap", 7))
    assert outside.read_text() == 'schema = 1\nid = "case"\n'
    assert store.ids() == ("case",)
    assert "left as it is" in draft.notices[0]
    draft.save(with_answer(kept, facts, "hand", "left"))
    assert len(draft.notices) == 1
    assert load(store.file("case"), facts).answered == ("handicap", "hand")


def test_a_copy_never_lands_on_a_session_of_the_same_id(store: Store, facts: Facts, tmp_path: Path) -> None:
    keep(store, facts, "case", 1)
    outside = tmp_path / "case.toml"
    outside.write_text('schema = 1\nid = "case"\n')
    draft = store.open(str(outside), facts)
    kept = draft.save(with_answer(draft.session, facts, "handicap", 7))
    assert kept.id == draft.id == "case-2"
    assert load(store.file("case"), facts).subject.answers["handicap"].value == 1


def test_in_place_writes_to_the_file_itself(store: Store, facts: Facts, tmp_path: Path) -> None:
    outside = tmp_path / "case.toml"
    outside.write_text('schema = 1\nid = "case"\n')
    draft = store.open(str(outside), facts, in_place=True)
    draft.save(with_answer(draft.session, facts, "handicap", 7))
    assert "handicap = 7" in outside.read_text()
    assert store.ids() == ()
    assert sorted(p.name for p in tmp_path.iterdir()) == ["case.toml", "state"]


def test_of_two_writers_both_versions_are_kept(store: Store, facts: Facts) -> None:
    keep(store, facts, "both")
    first, second = store.open("both", facts), store.open("both", facts)
    first.save(with_answer(first.session, facts, "handicap", 1))
    kept = second.save(with_answer(second.session, facts, "handicap", 2))
    assert kept.id == "both-2"
    assert "somebody else changed" in second.notices[0]
    first.save(with_answer(first.session, facts, "hand", "left"))
    second.save(with_answer(kept, facts, "hand", "right"))
    read = [load(store.file(id), facts).subject.answers for id in ("both", "both-2")]
    assert [(a["handicap"].value, a["hand"].value) for a in read] == [(1, "left"), (2, "right")]


def test_two_who_begin_under_one_id_both_keep_theirs(store: Store, facts: Facts) -> None:
    first, second = store.begin(begin("same")), store.begin(begin("same"))
    first.save(with_answer(begin("same"), facts, "handicap", 1))
    second.save(with_answer(begin("same"), facts, "handicap", 2))
    assert store.ids() == ("same", "same-2")
    with pytest.raises(AlreadyThere, match="choose another"):
        store.begin(begin("same"))


def test_a_session_forgotten_while_it_is_open_is_kept_again_and_said(store: Store, facts: Facts) -> None:
    keep(store, facts, "gone")
    draft = store.open("gone", facts)
    store.forget("gone")
    draft.save(with_answer(draft.session, facts, "hand", "left"))
    assert store.ids() == ("gone",)
    assert "had been forgotten" in draft.notices[0]


@pytest.mark.parametrize("cut", [0, 1, 10, 25, -3])
def test_a_damaged_file_is_reported_and_never_overwritten(cut: int, store: Store, facts: Facts) -> None:
    keep(store, facts, "torn")
    file = store.file("torn")
    raw = (file.read_bytes()[:cut] if cut >= 0 else b"") + b"\x00\xff"
    file.write_bytes(raw)
    with pytest.raises((FileProblem, SessionFaults), match=r"torn\.toml"):
        store.open("torn", facts)
    assert file.read_bytes() == raw
    (entry,) = store.entries()
    assert entry.problem is not None
    draft = store.begin(begin("torn"))
    assert "kept aside" in draft.notices[0]
    draft.save(with_answer(begin("torn"), facts, "handicap", 3))
    assert (store.folder / "damaged" / "torn-1.toml").read_bytes() == raw
    assert load(file, facts).subject.answers["handicap"].value == 3


def test_a_file_under_another_name_goes_by_its_name(store: Store, facts: Facts) -> None:
    keep(store, facts, "one")
    os.rename(store.file("one"), store.file("two"))
    draft = store.open("two", facts)
    assert draft.id == "two"
    draft.save(with_answer(draft.session, facts, "hand", "left"))
    assert store.ids() == ("two",)


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() == 0, reason="needs a folder that refuses")
def test_a_folder_that_refuses_is_one_sentence(tmp_path: Path, facts: Facts) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(CannotKeep, match="permission denied"):
        keep(Store(tmp_path / "sessions"), facts, "x")


def test_a_file_where_the_folder_should_be_is_one_sentence(tmp_path: Path, facts: Facts) -> None:
    (tmp_path / "sessions").write_text("no folder")
    with pytest.raises(CannotKeep, match="the session could not be kept in"):
        keep(Store(tmp_path / "sessions"), facts, "x")


def test_sessions_are_listed_by_change_and_found_by_words(store: Store, facts: Facts) -> None:
    for age, id in enumerate(("new", "older", "oldest")):
        keep(store, facts, id)
        stamp = (NOW - timedelta(days=age)).timestamp()
        os.utime(store.file(id), (stamp, stamp))
    assert [e.id for e in store.entries()] == ["new", "older", "oldest"]
    draft = store.open("older", facts)
    draft.save(replace(draft.session, note="Slices his Ötzi wood"))
    assert [e.id for e in store.find("ötzi SLICES")] == ["older"]
    assert [e.id for e in store.find(ticket_code("oldest"))] == ["oldest"]
    assert store.find("") == ()
    assert store.entries()[0].answers == 1


def test_forgetting_leaves_nothing_behind(store: Store, facts: Facts) -> None:
    keep(store, facts, "leave")
    keep(store, facts, "leave-2")
    store.file("leave").write_text("damaged [")
    store.begin(begin("leave"))
    (store.folder / ".leave.toml.abc.tmp").write_text("half")
    store.sheets.mkdir()
    for name in ("leave-golfer.html", "leave-workshop.html", "leave-2-golfer.html", "leave-notes.html"):
        (store.sheets / name).write_text("a page")
    assert [page.name for page in store.pages("leave")] == ["leave-golfer.html", "leave-workshop.html"]
    store.forget("leave")
    assert sorted(p.name for p in store.sheets.iterdir()) == ["leave-2-golfer.html", "leave-notes.html"]
    left = sorted(str(p.relative_to(store.folder)) for p in store.folder.rglob("*") if p.is_file())
    assert left == [".lock", "leave-2.toml"]
    with pytest.raises(NoSuchSession):
        store.forget("leave")


def test_purging_takes_the_old_and_the_lapsed_only(store: Store, facts: Facts) -> None:
    for id in ("fresh", "old", "lapsed"):
        keep(store, facts, id)
    stamp = (NOW - timedelta(days=100)).timestamp()
    os.utime(store.file("old"), (stamp, stamp))
    draft = store.open("lapsed", facts)
    draft.save(with_record(draft.session, consent=True, expires=date(2026, 5, 3)))
    before, today = NOW - timedelta(days=90), date(2026, 5, 4)
    assert {e.id for e in store.old(before, today)} == {"old", "lapsed"}
    assert store.ids() == ("fresh", "lapsed", "old")
    store.sheets.mkdir()
    for name in ("old-golfer.html", "lapsed-workshop.html", "fresh-golfer.html"):
        (store.sheets / name).write_text("a page")
    assert {e.id for e in store.purge(before, today)} == {"old", "lapsed"}
    assert [p.name for p in store.sheets.iterdir()] == ["fresh-golfer.html"]
    assert store.ids() == ("fresh",)


BUSY_WRITER = """
import subprocess
import sys
from pathlib import Path
from interview.session import with_answer
from interview.store import Store
from rules.house import load_house
facts = load_house().base.facts
store, hand = Store(Path(sys.argv[1])), sys.argv[2]
draft = store.open("busy", facts)
print("open", flush=True)
sys.stdin.readline()
session = with_answer(draft.session, facts, "hand", hand)
for handicap in range(15):
    session = draft.save(with_answer(session, facts, "handicap", handicap))
print(session.id)
"""


def test_two_processes_writing_at_once_lose_nothing(store: Store, facts: Facts) -> None:
    keep(store, facts, "busy")
    command = [sys.executable, "-c", BUSY_WRITER, str(store.folder)]
    writers = [
        subprocess.Popen([*command, hand], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        for hand in ("left", "right")
    ]
    for writer in writers:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "open\n"
    ids = [writer.communicate("go\n", timeout=60)[0].strip() for writer in writers]
    assert sorted(ids) == ["busy", "busy-2"]
    for id, hand in zip(ids, ("left", "right"), strict=True):
        kept = load(store.file(id), facts).written["answers"]
        assert kept == {"handicap": 14, "hand": hand}
    assert not list(store.folder.glob(".*.tmp"))


def test_a_folder_that_may_not_be_listed_is_not_taken_for_an_empty_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_: object) -> list[str]:
        raise PermissionError(13, "Permission denied")

    assert Store(tmp_path / "not-yet").ids() == ()
    monkeypatch.setattr(os, "listdir", refuse)
    with pytest.raises(CannotLook, match="cannot be listed: permission denied; allow reading there"):
        Store(tmp_path).entries()
