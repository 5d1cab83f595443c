"""The installed command in terminals of every size and kind, resized in the middle of everything."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pexpect
import pytest

from interview.kiosk.pin import PinFile
from tests.journeys.real_terminal import TURFPAIR, Terminal, needs_tmux

CASE = str(Path(__file__).parents[2] / "sample_sessions" / "digger-scattered.toml")
TINY = ((1, 5), (3, 9), (4, 8), (8, 20), (10, 4), (40, 1))
"""Sizes in which there is hardly room for a word; nothing may break in them."""


def sized(one: Terminal, width: int, height: int) -> str:
    """Resize, wait until everything is drawn, and return the screen, which is never wider or higher."""
    one.resize(width, height)
    text = one.rest()
    assert all(len(line) <= width for line in text.split("\n"))
    assert len(text.rstrip("\n").split("\n")) <= height
    return text


@needs_tmux
def test_the_bay_goes_on_through_every_size(terminals: Callable[[int, int], Terminal]) -> None:
    one = terminals(200, 60)
    one.start("bay")
    one.wait("Hand?")
    one.type("right")
    one.press("Enter")
    one.wait(" 1 said")
    assert "FLIGHTS" in one.wait("SHORTER BALANCE"), "a large terminal shows all there is"
    one.resize(40, 12)
    one.wait(lambda text: "an answer, or any" in text and "F1 help" in text and "pain" in text)
    one.type("pain no")
    one.press("Enter")
    one.wait("andicap")
    one.press("F5")
    one.wait("STANDING")
    for width, height in TINY:
        sized(one, width, height)
    one.resize(40, 12)
    one.wait("STANDING")
    one.press("Escape")
    one.wait("an answer, or any")
    one.type("handicap 18")
    one.press("Enter")
    one.resize(80, 24)
    one.wait(" 3 said")
    one.resize(120, 40)
    text = one.wait("DISTANCES")
    assert "DECISIONS" in text
    one.press("C-q")
    one.wait("STATUS 0")


@needs_tmux
def test_the_trainer_goes_on_through_every_size(terminals: Callable[[int, int], Terminal]) -> None:
    one = terminals(40, 12)
    one.start("trainer", CASE)
    one.wait("Digger scattered")
    one.press("F7")
    one.wait("Quantities are shown")
    for width, height in TINY:
        sized(one, width, height)
    one.resize(40, 12)
    one.press("Enter")
    one.wait("predicted")
    one.press("Enter")
    one.wait("type to narrow")
    one.resize(200, 60)
    one.wait("3-wood")
    one.press("Escape", "Escape", "C-q")
    one.wait("STATUS 0")


@needs_tmux
def test_the_kiosk_goes_on_through_every_size(
    terminals: Callable[[int, int], Terminal], tmp_path: Path
) -> None:
    PinFile(tmp_path / "state" / "turfpair" / "kiosk").set("918273")
    one = terminals(40, 12)
    one.start("kiosk")
    text = one.wait("Start")
    assert "Nothing is kept unless" in " ".join(text.split()), "no word is cut by the scroll bar"
    assert re.search("║▸1 Start +║", text)
    one.press("1")
    one.wait("handed")
    for width, height in TINY:
        sized(one, width, height)
    one.resize(200, 60)
    one.wait("1 Right-handed")
    one.resize(40, 12)
    one.wait("2 Left-handed")
    one.press("2")
    one.wait("hurt")


KINDS = {
    "16 colours": {"TERM": "xterm-16color"}, "few letters": {"TERM": "vt100"}, "C": {"LANG": "C"},
}  # fmt: skip


@needs_tmux
@pytest.mark.parametrize("kind", KINDS)
def test_what_has_the_focus_shows_without_colour(
    kind: str, terminals: Callable[[int, int], Terminal], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A sign stands before the line and before the row that is chosen; the cursor is turned over (SGR 7)."""
    for name in ("COLORTERM", "LC_ALL", "LC_CTYPE", "LANG"):
        monkeypatch.delenv(name, raising=False)
    one = terminals(80, 24)
    one.start("bay", COLORTERM="", **KINDS[kind])
    one.wait("STANDING")
    plain = kind in ("few letters", "C")
    sign = ">" if plain else "▸"
    one.type("ri")
    one.wait(f"{sign} ri")
    assert one.screen().isascii() == plain
    painted = one.tmux("capture-pane", "-e", "-p", "-t", "bay")
    line = next(line for line in painted.split("\n") if re.search(r"ri\x1b\[[0-9;]*7m", line))
    assert "\x1b[38;2;" not in painted, "no colours that the terminal did not promise"
    assert line
    one.press("F5")
    one.wait(lambda text: bool(re.search(rf"{re.escape(sign)} .{{1,3}}w", text)))


@pytest.mark.parametrize("screen", ["bay", "kiosk", "trainer"])
def test_a_terminal_that_draws_nothing_is_told_what_to_do(screen: str, tmp_path: Path) -> None:
    environment = {**os.environ, "TERM": "dumb", "XDG_STATE_HOME": str(tmp_path)}
    child: Any = pexpect.spawn(str(TURFPAIR), [screen], env=environment, timeout=60)
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 2
    assert child.before.count(b"\n") == 1
    assert b"line by line" in child.before
    assert b"\x1b" not in child.before


def test_lines_fit_a_narrow_terminal(tmp_path: Path) -> None:
    environment = {**os.environ, "TERM": "dumb", "XDG_STATE_HOME": str(tmp_path), "LC_ALL": "C"}
    child: Any = pexpect.spawn(
        str(TURFPAIR), ["ask", "--voice", "customer"], env=environment, timeout=60, dimensions=(12, 40)
    )
    child.expect("> ")
    lines = child.before.decode("ascii").split("\r\n")
    assert max(map(len, lines)) < 40
    assert len(lines) > 5
    child.sendeof()
    child.expect(pexpect.EOF)
    child.close()
