"""A file that is no session: one sentence that also says what to do."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from interview.session import SessionFaults, load
from rules.engine.document import FileProblem
from rules.engine.language import Fact

Facts = Mapping[str, Fact]


def refused(file: Path, facts: Facts) -> str:
    """Return the sentence with which a file is refused."""
    with pytest.raises(FileProblem) as caught:
        load(file, facts)
    assert "\n" not in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize(
    ("raw", "remedy"),
    [
        (b"", "this file is empty; 'schema = 1', an id"),
        (b"\x7fELF\xff\xfe\x00", "a session is plain text"),
        (b"schema = [", "mend that line"),
        (b"x = " + b"[" * 5000, "an answer is one value"),
        (b"#" * 1_100_000, "name a session file"),
    ],
)
def test_a_file_that_is_no_session_says_what_to_do(
    raw: bytes, remedy: str, tmp_path: Path, facts: Facts
) -> None:
    file = tmp_path / "case.toml"
    file.write_bytes(raw)
    assert remedy in refused(file, facts)


def test_a_folder_or_nothing_in_the_place_of_a_session_says_what_to_do(tmp_path: Path, facts: Facts) -> None:
    assert "name one of the session files in it" in refused(tmp_path, facts)
    assert "'turfpair sessions list' shows" in refused(tmp_path / "none.toml", facts)


def test_a_value_that_two_readers_refuse_is_one_fault(tmp_path: Path, facts: Facts) -> None:
    file = tmp_path / "case.toml"
    file.write_text(f'schema = 1\nid = "case"\nvoice = "fitter"\n[answers]\nhandicap = {10**40}\n')
    with pytest.raises(SessionFaults) as caught:
        load(file, facts)
    assert [fault.message for fault in caught.value.faults] == [
        "this number is far too large to be an answer"
    ]
