"""The kiosk in a headless Chromium: by touch on a telephone and a tablet, by mouse and keys on a desk."""

from __future__ import annotations

import importlib.util
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from interview.kiosk.pin import PinFile

pytest.importorskip("websockets", reason="the extra 'web' is not installed")
_spec = importlib.util.spec_from_file_location("chromium", Path(__file__).with_name("chromium.py"))
assert _spec is not None
assert _spec.loader is not None
chromium = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(chromium)
until = chromium.until

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(chromium.found() is None, reason="no Chromium is installed"),
]
PIN = "918273"
PHONE, TABLET, DESK = (390, 844), (820, 1180), (1280, 800)
FINGER = 44
"""Pixels that a finger wants (WCAG 2.2, success criterion 2.5.5, target size, enhanced)."""
CHORDS = (
    ("p", 2), ("s", 2), ("r", 2), ("f", 2), ("u", 2), ("ArrowLeft", 1), ("F5", 0), ("F1", 0), ("F7", 0),
    ("F12", 0), ("q", 2), ("c", 2), ("Escape", 0), ("i", 10), ("+", 2), ("-", 2), ("/", 0), ("'", 0),
)  # fmt: skip
"""Keys that a browser does things of its own with, as far as a page can keep them from it."""


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A home with a staff PIN, and nothing else in it."""
    folder = tmp_path_factory.mktemp("home")
    PinFile(folder / "state" / "turfpair" / "kiosk").set(PIN)
    return folder


@pytest.fixture
def kiosk(home: Path) -> Iterator[Any]:
    """A kiosk that is served, and the address that it tells."""
    kept = {
        name: value for name, value in os.environ.items() if re.match("PATH$|LANG$|LC_ALL$|COVERAGE", name)
    }
    env = {**kept, "HOME": str(home), "XDG_STATE_HOME": str(home / "state"), "PYTHONDONTWRITEBYTECODE": "1"}
    running = subprocess.Popen(
        [sys.executable, "-m", "interview.commands.main", "kiosk", "--web", "--port", "0"], cwd=home, env=env,
        stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert running.stdout is not None
    found = re.search(r"http://\S+/", running.stdout.readline())
    assert found
    yield running, found[0]
    running.send_signal(signal.SIGTERM)
    running.communicate(timeout=20)


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """A Chromium that the tests share."""
    opened = chromium.Browser(tmp_path_factory.mktemp("profile"))
    yield opened
    opened.close()


@pytest.fixture
def visit(browser: Any, kiosk: Any) -> Iterator[Callable[..., Any]]:
    """Open the kiosk on a screen of a size; at the end, look at all that the browser asked for."""
    opened: list[Any] = []
    browser.events.clear()

    def one(size: tuple[int, int], *, touch: bool) -> Any:
        page = browser.page(*size, touch=touch)
        opened.append(page)
        page.go(kiosk[1])
        until(lambda: "start" in page.tiles())
        return page

    yield one
    asked = [
        e["params"]["request"]["url"] for e in browser.events if e["method"] == "Network.requestWillBeSent"
    ]
    talked = [e["params"]["url"] for e in browser.events if e["method"] == "Network.webSocketCreated"]
    faults = [
        e["params"] for e in browser.events if e["method"] in ("Log.entryAdded", "Runtime.exceptionThrown")
    ]
    for page in opened:
        page.close()
    assert {url.removeprefix(kiosk[1]) for url in asked} <= {"", "page.css", "page.js", "favicon.ico"}
    assert set(talked) == {f"{kiosk[1].replace('http', 'ws')}talk"}
    assert [fault for fault in faults if "favicon" not in str(fault)] == []


def go_on(page: Any, press: str) -> None:
    """Press a tile until the page that follows has come; a press that comes too early falls on the floor."""
    before = page.text("board")
    for _ in range(4):
        time.sleep(0.3)
        page.press(press)
        try:
            until(lambda: page.text("board") != before, 4.0)
        except AssertionError:
            continue
        return
    raise AssertionError((press, before))


def everything(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def fits(page: Any, *, touch: bool) -> None:
    """Everything can be read and pressed: nothing sticks out sideways, and tiles are as large as a finger."""
    wide = page.size[0]
    assert page.eval("document.documentElement.scrollWidth") <= wide
    assert page.eval("document.getElementById('board').scrollWidth") <= wide
    rows = page.eval(
        "Math.max(...[...document.querySelectorAll('.row')].map((r) => { const c = document.createRange();"
        "c.selectNodeContents(r); return c.getBoundingClientRect().right; }))"
    )
    assert rows <= wide + 1, "no letter is cut off"
    tiles = page.tiles()
    for press, at in tiles.items():
        assert at["x"] >= 0, press
        assert at["x"] + at["wide"] <= wide + 1, press
        if touch:
            assert min(at["wide"], at["high"]) >= FINGER, (press, at)
    for one, a in tiles.items():
        for other, b in tiles.items():
            apart = a["x"] + a["wide"] <= b["x"] or b["x"] + b["wide"] <= a["x"]
            above = a["y"] + a["high"] <= b["y"] or b["y"] + b["high"] <= a["y"]
            assert one == other or apart or above, (one, other)


def test_a_whole_visit_by_touch_on_a_telephone(visit: Callable[..., Any], home: Path) -> None:
    before = everything(home)
    page = visit(PHONE, touch=True)
    assert page.eval("document.querySelector('.row').textContent.length") >= 38, "columns"
    fits(page, touch=True)
    go_on(page, "start")
    go_on(page, "answer:right")
    go_on(page, "answer:no")
    fits(page, touch=True)
    for press in ("digit:2", "digit:1"):
        go_on(page, press)
    go_on(page, "enter")
    asked = 0
    while "unknown" in (tiles := page.tiles()):
        asked += 1
        if "answer:tight_fairway" in tiles:
            fits(page, touch=True)
            assert "There is more below" in page.text()
        go_on(page, "unknown")
    assert asked > 5
    fits(page, touch=True)
    text = page.text()
    assert "Two clubs to begin with" in text
    assert "starting point that a fitter confirms" in text
    assert re.search(r"longer: \S+ ━+● \d+ yards", text), "the bars fit, and their distances can be read"
    for _ in range(3):
        go_on(page, "next")
    assert "Shall we keep" in page.text()
    assert everything(home) == before, "nothing is kept until somebody agrees"
    go_on(page, "guardian" if "yes" not in page.tiles() else "yes")
    fits(page, touch=True)
    code = re.search(r"((?:[0-9A-Z] ){4}- (?:[0-9A-Z] ){3}[0-9A-Z])", page.text())
    assert code
    new = set(everything(home)) - set(before)
    assert len([name for name in new if name.endswith(".toml")]) == 1
    opened = subprocess.run(
        [sys.executable, "-m", "interview.commands.main", "recommend", code[1].replace(" ", "")],
        env={**os.environ, "XDG_STATE_HOME": str(home / "state")}, capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    assert opened.returncode == 0, "the fitter opens the ticket"
    go_on(page, "finish")
    assert "Which two long clubs" in page.text()


def test_by_touch_on_a_tablet_and_nothing_is_left_after_a_reload(
    visit: Callable[..., Any], kiosk: Any
) -> None:
    page = visit(TABLET, touch=True)
    for press in ("start", "answer:left", "answer:no"):
        fits(page, touch=True)
        go_on(page, press)
    go_on(page, "unknown")
    go_on(page, "back")
    assert "handicap" in page.text()
    go_on(page, "back")
    go_on(page, "back")
    assert "So far: Left-handed" in page.text(), "back without loss"
    assert page.eval("document.querySelector('[data-press=\"answer:left\"]').ariaPressed") == "true"
    seats = _seats(kiosk[0].pid)
    page.ask("Page.reload")
    until(lambda: "start" in page.tiles())
    assert "Left-handed" not in page.text()
    until(lambda: not seats & _seats(kiosk[0].pid))
    assert page.eval("localStorage.length + sessionStorage.length + document.cookie.length") == 0


def _seats(server: int) -> set[str]:
    """Return the processes that hold a seat."""
    return set(Path(f"/proc/{server}/task/{server}/children").read_text().split())


def test_by_mouse_on_a_desk_it_is_left_by_the_pin_alone(
    visit: Callable[..., Any], kiosk: Any, browser: Any
) -> None:
    page = visit(DESK, touch=False)
    fits(page, touch=False)
    go_on(page, "start")
    here = page.eval("location.href")
    for key, modifiers in CHORDS:
        page.key(key, modifiers)
    for button in ("right", "middle", "back", "forward"):
        for kind in ("mousePressed", "mouseReleased"):
            page.ask("Input.dispatchMouseEvent", type=kind, x=300, y=300, button=button, clickCount=1)
    page.ask("Input.insertText", text=f"{PIN}\nquit\n")
    page.eval("document.execCommand('paste'); document.execCommand('selectAll'); window.print = () => 0")
    assert (page.eval("location.href"), page.eval("getSelection().toString()")) == (here, "")
    assert len([t for t in browser.ask("Target.getTargets")["targetInfos"] if t["type"] == "page"]) == 2
    assert "right-handed or left-handed" in page.text()
    time.sleep(0.35)
    page.key("2")
    until(lambda: "hurt anywhere" in page.text())
    time.sleep(0.35)
    page.key("b")
    until(lambda: "So far: Left-handed" in page.text())
    go_on(page, "over")
    go_on(page, "afresh")
    go_on(page, "staff")
    time.sleep(0.35)
    for digit in PIN:
        page.key(digit)
    until(lambda: "▸ ******" in page.text())
    page.press("enter")
    until(lambda: "The kiosk is closed." in page.text())
    assert page.tiles() == {}
    assert kiosk[0].wait(10) == 0
