"""A headless Chromium, driven by its own DevTools protocol: pages of any size, fingers, mouse and keys."""

from __future__ import annotations

import base64
import json
import os
import shutil
import subprocess
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

FLAGS = (
    "--headless=new", "--disable-gpu", "--no-first-run", "--no-default-browser-check", "--mute-audio",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-quic",
    "--disable-extensions", "--disable-dev-shm-usage", "--remote-debugging-port=0", "--hide-scrollbars",
)  # fmt: skip


def found() -> str | None:
    """Return where a Chromium is, or None."""
    return next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


def until(true: Callable[[], Any], seconds: float = 20.0, every: float = 0.03) -> Any:
    """Wait until something is true, and return it."""
    end = time.monotonic() + seconds
    while not (what := true()):
        assert time.monotonic() < end, "it did not come true"
        time.sleep(every)
    return what


class Browser:
    """A Chromium of its own, with a profile that goes with it."""

    def __init__(self, folder: Path) -> None:
        from websockets.sync.client import connect

        root = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
        self._process = subprocess.Popen(
            [found() or "chromium", *FLAGS, *root, f"--user-data-dir={folder}", "about:blank"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
        )  # fmt: skip
        note = folder / "DevToolsActivePort"
        until(lambda: note.exists() and note.read_text().count("\n") >= 1)
        port, path = note.read_text().split("\n")[:2]
        self._opened = connect(f"ws://127.0.0.1:{port}{path}", max_size=2**25, proxy=None)
        self._talk = self._opened.__enter__()
        self._number = 0
        self.events: list[dict[str, Any]] = []
        """What Chromium told of itself."""

    def close(self) -> None:
        self._opened.__exit__(None, None, None)
        self._process.terminate()
        try:
            self._process.wait(5)
        except subprocess.TimeoutExpired:
            self._process.kill()

    def ask(self, method: str, session: str | None = None, **params: Any) -> dict[str, Any]:
        """Ask Chromium to do something, and return its answer."""
        self._number += 1
        said: dict[str, Any] = {"id": self._number, "method": method, "params": params}
        self._talk.send(json.dumps(said | ({"sessionId": session} if session else {})))
        while True:
            answer: dict[str, Any] = json.loads(self._talk.recv(timeout=30))
            if answer.get("id") == self._number:
                assert "error" not in answer, (method, answer["error"])
                return dict(answer["result"])
            self.events.append(answer)

    def told(self, method: str) -> list[dict[str, Any]]:
        """Return what Chromium told under one heading."""
        return [event["params"] for event in self.events if event["method"] == method]

    def page(self, wide: int, high: int, *, touch: bool) -> Page:
        """Open an empty page of a size."""
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        return Page(self, target, session, wide, high, touch)


class Page:
    """One page, with a finger or a mouse on it."""

    def __init__(
        self, browser: Browser, target: str, session: str, wide: int, high: int, touch: bool
    ) -> None:
        self._browser, self.target, self._session, self._touch = browser, target, session, touch
        self.size = (wide, high)
        for domain in ("Page", "Network", "Runtime", "Log"):
            self.ask(f"{domain}.enable")
        self.ask(
            "Emulation.setDeviceMetricsOverride", width=wide, height=high, mobile=touch,
            deviceScaleFactor=2 if touch else 1,
        )  # fmt: skip
        self.ask("Emulation.setTouchEmulationEnabled", enabled=touch)

    def ask(self, method: str, **params: Any) -> dict[str, Any]:
        return self._browser.ask(method, self._session, **params)

    def go(self, address: str) -> None:
        self.ask("Page.navigate", url=address)

    def close(self) -> None:
        self._browser.ask("Target.closeTarget", targetId=self.target)

    def eval(self, script: str) -> Any:
        """Return what a script comes to."""
        return self.ask("Runtime.evaluate", expression=script, returnByValue=True)["result"].get("value")

    def text(self, part: str = "") -> str:
        """Return what can be read, on the whole page or in one part of it."""
        where = f"document.getElementById('{part}')" if part else "document.body"
        return " ".join(str(self.eval(f"{where}.innerText") or "").split())

    def tiles(self) -> dict[str, dict[str, float]]:
        """Return where the tiles are, by their words."""
        script = """Object.fromEntries([...document.querySelectorAll("#board button")].map((one) => {
            const r = one.getBoundingClientRect();
            return [one.dataset.press, {x: r.x, y: r.y, wide: r.width, high: r.height}];
        }))"""
        return dict(self.eval(script) or {})

    def press(self, press: str) -> None:
        """Press the middle of a tile, moved into sight first."""
        at = until(lambda: self.tiles().get(press))
        for _ in range(6):
            middle = at["y"] + at["high"] / 2
            if 0 < middle < self.size[1] - 40:
                break
            self.swipe(self.size[1] * 0.4 - middle)
            at = self.tiles()[press]
        self.touch(at["x"] + at["wide"] / 2, at["y"] + at["high"] / 2)

    def touch(self, x: float, y: float) -> None:
        """Press a place with the finger or the mouse."""
        if self._touch:
            self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
            self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
            return
        for kind in ("mousePressed", "mouseReleased"):
            self.ask("Input.dispatchMouseEvent", type=kind, x=x, y=y, button="left", clickCount=1)

    def swipe(self, by: float) -> None:
        """Push the page up (less than nought) or down with a finger, or turn the wheel."""
        x, y = self.size[0] / 2, self.size[1] / 2
        by = max(-y * 0.8, min(y * 0.8, by))
        if not self._touch:
            self.ask("Input.dispatchMouseEvent", type="mouseWheel", x=x, y=y, deltaX=0, deltaY=-by)
            time.sleep(0.15)
            return
        begin = y - by / 2
        self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": begin}])
        for step in range(1, 9):
            moved = [{"x": x, "y": begin + by * step / 8}]
            self.ask("Input.dispatchTouchEvent", type="touchMove", touchPoints=moved)
            time.sleep(0.016)
        self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        time.sleep(0.15)

    def key(self, key: str, modifiers: int = 0) -> None:
        """Press a key; of the modifiers, 1 is alt, 2 control, 4 meta and 8 shift."""
        text = {"text": key} if len(key) == 1 and not modifiers else {}
        self.ask("Input.dispatchKeyEvent", type="keyDown", key=key, modifiers=modifiers, **text)
        self.ask("Input.dispatchKeyEvent", type="keyUp", key=key, modifiers=modifiers)

    def picture(self, file: Path) -> None:
        """Keep a picture of what is shown."""
        file.write_bytes(base64.b64decode(self.ask("Page.captureScreenshot", format="png")["data"]))
