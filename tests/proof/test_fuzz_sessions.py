"""Session files changed at random places, random TOML, random bytes: every command that reads one."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from tests.proof.fuzz_kit import (
    SAMPLES,
    clean_bytes,
    mutated,
    nasty_text,
    place_of_its_own,
    polite,
    ran,
    spliced,
    toml_values,
    tries,
)

WHOLE = [tomllib.loads(file.read_text()) for file in SAMPLES]
TEXTS = [file.read_text() for file in SAMPLES]
LINES = (
    "recommend {0}", "recommend {0} --json", "recommend {0} --units metric", "whatif {0} handicap=3",
    "whatif {0} miss=unknown --json", "sheet {0} --for golfer", "sheet {0} --for workshop",
    "sheet {0} --for golfer --html page.html", "sheet {0} --for workshop --html page.html", "trial {0}",
    "trial {0} --json", "trial {0} --save shots.csv", "replay .", "replay . --json", "ask {0} --in-place",
    "trainer --plain {0}", "sessions list --sessions .", "sessions find a --sessions .", "shop learn {0}",
)  # fmt: skip
"""What is done with each file."""
KNOWN = st.sampled_from(
    [
        "85 mph",
        "measured",
        "unknown",
        "42 in",
        "D2",
        "fairway",
        "hybrid",
        "thin",
        "up",
        "longer",
        1,
        0,
        -8.0,
        [],
    ]
)
"""Values that some other key takes."""


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    with place_of_its_own(tmp_path_factory.mktemp("sessions")) as folder:
        yield folder


def read_by(own: Path, raw: bytes, line: str) -> None:
    """Let a command read a session file; whatever it writes is clean, and the file is as it was."""
    file = own / "fuzz.toml"
    file.write_bytes(raw)
    done = polite(ran([word.format(file.name) for word in line.split()], b"handicap = 3\nwhy\nquit\n"))
    for page in own.glob("page.html"):
        clean_bytes(page.read_bytes())
        page.unlink()
    for table in own.glob("shots.csv"):
        clean_bytes(table.read_bytes().replace(b"\r\n", b"\n"))
        table.unlink()
    if not line.startswith("ask") or done.status == 2:
        assert file.read_bytes() == raw


@given(
    data=st.sampled_from(WHOLE).flatmap(lambda whole: mutated(whole, toml_values() | KNOWN)),
    line=st.sampled_from(LINES),
)
@tries(90, 3000)
def test_a_session_changed_at_some_places(own: Path, data: dict[str, Any], line: str) -> None:
    read_by(own, tomli_w.dumps(data).encode(), line)


@given(
    text=st.sampled_from(TEXTS), at=st.floats(0, 1), length=st.integers(0, 40), put=nasty_text(),
    line=st.sampled_from(LINES),
)  # fmt: skip
@tries(90, 3000)
def test_a_session_with_text_put_anywhere(
    own: Path, text: str, at: float, length: int, put: str, line: str
) -> None:
    read_by(own, spliced(text, at, length, put), line)


@given(data=st.dictionaries(nasty_text(12).map(lambda key: key.encode("utf-8", "replace").decode()),
                            toml_values(), max_size=5), line=st.sampled_from(LINES))  # fmt: skip
@tries(30, 1000)
def test_any_toml(own: Path, data: dict[str, Any], line: str) -> None:
    read_by(own, tomli_w.dumps({"schema": 1, "id": "any", **data}).encode(), line)


@given(raw=st.binary(max_size=300), line=st.sampled_from(LINES))
@tries(30, 1000)
def test_any_bytes(own: Path, raw: bytes, line: str) -> None:
    read_by(own, raw, line)
