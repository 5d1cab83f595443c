"""Pictures of the bay for the README, each with the text that it shows beside it and its digest inside.

python -m tests.screens.picture_of_record     takes them again; it wants a Chromium (and Pillow, to keep
                                              them small)
"""

from __future__ import annotations

import asyncio
import hashlib
import io
import struct
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

ROOT = Path(__file__).parents[2]
GALLERY = ROOT / "sample_sessions" / "gallery"
SAMPLE = str(ROOT / "sample_sessions" / "thin-off-tight-turf.toml")
SIZES = ((80, 24), (120, 40))
KEYWORD = b"Screen"
"""What a picture calls the digest of its text."""


def text_file(width: int, height: int) -> Path:
    """Return where the text of a size is kept; its picture is beside it."""
    return GALLERY / f"bay-{width}x{height}.txt"


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


def drawn(svg: str, width: int, height: int) -> bytes:
    """Return a picture of an SVG as PNG, drawn by a Chromium, of few colours where Pillow is there."""
    from tests.journeys.chromium import found

    with tempfile.TemporaryDirectory() as folder:
        page, picture = Path(folder) / "page.html", Path(folder) / "picture.png"
        page.write_text(f"<body style='margin:0'>{svg}</body>", encoding="utf-8")
        subprocess.run(
            [found() or "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
             f"--user-data-dir={folder}/profile", f"--screenshot={picture}",
             f"--window-size={width},{height}", page.as_uri()],
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


async def _take(width: int, height: int) -> None:
    """Take one picture, and write the text it shows."""
    import re

    from interview.conversation import Conversation
    from interview.screens.bay.app import BayApp
    from interview.screens.bay.desk import sit_down
    from interview.store import Store
    from interview.views.pictures import FULL
    from rules.fitting import load_house
    from tests.screens.conftest import Bay

    house, store = load_house(), Store(Path(tempfile.mkdtemp()))
    desk = sit_down(Conversation.of(house), store.open(SAMPLE, house.base.facts))
    app = BayApp(desk, store, glyphs=FULL, blink=False)
    async with app.run_test(size=(width, height)) as pilot:
        bay = Bay(app, pilot)
        await bay.settle()
        text, svg = bay.screen_text() + "\n", app.export_screenshot()
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    assert box is not None
    file = text_file(width, height)
    file.write_text(text, encoding="utf-8")
    picture = drawn(svg, int(float(box[1])) + 2, int(float(box[2])) + 2)
    file.with_suffix(".png").write_bytes(marked(picture, text))


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    for size in SIZES:
        asyncio.run(_take(*size))
