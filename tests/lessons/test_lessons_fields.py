"""The places of a rule that may be edited."""

from __future__ import annotations

from rules.lessons.fields import _compared


def test_each_end_of_a_comparison_between_two_is_a_place_of_its_own() -> None:
    found = list(_compared([{"assumption": "low"}, "20 deg"], "when.all.0.between", "lie"))
    assert [(one.path, one.kind) for one in found] == [
        ("when.all.0.between.0.assumption", "words"), ("when.all.0.between.1", "threshold"),
    ]  # fmt: skip
    assert list(_compared(True, "when.all.0.known", "lie")) == []
