"""The gallery's pictures, each with a digest inside of what it shows; beside a screen's stands its text.

python -m tests.screens.picture_of_record     takes them again; it wants a Chromium (and Pillow, to keep
                                              them small)
"""

from __future__ import annotations

import asyncio
import hashlib
import io
import re
import struct
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

from tests.screens.scenes import ROOT, SCENES, SHEETS, Scene

GALLERY = ROOT / "sample_sessions" / "gallery"
PAPER = (794, 1123)
"""An A4 page at 96 dots to the inch (ISO 216: 210 by 297 mm)."""
KEYWORD = b"Screen"
"""What a picture calls the digest of its text."""


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
        made = picture.read_bytes()
    try:
        from PIL import Image
    except ImportError:
        return made
    small = io.BytesIO()
    Image.open(io.BytesIO(made)).convert("RGB").quantize(32).save(small, "PNG", optimize=True)
    return small.getvalue()


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


def _print(name: str) -> None:
    """Take a sheet's picture."""
    page = SHEETS[name]()
    picture_file(name).write_bytes(marked(_photographed(page, *PAPER), page))


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    for one in SCENES:
        asyncio.run(_take(one))
    for sheet in SHEETS:
        _print(sheet)
