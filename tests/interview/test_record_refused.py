"""What the program keeps of a session, refused place by place where it is not what it should be."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

import pytest

from interview.session.recorded import record_faults
from rules.fitting import House

GOOD: dict[str, Any] = {
    "rules_digest": "aa", "consent": True, "expires": date(2026, 5, 4), "read": {"hand": "right"},
    "decided": {"pairing": "a+b"}, "because": {"pairing": {"gap": 2.5}}, "skipped": ["tempo"],
}  # fmt: skip


@pytest.mark.parametrize(
    ("change", "place", "says"),
    [
        ({"rules_digest": 5}, ("rules_digest",), "a text is wanted"),
        ({"consent": "yes"}, ("consent",), "true or false is wanted"),
        ({"expires": datetime(2026, 5, 4)}, ("expires",), "a date is wanted"),
        ({"read": ["hand"]}, ("read",), "short texts"),
        ({"read": {str(n): "x" for n in range(5000)}}, ("read",), "at most"),
        ({"read": {"hand": "x" * 100_000}}, ("read", "hand"), "take this entry out"),
        ({"decided": {"p" * 100_000: "x"}}, ("decided", "p" * 100_000), "take this entry out"),
        ({"because": 3}, ("because",), "tables"),
        ({"because": {"pairing": 3}}, ("because", "pairing"), "tables"),
        ({"because": {"pairing": {"gap": True}}}, ("because", "pairing", "gap"), "numbers"),
        ({"because": {"pairing": {"gap": 10**40}}}, ("because", "pairing", "gap"), "numbers"),
        ({"skipped": "tempo"}, ("skipped",), "a list of questions"),
        ({"skipped": ["tempo", 3]}, ("skipped",), "a list of questions"),
    ],
)
def test_each_fault_is_told_at_its_place(
    house: House, change: dict[str, Any], place: tuple[str, ...], says: str
) -> None:
    (fault,) = record_faults({**GOOD, **change}, house.base.facts)
    assert fault.path == ("record", *place)
    assert says in str(fault)


def test_a_sound_record_has_no_fault_and_what_is_no_table_has_one(house: House) -> None:
    assert list(record_faults(GOOD, house.base.facts)) == []
    assert list(record_faults({}, house.base.facts)) == []
    (fault,) = record_faults([], house.base.facts)
    assert "written [record]" in str(fault)
