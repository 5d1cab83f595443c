"""`turfpair replay`: past cases under changed rules, one process or two, good sessions and bad."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import tomli_w

from interview.commands.main import main
from rules.inquiry.invented import invented

RULE = "five-wood-hit-well"
COUNT = 60


@pytest.fixture(scope="module")
def cases(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("cases")
    (folder / "more").mkdir()
    for number in range(COUNT):
        where = folder / "more" if number % 2 else folder
        (where / f"{number:03d}.toml").write_text(tomli_w.dumps(invented(number)), encoding="utf-8")
    (folder / "broken.toml").write_text(
        "schema = 1\nid = 'b'\n[answers]\nhandicap = 'lots'\n", encoding="utf-8"
    )
    (folder / "binary.toml").write_bytes(bytes(range(256)))
    return folder


@pytest.fixture(scope="module")
def changed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("rules")
    (folder / "base.toml").write_text(f'schema = 1\noff = ["{RULE}"]\n', encoding="utf-8")
    return folder


def test_changed_rules_are_blamed_and_bad_sessions_listed(
    cases: Path, changed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["replay", str(cases), "--rules", str(changed), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["sessions"] == COUNT + 2
    assert {one["session"] for one in found["unreadable"]} == {"broken", "binary"}
    assert all(one["why"] for one in found["unreadable"])
    assert found["changed"]
    assert found["rules"] == {RULE: len([one for one in found["changed"] if one["from"] != one["to"]])}
    assert found["rules_digest"]["before"] != found["rules_digest"]["after"]


def test_one_process_tells_what_two_do(
    cases: Path, changed: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told = []
    for cores in ("1", "2"):
        assert main(["replay", str(cases), "--rules", str(changed), "--cores", cores]) == 0
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]
    assert told[0].startswith("# Replay\n")
    assert f"| {RULE} |" in told[0]


def test_the_same_rules_change_nothing(cases: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["replay", str(cases), "--json"]) == 0
    captured = capsys.readouterr()
    found = json.loads(captured.out)
    assert found["changed"] == []
    assert captured.err == ""


@pytest.mark.parametrize("make", ["nothing", "a file", "an empty folder"])
def test_a_folder_without_sessions_is_one_sentence(
    make: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    where = tmp_path / "here"
    if make == "a file":
        where.write_text("x", encoding="utf-8")
    elif make == "an empty folder":
        where.mkdir()
    assert main(["replay", str(where)]) == 2
    assert len(capsys.readouterr().err.strip().splitlines()) == 1
