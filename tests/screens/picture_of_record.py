"""The gallery's pictures, each with a digest inside of what it shows; beside a screen's stands its text.

python -m tests.screens.picture_of_record     takes them again, and sets the README's screen; it wants a
                                              Chromium (and Pillow, to keep them small)
"""

from __future__ import annotations

import asyncio
import hashlib
import io
import os
import re
import struct
import subprocess
import sys
import tempfile
import time
import zlib
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from tests.screens.scenes import BROWSED, ROOT, SCENES, SHEETS, Browsed, Scene

if TYPE_CHECKING:
    from tests.journeys.chromium import Browser, Page

GALLERY = ROOT / "sample_sessions" / "gallery"
PAPER = (794, 1123)
"""An A4 page at 96 dots to the inch (ISO 216: 210 by 297 mm)."""
KEYWORD = b"Screen"
"""What a picture calls the digest of its text."""


AGAIN = "take them again, and look: .venv/bin/python -m tests.screens.picture_of_record"
"""What to do about a picture that shows something else."""
README = ROOT / "README.md"
IN_README = "bay-80x24"
"""The screen that the README shows as text."""
_SHOWN = re.compile(r"^     Turfpair bay .*?^    F1 help .*?$", re.MULTILINE | re.DOTALL)


def text_file(name: str) -> Path:
    """Return where the text of a screen is kept."""
    return GALLERY / f"{name}.txt"


def picture_file(name: str) -> Path:
    """Return where a picture is kept."""
    return GALLERY / f"{name}.png"


def digest(text: str) -> bytes:
    """Return what tells one text from another."""
    return hashlib.sha256(text.encode()).hexdigest().encode()


def chunks(picture: bytes) -> list[tuple[bytes, bytes]]:
    """Return the chunks of a PNG (Portable Network Graphics, W3C recommendation, section 5.3)."""
    found, at = [], 8
    while at < len(picture):
        (length,) = struct.unpack(">I", picture[at : at + 4])
        found.append((picture[at + 4 : at + 8], picture[at + 8 : at + 8 + length]))
        at += 12 + length
    return found


def marked(picture: bytes, text: str) -> bytes:
    """Return a PNG that carries the digest of its text."""
    told = (b"tEXt", KEYWORD + b"\0" + digest(text))
    first, *rest = chunks(picture)
    made = b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in (first, told, *rest)
    )
    return picture[:8] + made


def digest_in(picture: bytes) -> bytes:
    """Return the digest that a PNG carries; empty without one."""
    told = (data.partition(b"\0") for kind, data in chunks(picture) if kind == b"tEXt")
    return next((rest for keyword, _, rest in told if keyword == KEYWORD), b"")


def _photographed(page: str, width: int, height: int) -> bytes:
    """Return a picture of a page as PNG, drawn by a Chromium, of few colours where Pillow is there."""
    from tests.journeys.chromium import found

    with tempfile.TemporaryDirectory() as folder:
        file, picture = Path(folder) / "page.html", Path(folder) / "picture.png"
        file.write_text(page, encoding="utf-8")
        subprocess.run(
            [found() or "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
             f"--user-data-dir={folder}/profile", f"--screenshot={picture}",
             f"--window-size={width},{height}", file.as_uri()],
            check=True, capture_output=True, timeout=120,
        )  # fmt: skip
        return _small(picture.read_bytes())


def _small(made: bytes) -> bytes:
    """Return a picture with few colours, where Pillow is there."""
    try:
        from PIL import Image
    except ImportError:
        return made
    small = io.BytesIO()
    Image.open(io.BytesIO(made)).convert("RGB").quantize(32).save(small, "PNG", optimize=True)
    return small.getvalue()


def indented(text: str) -> str:
    """Return a screen's text as the README sets it."""
    return "\n".join(f"    {line}".rstrip() for line in text.rstrip("\n").split("\n"))


async def _take(scene: Scene) -> None:
    """Take a screen's picture, and write the text it shows."""
    async with scene.come_to(scene) as app:
        text, svg = scene.shown(app), app.export_screenshot()
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    assert box is not None
    page = f"<body style='margin:0'>{svg}</body>"
    picture = _photographed(page, int(float(box[1])) + 2, int(float(box[2])) + 2)
    text_file(scene.name).write_text(text, encoding="utf-8")
    picture_file(scene.name).write_bytes(marked(picture, text))
    if scene.name == IN_README:
        page = README.read_text(encoding="utf-8")
        README.write_text(_SHOWN.sub(lambda _: indented(text), page, count=1), encoding="utf-8")


def _print(name: str) -> None:
    """Take a sheet's picture."""
    page = SHEETS[name]()
    picture_file(name).write_bytes(marked(_photographed(page, *PAPER), page))


def _has(page: Page, press: str) -> bool:
    return press in page.tiles()


def _browse(one: Browsed, browser: Browser, address: str) -> None:
    """Take a picture of the kiosk in a browser, come to by its tiles."""
    from tests.journeys.chromium import until

    told, pressed = one.shown()
    page = browser.page(one.width, one.height, touch=one.touch)
    page.go(address)
    for press in pressed:
        until(partial(_has, page, press))
        time.sleep(0.5)  # a press that comes too early falls on the floor
        page.press(press)
    time.sleep(1.0)
    page.eval("window.scrollTo(0, 0)")
    page.picture(picture_file(one.name))
    page.close()
    picture_file(one.name).write_bytes(marked(_small(picture_file(one.name).read_bytes()), told))


def _browse_all() -> None:
    """Serve a kiosk, and take the pictures of it."""
    from interview.kiosk.pin import PinFile
    from tests.journeys.chromium import Browser

    with tempfile.TemporaryDirectory() as folder:
        PinFile(Path(folder) / "turfpair" / "kiosk").set("918273")
        serving = subprocess.Popen(
            [sys.executable, "-m", "interview.commands.main", "kiosk", "--web", "--port", "0"],
            env={**os.environ, "XDG_STATE_HOME": folder}, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        assert serving.stdout is not None
        address = re.search(r"http://\S+/", serving.stdout.readline())
        assert address is not None
        browser = Browser(Path(folder) / "profile")
        try:
            for one in BROWSED:
                _browse(one, browser, address[0])
        finally:
            browser.close()
            serving.terminate()
            serving.wait()


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    _browse_all()
    for one in SCENES:
        asyncio.run(_take(one))
    for sheet in SHEETS:
        _print(sheet)
