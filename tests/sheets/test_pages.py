"""The pages: self-contained, escaped, black on white, and each of them one sheet of A4 or Letter."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tomllib
import xml.etree.ElementTree as ET
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path

import pytest

from interview.sheets import html
from interview.sheets.html import golfer_page, workshop_page
from interview.sheets.one_page import PAGE, SIZES, golfer_height, lines, smallest_needed, workshop_height

from .conftest import SAMPLES, Made

NAMES = sorted(path.stem for path in SAMPLES.glob("*.toml"))
CHROMIUM = shutil.which("chromium")
VOID = {"meta", "br", "col", "line", "rect", "circle", "ellipse", "path"}
NASTY = "<script>alert(1)</script>\" onload='x' & \x1b[31m"


class Checked(HTMLParser):
    """Elements that open must close, and nothing may point outside."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        for name, value in attrs:
            assert name not in ("src", "href", "onload", "onclick"), (tag, name)
            assert "url(" not in (value or "")
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag, (tag, self.open)


def pages(one: Made) -> dict[str, str]:
    return {
        "golfer": golfer_page(one.golfer),
        "workshop": workshop_page(one.workshop, one.build, one.view.system),
    }


@pytest.mark.parametrize("sample", NAMES)
def test_pages_are_whole_and_point_nowhere(made: Callable[..., Made], sample: str) -> None:
    for page in pages(made(sample)).values():
        checked = Checked()
        checked.feed(page)
        assert checked.open == []
        assert "script" not in checked.seen
        assert "img" not in checked.seen
        assert "http:" not in page
        assert "https:" not in page
        assert "@import" not in page


def test_every_picture_is_well_formed_and_within_its_frame(made: Callable[..., Made]) -> None:
    for sample in (
        "thin-off-tight-turf",
        "left-handed-slicer",
        "keep-what-he-has",
        "marks-overrule-handicap",
    ):
        for page in pages(made(sample)).values():
            found = re.findall(r"<svg.*?</svg>", page, re.DOTALL)
            assert found or "nothing is built" in page
            for svg in found:
                root = ET.fromstring(svg)
                _, _, width, height = map(float, root.attrib["viewBox"].split())
                for text in root.iter("text"):
                    assert -0.5 <= float(text.attrib["x"]) <= width + 0.5
                    assert 0 <= float(text.attrib["y"]) <= height + 0.5
                assert root.find("title") is not None


def test_only_black_white_and_grey(thin: Made) -> None:
    for page in pages(thin).values():
        colours = set(re.findall(r"#([0-9a-f]{3}|[0-9a-f]{6})\b", page))
        for colour in colours:
            full = colour if len(colour) == 6 else "".join(c * 2 for c in colour)
            red, green, blue = (int(full[i : i + 2], 16) for i in (0, 2, 4))
            assert max(red, green, blue) - min(red, green, blue) <= 8, colour


def test_what_people_typed_is_text(made: Callable[..., Made]) -> None:
    one = made(
        answers={"handicap": 15, "driver_speed": "96 mph", "airborne_of_six": 5},
        owned=[
            {"name": NASTY.replace("\x1b[31m", ""), "kind": "fairway", "loft": "16.5 deg", "length": "43 in",
             "swing_weight": "D1", "liked": "yes", "can_add": "16 g"}
        ],
        trial_clubs=[{"name": "<b>demo</b>", "kind": "fairway", "loft": "21 deg"}],
    )  # fmt: skip
    for page in pages(one).values():
        assert "<script>" not in page
        assert "<b>demo</b>" not in page
    both = "".join(pages(one).values())
    assert "&lt;script&gt;" in both


def test_the_sign_of_a_left_hander_is_a_mirror(made: Callable[..., Made]) -> None:
    left = pages(made("left-handed-slicer"))["golfer"]
    right = pages(made("thin-off-tight-turf"))["golfer"]

    def order(page: str) -> list[str]:
        face = re.findall(r"<svg.*?</svg>", page, re.DOTALL)[1]
        found = re.findall(r'<text class="small" x="([\d.]+)"[^>]*>(toe|heel)<', face)
        return [word for _, word in sorted(found, key=lambda one: float(one[0]))]

    assert order(right) == ["toe", "heel"]
    assert order(left) == ["heel", "toe"]


def test_long_content_is_set_smaller(made: Callable[..., Made]) -> None:
    short, long = made("keep-what-he-has").golfer, made("lesson-first").golfer
    sizes = [smallest_needed(lambda s, sheet=sheet: golfer_height(sheet, s)) for sheet in (short, long)]  # type: ignore[misc]
    assert sizes[0] > sizes[1]
    assert smallest_needed(lambda _: PAGE + 1) == SIZES[-1]
    assert smallest_needed(lambda _: PAGE - 1) == SIZES[0]
    assert lines("x" * 100, 50, 0.8, 1.0) > lines("x" * 100, 100, 0.8, 1.0)


@pytest.mark.parametrize("sample", NAMES)
def test_no_line_of_a_page_breaks_inside_a_figure(made: Callable[..., Made], sample: str) -> None:
    for name, page in pages(made(sample)).items():
        said = re.sub(r"<style>.*?</style>|<svg.*?</svg>|<[^>]+>", " | ", page, flags=re.DOTALL)
        assert re.findall(r".{0,30}\d (?:g|mm|in|deg|yd|degrees|yards|points|x \d)\b", said) == [], name


@pytest.mark.parametrize("sample", NAMES)
def test_every_sample_is_reckoned_to_fit(made: Callable[..., Made], sample: str) -> None:
    one = made(sample)
    assert golfer_height(one.golfer, SIZES[-1] / 10) <= PAGE
    assert workshop_height(one.workshop, SIZES[-1] / 10) <= PAGE


def test_the_library_is_not_loaded_without_a_page() -> None:
    """Text sheets and recommendations load no template library."""
    code = (
        "import sys\n"
        "from interview.commands.main import main\n"
        "main(['sheet', sys.argv[1], '--for', 'golfer'])\n"
        "main(['sheet', sys.argv[1], '--for', 'workshop'])\n"
        "main(['recommend', sys.argv[1]])\n"
        "heavy = {'jinja2', 'markupsafe', 'textual', 'numpy'}\n"
        "print('LOADED', sorted(heavy & set(sys.modules)), file=sys.stderr)\n"
    )
    sample = str(SAMPLES / "thin-off-tight-turf.toml")
    done = subprocess.run([sys.executable, "-c", code, sample], capture_output=True, text=True, timeout=120)
    assert "LOADED []" in done.stderr, done.stderr[-800:]


def printed(page: str, folder: Path, size: str) -> int:
    """Print a page to PDF on a paper, and count the sheets."""
    assert CHROMIUM is not None
    file, pdf = folder / "page.html", folder / "page.pdf"
    file.write_text(page.replace("@page {", f"@page {{ size: {size};"), encoding="utf-8")
    options = (
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        "--no-pdf-header-footer",
    )  # fmt: skip
    command = [
        CHROMIUM, *options, f"--user-data-dir={folder / 'profile'}", f"--print-to-pdf={pdf}", str(file)
    ]  # fmt: skip
    subprocess.run(command, capture_output=True, timeout=120, check=True)
    return len(re.findall(rb"/Type\s*/Page\b", pdf.read_bytes()))


@pytest.mark.slow
@pytest.mark.skipif(CHROMIUM is None, reason="no browser to print with")
@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize(
    "sample", ["thin-off-tight-turf", "lesson-first", "very-slow", "his-wood-to-shorten"]
)
def test_each_sheet_prints_on_one_page(
    made: Callable[..., Made], tmp_path: Path, sample: str, size: str
) -> None:
    for page in pages(made(sample)).values():
        assert printed(page, tmp_path, size) == 1


def test_the_templates_go_into_the_wheel() -> None:
    """Package data is taken from packages only, by these endings."""
    folder = Path(html.__file__).parent / "templates"
    assert (folder / "__init__.py").is_file()
    project = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text())
    taken = project["tool"]["setuptools"]["package-data"]["*"]
    assert all(f"*{path.suffix}" in taken for path in folder.iterdir() if path.suffix not in (".py", ""))
    assert {"jinja2", "markupsafe"} <= {re.split(r"[<>=]", d)[0] for d in project["project"]["dependencies"]}
