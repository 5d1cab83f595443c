"""`kiosk --web` when it cannot: one sentence that says what to do, and status 2."""

from __future__ import annotations

import socket
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from interview.commands.main import main
from interview.kiosk.pin import PinFile


@pytest.fixture
def refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Any:
    """Run the command with a PIN set, and return what it says; it has to refuse."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    PinFile(tmp_path / "turfpair" / "kiosk").set("918273")

    def run(*options: str) -> str:
        assert main(["kiosk", "--web", *options]) == 2
        said = capsys.readouterr()
        assert said.out == ""
        assert said.err.count("\n") == 1
        assert said.err.startswith("turfpair: kiosk: ")
        return said.err

    return run


def test_a_port_that_is_taken(refused: Any) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        said = refused("--port", str(port))
    assert f"another program already uses port {port}" in said
    assert "--port" in said


@pytest.mark.parametrize("port", ["-1", "65536", "http", "84 60", "８４６０", ""])
def test_a_port_that_is_none(refused: Any, port: str) -> None:
    assert "a port is a number from 1 to 65535" in refused(f"--port={port}")


def test_an_address_that_others_reach(refused: Any) -> None:
    assert "add --network if that is meant" in refused("--host", "192.0.2.7")


def test_an_address_that_this_machine_has_not(refused: Any) -> None:
    assert "this machine has no address 192.0.2.7" in refused(
        "--host", "192.0.2.7", "--network", "--port", "0"
    )


def test_every_address_at_once(refused: Any) -> None:
    assert "one address" in refused("--host", "0.0.0.0", "--network")


def test_without_the_extra(refused: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "websockets", None)
    said = refused("--port", "0")
    assert "the extra 'web' installs" in said
    assert "pip install" in said


def test_rules_that_cannot_be_read_are_told_to_the_staff_before_a_golfer_comes(
    refused: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["kiosk", "--web", "--port", "0", "--rules", str(tmp_path / "none")]) == 2
    said = capsys.readouterr()
    assert "none" in said.err
    assert said.out == ""


def test_without_a_pin_and_a_terminal_to_ask_for_it(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "interview.commands.main", "kiosk", "--web", "--port", "0"],
        env={"XDG_STATE_HOME": str(tmp_path), "PATH": "", "HOME": str(tmp_path)},
        stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60, cwd=tmp_path,
    )  # fmt: skip
    assert done.returncode == 2
    assert "no staff PIN is set; 'turfpair kiosk --set-pin'" in done.stderr
    assert done.stderr.count("\n") == 1
