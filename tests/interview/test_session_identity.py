"""Ids fit to be file names anywhere, and ticket codes that survive being read aloud."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.session import BadId, checked_id, is_id, new_id, read_ticket, ticket_code
from interview.session.identity import numbered_id

IDS = st.from_regex(r"[a-z0-9]{1,8}(-[a-z0-9]{1,8}){0,4}", fullmatch=True).filter(is_id)


@pytest.mark.parametrize("id", ["a", "2026-05-04-0930-k7m4q2", "x" * 64, "com-1", "null"])
def test_plain_ids_are_taken(id: str) -> None:
    assert checked_id(id) == id


@pytest.mark.parametrize(
    "id",
    ["", "A", "a_b", "-a", "a-", "a--b", "x" * 65, "con", "nul", "com1", "../a", "a.toml", "ä", "a\n", "a b"],
)
def test_ids_that_some_system_cannot_keep_are_refused(id: str) -> None:
    with pytest.raises(BadId, match="small letters, digits"):
        checked_id(id)


def test_a_new_id_tells_the_day_and_differs_each_time() -> None:
    now = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
    assert new_id(now, "abc123") == "2026-05-04-0930-abc123"
    assert len({new_id(now) for _ in range(50)}) == 50


@settings(max_examples=100)
@given(IDS, st.integers(2, 9999))
def test_a_numbered_id_is_an_id(id: str, number: int) -> None:
    assert is_id(numbered_id(id, number))
    assert numbered_id("x" * 64, number).endswith(f"-{number}")


def test_a_ticket_follows_from_the_id_by_base_32_of_its_hash() -> None:
    # Crockford's base 32 (D. Crockford, "Base 32", 2002): 0-9 then a-z without i, l, o, u
    digits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
    number = int(hashlib.sha256(b"sweeper").hexdigest()[:10], 16)
    want = ""
    for _ in range(8):
        number, digit = divmod(number, 32)
        want = digits[digit] + want
    assert ticket_code("sweeper") == f"{want[:4]}-{want[4:]}"


@settings(max_examples=100)
@given(IDS)
def test_a_ticket_is_read_however_it_is_typed(id: str) -> None:
    code = ticket_code(id)
    sloppy = code.lower().replace("-", " ").replace("0", "o").replace("1", "l")
    assert read_ticket(code) == read_ticket(sloppy) == read_ticket(code.replace("-", "")) == code


@pytest.mark.parametrize("text", ["", "K7M4", "K7M4-Q2XDD", "K7M4-Q2X!", "UUUU-UUUU"])
def test_what_cannot_be_a_ticket_is_none(text: str) -> None:
    assert read_ticket(text) is None
