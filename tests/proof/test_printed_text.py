"""Text that would steer a terminal, a page, a table or a review, through every command that prints it."""

from __future__ import annotations

import csv
import io
import json
import os
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
import tomli_w

from rules.house import load_house
from rules.shelf.start import start_shop
from tests.proof.fuzz_kit import LONG, SAMPLES, STEERS, Ran, clean_bytes, place_of_its_own, polite, ran

MARKED = """[/b]</td><script>alert(1)</script>'" onload=x |`$(x)`"""
"""Signs that mean something to a markup, a page, a table of Markdown or a shell, and are plain text here."""
STEERING = "\x1b[2J\x1b]0;owned\x07\x9b31m\x7f\x08\x85\u200f\u202e\u2066\u061c\ufeff"
"""What would clear a screen, name a window, colour, erase, and turn the direction of writing."""
HOSTILE = STEERING + MARKED
FORMULA = "=cmd|' /C calc'!A1"
PLAIN_TAGS = frozenset(
    re.findall(
        r"\w+",
        """html head meta style body header footer main section article aside div span p h1 h2 h3 h4
        ul ol li dl dt dd table caption colgroup col thead tbody tfoot tr th td strong em b i small
        br hr figure figcaption svg title rect line text path circle polyline polygon g tspan ellipse""",
    )
)
"""What a sheet is made of."""


class Tags(HTMLParser):
    """Gathers what a page is made of."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.names: set[str] = set()
        self.attributes: list[tuple[str, str | None]] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names.add(tag)
        self.attributes += attrs

    def handle_data(self, data: str) -> None:
        self.words.append(data)


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A session, a shop, an overlay and names of files in which everything that may be text is hostile."""
    with place_of_its_own(tmp_path_factory.mktemp("printed")) as folder:
        (folder / "one.toml").write_text(tomli_w.dumps(session()))
        start_shop(folder / "shop")
        hostile_shop(folder / "shop")
        (folder / "laid").mkdir()
        (folder / "laid" / "more.toml").write_text(tomli_w.dumps({"rule": [rule()]}))
        cases = folder / "cases"
        cases.mkdir()
        (cases / "one.toml").write_text(tomli_w.dumps(session()))
        (cases / f"{HOSTILE.replace('/', '∕')[:120]}.toml").write_text("schema = 1\n")
        (cases / "x | y\n| z | <b>.toml").write_text(f'"{MARKED[:4]}" = 3')
        load_house.cache_clear()
        yield folder
    load_house.cache_clear()


def session() -> dict[str, object]:
    """A golfer who owns, tries and overrules with hostile words."""
    trial = f"{FORMULA}{HOSTILE}"[:60]
    return {
        "schema": 1, "id": "one", "voice": "fitter", "note": HOSTILE,
        "answers": {
            "hand": "right", "handicap": 14, "pain": "no", "contact": ["thin"], "miss": "right",
            "driver_speed": {"value": f"{STEERING}92 mph", "how": "measured"},
        },
        "owned": [
            {"name": HOSTILE[:90], "kind": "fairway", "loft": {"value": "15 deg", "how": "stamped"},
             "length": "43 in", "carry": "190 yd", "liked": "no"},
        ],
        "trial_clubs": [{"name": trial, "kind": "hybrid", "loft": "19 deg", "length": "41 in"}],
        "shots": [
            {"club": trial, "toe_mm": -6.0, "high_mm": -4.0, "side_yd": -8.0, "carry": "171 yd"}
        ] * 6,
        "overrides": {"longer.length": {"value": "42 in", "reason": HOSTILE}},
        "record": {"rules_digest": HOSTILE, "skipped": ["wrist_to_floor"]},
    }  # fmt: skip


def hostile_shop(shop: Path) -> None:
    """Give a shop, and every part of it, a name that is markup; what steers is refused there."""
    for file in shop.glob("*.toml"):
        text = file.read_text()
        text = re.sub(r"(?m)^(label|name|bore_note) = .*$", lambda one: f"{one[1]} = '''{MARKED}'''", text)
        file.write_text(text)


def rule() -> dict[str, object]:
    """A rule whose sentences are markup."""
    return {
        "id": "marked", "decision": "length",
        "scope": load_house().base.decisions["length"].scope, "effect": {"adjust": "1/4 in"},
        "because": MARKED, "teaches": MARKED, "source": {"kind": "memory", "note": f"{MARKED} {MARKED}"},
        "contested": {"other": MARKED, "leans": MARKED},
    }  # fmt: skip


def page_of(raw: bytes) -> Tags:
    """Read a page and hold that nothing in it is more than a sheet is made of."""
    clean_bytes(raw)
    tags = Tags()
    tags.feed(raw.decode())
    assert tags.names <= PLAIN_TAGS, tags.names - PLAIN_TAGS
    for name, value in tags.attributes:
        assert not name.startswith("on"), name
        assert "javascript:" not in (value or "").lower()
    return tags


LINES = [
    "recommend one.toml", "recommend one.toml one.toml", "recommend one.toml --json",
    "whatif one.toml handicap=3", "whatif one.toml handicap=3 --json", "sheet one.toml --for golfer",
    "sheet one.toml --for workshop", "trial one.toml", "trial one.toml --json", "replay cases",
    "replay cases --json", "sessions list --sessions .", "sessions list --sessions cases",
    "sessions find alert --sessions .", "rules check laid", "rules show marked", "rules show",
    "shop check shop", "shop orders --at-most 99", "shop book one.toml", "shop release one.toml",
    "trainer --plain one.toml", "trainer --plain cases", "ask one.toml --sessions kept",
    "ask one.toml --in-place --voice customer", "explain one.toml longer.length",
]  # fmt: skip
"""Every command that prints what somebody wrote."""
if LONG:
    LINES += ["explain one.toml --json", "recommend one.toml --study", "explain one.toml longer.head"]
TYPED = f"""list
why
note
facts
predict
{HOSTILE}
case {HOSTILE}
balls
{HOSTILE}
done
{HOSTILE}
handicap = {HOSTILE}
quit
"""


def hostile(line: str) -> Ran:
    """Run a command on the hostile shop and rules, with hostile lines to read."""
    words = line.split()
    words += ["--catalogue", "shop"] if words[0] != "rules" else []
    words += ["--rules", "laid"] if words[:2] != ["rules", "check"] else []
    return ran(words, TYPED.encode("utf-8", "replace"), 20.0)


@pytest.mark.parametrize("line", LINES)
def test_nothing_steers_and_markup_stays_text(own: Path, line: str) -> None:
    before = (own / "one.toml").read_bytes()
    done = polite(hostile(line), 20.0)
    assert done.status == 0 or line.startswith(("rules check", "shop check", "sessions find")), done.err
    if "--json" in line:
        json.loads(done.out)
    (own / "one.toml").write_bytes(before)


@pytest.mark.parametrize("line", ["recommend one.toml", "trial one.toml", "sheet one.toml --for workshop"])
def test_what_is_plain_text_is_shown_as_it_is(own: Path, line: str) -> None:
    assert b"[/b]</td><" in polite(hostile(line)).out


@pytest.mark.parametrize("reader", ["golfer", "workshop"])
def test_a_page_is_made_of_nothing_but_a_sheet(own: Path, reader: str) -> None:
    polite(hostile(f"sheet one.toml --for {reader} --html page.html"))
    tags = page_of((own / "page.html").read_bytes())
    assert "alert(1)" in " ".join(tags.words)


def test_a_replay_is_a_table_whatever_files_are_called(own: Path) -> None:
    """Rows have as many cells as their head; none is a tag, a link or code (GitHub Flavored Markdown)."""
    said = polite(hostile("replay cases")).out.decode()
    head = 0
    rows = [line for line in said.splitlines() if line.startswith("|")]
    assert len(rows) >= 4
    for row in rows:
        cells = len(re.findall(r"(?<!\\)(?:\\\\)*\|", row)) - 1
        head = cells if row.startswith("| session") or not head else head
        assert cells == head, row
        assert not re.search(r"(?<!\\)(?:\\\\)*[<`\[]", row), row


def test_balls_are_saved_with_no_formula_among_them(own: Path) -> None:
    polite(hostile("trial one.toml --save balls.csv"))
    text = (own / "balls.csv").read_bytes().decode()
    assert STEERS.search(text.replace("\r\n", "\n")) is None
    rows = list(csv.reader(io.StringIO(text, newline="")))
    names = [row[0] for row in rows[1:]]
    assert len(names) == 6
    assert all(name.startswith("'=cmd") for name in names)
    assert {row[rows[0].index("side_yd")] for row in rows[1:]} == {"-8"}, "a negative number stays one"


def test_errors_of_the_command_line_repeat_nothing_that_steers(own: Path) -> None:
    for words in (
        [HOSTILE], ["recommend", HOSTILE], ["recommend", f"{HOSTILE.replace('/', '')}.toml"],
        ["calc", HOSTILE], ["calc", "flight", "--spin", HOSTILE], ["rules", "show", HOSTILE],
        ["calc", "ports", "--need", "13 g", "--port", f"{HOSTILE}=12 g @ 1,1,1 mm", "--head-mass", "212 g"],
        ["whatif", "one.toml", f"hand={HOSTILE}"], ["explain", "one.toml", HOSTILE], ["rules", HOSTILE],
        ["sheet", "one.toml", "--for", HOSTILE], ["trial", "one.toml", "--shots", HOSTILE],
        ["recommend", "one.toml", "--units", HOSTILE], ["rules", "check", HOSTILE],
        ["kiosk", "--port", HOSTILE],
        ["replay", HOSTILE], ["sessions", "forget", HOSTILE], ["sessions", "purge", "--older-than", HOSTILE],
        ["ask", "--new", HOSTILE], ["recommend", "one.toml", "--catalogue", HOSTILE], ["bay", f"--{HOSTILE}"],
        ["shop", "release", HOSTILE], ["shop", "check", HOSTILE],
    ):  # fmt: skip
        polite(ran(words))


def test_a_lone_byte_of_a_name_is_no_fault(own: Path) -> None:
    name = os.fsdecode(b"caf\xe9 \xff.toml")
    (own / name).write_bytes((SAMPLES[0]).read_bytes())
    assert polite(ran(["recommend", name])).status == 0
    (own / name).write_text("[[")
    assert polite(ran(["recommend", name])).status == 2
    (own / name).unlink()
