"""`turfpair sessions`: listed, found, forgotten and purged, with nothing printed that could do harm."""

from __future__ import annotations

import json
import os
import time
from argparse import ArgumentTypeError
from datetime import timedelta
from pathlib import Path

import pytest

from interview.commands.errors import BAD_INPUT, DONE
from interview.commands.main import main
from interview.commands.sessions import age
from interview.session import ticket_code

DAY = 86400


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TURFPAIR_SESSIONS", str(tmp_path))
    for days, (id, note) in enumerate(
        [("fresh", "slices it"), ("old", "his \\u001b[2J Ötzi wood"), ("ancient", "")], 1
    ):
        file = tmp_path / f"{id}.toml"
        file.write_text(
            f'schema = 1\nid = "{id}"\nnote = "{note}"\n[answers]\nhandicap = 1\n', encoding="utf-8"
        )
        stamp = time.time() - (days - 1) * 50 * DAY
        os.utime(file, (stamp, stamp))
    (tmp_path / "torn.toml").write_bytes(b"\xff\x00")
    return tmp_path


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, list[str]]:
    status = main(["sessions", *words])
    return status, capsys.readouterr().out.splitlines()


def test_the_list_is_newest_first_and_tells_damage(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, lines = printed(capsys, "list")
    assert status == 0
    assert [line.split()[0] for line in lines] == ["torn", "fresh", "old", "ancient"]
    assert "damaged: it cannot be read" in lines[0]
    assert ticket_code("fresh") in lines[1]
    assert lines[1].endswith("fitter, 1 answered  slices it")
    assert "\x1b" not in "".join(lines)


def test_an_empty_store_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    nowhere = tmp_path / "nowhere"
    assert printed(capsys, "list", "--sessions", str(nowhere))[1] == [f"No sessions are kept in {nowhere}."]
    assert not nowhere.exists()


def test_finding_takes_words_and_tickets_and_tells_when_there_is_nothing(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for text in (["ötzi", "HIS"], [ticket_code("old")], [ticket_code("old").lower().replace("-", " ")]):
        status, lines = printed(capsys, "find", *text)
        assert status == 0
        assert [line.split()[0] for line in lines] == ["old"]
    assert printed(capsys, "find", "nothing like it") == (1, ["No session holds that."])


def test_forgetting_goes_by_id_or_ticket_and_never_by_path(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert printed(capsys, "forget", "old") == (0, ["Session 'old' is forgotten."])
    assert printed(capsys, "forget", ticket_code("fresh").lower())[0] == 0
    assert main(["sessions", "forget", str(folder / "ancient.toml")]) == 2
    assert main(["sessions", "forget", "old"]) == 2
    assert "there is no session or ticket 'old'" in capsys.readouterr().err
    assert sorted(p.name for p in folder.glob("*.toml")) == ["ancient.toml", "torn.toml"]


def test_forgetting_says_that_written_sheets_go_too(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheets = folder.with_name("sheets")
    sheets.mkdir()
    for name in ("old-golfer.html", "old-workshop.html", "ancient-golfer.html"):
        (sheets / name).write_text("a page")
    assert printed(capsys, "forget", "old") == (
        0,
        ["Session 'old' is forgotten, with 2 written sheets."],
    )
    tried = printed(capsys, "purge", "--older-than", "90d", "--dry-run")[1][-1]
    assert tried == "1 session would be forgotten, with 1 written sheet."
    assert len(list(sheets.iterdir())) == 1
    done = printed(capsys, "purge", "--older-than", "90d")[1][-1]
    assert done == "1 session forgotten, with 1 written sheet."
    assert not list(sheets.iterdir())


def test_purging_can_be_tried_dry(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, lines = printed(capsys, "purge", "--older-than", "90d", "--dry-run")
    assert (status, lines[-1]) == (0, "1 session would be forgotten.")
    assert (folder / "ancient.toml").exists()
    assert printed(capsys, "purge", "--older-than", "2w")[1][-1] == "2 sessions forgotten."
    assert sorted(p.stem for p in folder.glob("*.toml")) == ["fresh", "torn"]


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("90d", timedelta(90)),
        ("12h", timedelta(hours=12)),
        (" 4 weeks ", timedelta(28)),
        ("0d", timedelta(0)),
    ],
)
def test_an_age_has_its_unit(text: str, span: timedelta) -> None:
    assert age(text) == span


@pytest.mark.parametrize("text", ["", "90", "d", "-1d", "1y", "9999999d", "nan d"])
def test_what_is_no_age_is_refused(text: str) -> None:
    with pytest.raises(ArgumentTypeError, match="such as 90d"):
        age(text)


SAID = (
    ('[overrides."longer.lenght"]', "'longer.lenght' names no decision; write one such as 'longer.length'"),
    ('[overrides."longer.ports"]', "is decided at the bench; put the pieces where you want them"),
    ("[overrides.pairing]", "no pair is called '42 lb'"),
    ('[overrides."shorter.length"]', "'42 lb' is a mass; a length is wanted"),
)
"""Overrides that no road can follow, and what is said of them."""
READERS = (["recommend"], ["explain"], ["whatif", "handicap=3"], ["sheet", "--for", "golfer"], ["ask"])


@pytest.mark.parametrize(("entry", "says"), SAID)
@pytest.mark.parametrize("command", READERS, ids=" ".join)
def test_an_override_that_cannot_be_followed_is_told_with_its_place(
    command: list[str], entry: str, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "one.toml"
    file.write_text(f'schema = 1\nid = "one"\n\n{entry}\nvalue = "42 lb"\n', encoding="utf-8")
    before = file.read_bytes()
    name, *rest = command
    assert main([name, str(file), *rest]) == BAD_INPUT
    told = capsys.readouterr().err
    assert f"{file} line 4, column 1: overrides." in told
    assert says in told
    assert file.read_bytes() == before


def test_a_session_named_twice_is_told_twice(capsys: pytest.CaptureFixture[str]) -> None:
    sample = str(Path(__file__).parents[2] / "sample_sessions" / "sweeper.toml")
    assert main(["recommend", sample, sample, "--json"]) == DONE
    one, other = json.loads(capsys.readouterr().out)
    assert one == other
