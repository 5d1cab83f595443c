"""What is left beside the sessions: damaged files kept aside, and what killed writers left."""

from __future__ import annotations

import os
import time
from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from interview.session import begin, with_details
from interview.store import Store
from rules.engine.language import Fact
from rules.fitting import House

NOW = datetime(2026, 5, 4, tzinfo=UTC)


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "sessions")


@pytest.fixture
def facts(house: House) -> Mapping[str, Fact]:
    return house.base.facts


def test_damaged_files_are_kept_aside_each_under_a_number_of_its_own(store: Store) -> None:
    store.folder.mkdir(parents=True)
    for text in ("one [", "two [", "three ["):
        store.file("broken").write_text(text)
        assert "kept aside" in " ".join(store.begin(begin("broken")).notices)
        assert not store.file("broken").exists()
    aside = store.folder / "damaged"
    assert {file.name: file.read_text() for file in aside.iterdir()} == {
        "broken-1.toml": "one [", "broken-2.toml": "two [", "broken-3.toml": "three [",
    }  # fmt: skip


def test_purging_lets_go_of_what_was_kept_aside_as_long_ago_and_of_what_killed_writers_left(
    store: Store,
) -> None:
    store.folder.mkdir(parents=True)
    for id in ("old", "new"):
        store.file(id).write_text("[")
        store.begin(begin(id))
    long_ago = (NOW - timedelta(days=100)).timestamp()
    os.utime(store.folder / "damaged" / "old-1.toml", (long_ago, long_ago))
    left = store.folder / ".any.toml.abcdefgh.tmp"
    left.write_text("half")
    hours_ago = time.time() - 86_400
    os.utime(left, (hours_ago, hours_ago))
    assert store.purge(NOW - timedelta(days=90), date(2026, 5, 4)) == ()
    assert [file.name for file in (store.folder / "damaged").iterdir()] == ["new-1.toml"]
    assert not left.exists()


def test_a_session_of_a_newer_turfpair_is_neither_read_nor_called_damaged(store: Store) -> None:
    store.folder.mkdir(parents=True)
    store.file("newer").write_text('schema = 99\nid = "newer"\n')
    store.file("none").write_text('schema = "one"\nid = "none"\n')
    told = {entry.id: (entry.problem, entry.damaged) for entry in store.entries()}
    assert told == {
        "newer": ("written by a newer Turfpair", False), "none": ("it says no schema that is known", False),
    }  # fmt: skip


def test_a_third_version_beside_two_gets_a_number_of_its_own(
    store: Store, facts: Mapping[str, Fact], tmp_path: Path
) -> None:
    outside = tmp_path / "case.toml"
    outside.write_text('schema = 1\nid = "case"\nvoice = "fitter"\n')
    for note in ("one", "two", "three"):
        draft = store.open(str(outside), facts)
        draft.save(with_details(draft.session, note=note))
    assert store.ids() == ("case", "case-2", "case-3")
