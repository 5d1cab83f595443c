"""What is kept of a run, damaged: refused in one sentence, or read and told without a traceback."""

from __future__ import annotations

import random
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import tomli_w

from interview.session import Session, load, session_text
from interview.session.recorded import with_run
from interview.views.inquiry.audit import audit, data
from interview.views.inquiry.audit_text import write
from interview.views.inquiry.words import Words
from interview.views.outcome_text.page import Page
from rules.fitting import House, fit
from rules.problems import Problem

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
WRONG: tuple[Any, ...] = (
    True, -1, 10**30, 3.5, float("nan"), float("inf"), "", "x", "\x1b[2J", "a+b", "9" * 400, "40 parsecs",
    [], [1], {}, {"a": 1}, {"a": "b"}, {"a": {"b": 1}}, {str(n): "x" for n in range(99)},
)  # fmt: skip


@pytest.fixture(scope="module")
def ran(house: House) -> Session:
    """A session that has been run, with all that is kept of it."""
    session = load(SAMPLES / "his-wood-to-shorten.toml", house.base.facts)
    return with_run(session, session, fit(house, session.subject))


def told(house: House, file: Path) -> str:
    """Read a session and tell its audit trail to everybody; the refusal where it is refused."""
    try:
        session = load(file, house.base.facts)
    except Problem as problem:
        return str(problem)
    found, pages = audit(session, outcome := fit(house, session.subject)), []
    for customer in (True, False):
        write(found, "pairing", page := Page(80), Words(outcome, "imperial", customer=customer))
        assert "\x1b" not in page.text
        pages.append(page.text)
    data(found)
    return "".join(pages)


def test_a_record_comes_back_as_it_was_kept(ran: Session, house: House, tmp_path: Path) -> None:
    (file := tmp_path / "ran.toml").write_text(session_text(ran), encoding="utf-8")
    assert load(file, house.base.facts) == ran
    assert told(house, file) == ""


def test_wrong_values_in_a_record(
    ran: Session, house: House, tmp_path: Path, rounds: Callable[[int, int], int]
) -> None:
    whole = tomllib.loads(session_text(ran))
    record, file = whole["record"], tmp_path / "ran.toml"
    places = [(key,) for key in record] + [
        (key, inner) for key in ("read", "decided", "because") for inner in record[key]
    ]
    tried = [(at, wrong) for at in places for wrong in WRONG][:: rounds(9, 1)]
    refused = 0
    for at, wrong in tried:
        changed = {**record, at[0]: wrong if len(at) == 1 else {**record[at[0]], at[1]: wrong}}
        file.write_text(tomli_w.dumps({**whole, "record": changed}), encoding="utf-8")
        said = told(house, file)
        refused += "ran.toml" in said
    assert len(tried) // 2 < refused < len(tried)


def test_a_record_with_bytes_flipped(
    ran: Session, house: House, tmp_path: Path, chance: random.Random, rounds: Callable[[int, int], int]
) -> None:
    raw, file = session_text(ran).encode(), tmp_path / "ran.toml"
    start = raw.index(b"[record]")
    for _ in range(rounds(25, 2000)):
        torn = bytearray(raw)
        torn[chance.randrange(start, len(raw))] ^= 1 << chance.randrange(8)
        file.write_bytes(torn)
        assert told(house, file).replace("\n", "").isprintable()
