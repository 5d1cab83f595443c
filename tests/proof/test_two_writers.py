"""Two who write one session at once: nothing is written over in silence, and both versions are kept."""

from __future__ import annotations

import sys
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path

import pexpect
import pytest

from tests.journeys.real_terminal import Terminal, needs_tmux

TURFPAIR = Path(sys.executable).with_name("turfpair")
PROMPT = r"\r\n> "
BEFORE = 'schema = 1\nid = "both"\n\n[answers]\nhandicap = 18\n'

Open = Callable[[], "pexpect.spawn[str]"]


@pytest.fixture
def open_both(environment: dict[str, str], sessions: Path) -> Iterator[Open]:
    """Return a function that opens the session 'both' in a terminal of its own."""
    sessions.mkdir()
    (sessions / "both.toml").write_text(BEFORE)
    running: list[pexpect.spawn[str]] = []

    def open() -> pexpect.spawn[str]:
        child = pexpect.spawn(
            str(TURFPAIR), ["ask", "both"], env={**environment, "TERM": "dumb"}, encoding="utf-8", timeout=30
        )
        running.append(child)
        child.expect(PROMPT)
        return child

    yield open
    for child in running:
        child.close(force=True)


def say(child: pexpect.spawn[str], line: str) -> str:
    child.sendline(line)
    child.expect(PROMPT)
    return " ".join(str(child.before).split())


def answers(file: Path) -> dict[str, object]:
    found = tomllib.loads(file.read_text())["answers"]
    assert isinstance(found, dict)
    return found


def test_two_lines_of_talk_on_one_session(open_both: Open, sessions: Path) -> None:
    first, second = open_both(), open_both()
    assert "meanwhile" not in say(first, "hand = left")
    told = say(second, "hand = right")
    assert "somebody else changed both.toml meanwhile; theirs stands and yours is kept as 'both-2'" in told
    say(first, "pain = no")
    assert "meanwhile" not in say(second, "miss = right"), "said once"
    assert answers(sessions / "both.toml") == {"handicap": 18, "hand": "left", "pain": "no"}
    assert answers(sessions / "both-2.toml") == {"handicap": 18, "hand": "right", "miss": "right"}


def test_an_editor_and_a_talk_on_one_session(open_both: Open, sessions: Path) -> None:
    """Whatever an editor left there, whole or not, stands as it is."""
    child = open_both()
    (sessions / "both.toml").write_text("half a [line")
    assert "yours is kept as 'both-2'" in say(child, "hand = left")
    assert (sessions / "both.toml").read_text() == "half a [line"
    assert answers(sessions / "both-2.toml") == {"handicap": 18, "hand": "left"}
    (sessions / "both-2.toml").unlink()
    assert "had been forgotten meanwhile and is kept again" in say(child, "pain = no")
    assert answers(sessions / "both-2.toml") == {"handicap": 18, "hand": "left", "pain": "no"}


@needs_tmux
def test_the_bay_and_a_talk_on_one_session(open_both: Open, sessions: Path, tmp_path: Path) -> None:
    one = Terminal(tmp_path, 80, 24)
    try:
        one.start("bay", "both")
        one.wait("1 said")
        say(open_both(), "hand = left")
        one.type("pain no")
        one.press("Enter")
        one.wait(lambda text: "Somebody else changed both.toml" in " ".join(text.split()))
        one.wait("both-2")
        one.wait(lambda text: text.splitlines()[0].rstrip().endswith("kept"))
    finally:
        one.end()
    assert answers(sessions / "both.toml") == {"handicap": 18, "hand": "left"}
    assert answers(sessions / "both-2.toml") == {"handicap": 18, "pain": "no"}
