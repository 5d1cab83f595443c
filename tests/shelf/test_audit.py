"""The audit says what a shop would want to know, one clear sentence each."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from rules.shelf import load_shelf
from rules.shelf.audit import HEAVIEST, LIGHTEST, audit, reach
from rules.shelf.bookings import Bill
from rules.shelf.stock import book


def _spoil(file: Path, part: str, key: str, value: str | None) -> None:
    """Give one key of the part with this id another value, or take it out."""
    text = file.read_text()
    at = text.index(f'id = "{part}"')
    head, rest = text[:at], text[at:]
    line = "" if value is None else f"{key} = {value}\n"
    changed = re.sub(rf"^{key} = (?:\[\n.*?^\]|.*?)\n", lambda _: line, rest, count=1, flags=re.M | re.S)
    assert changed != rest
    file.write_text(head + changed)


def _wrongs(folder: Path) -> list[str]:
    return [str(finding) for finding in audit(load_shelf(folder)) if finding.level == "wrong"]


def _notes(folder: Path) -> list[str]:
    return [str(finding) for finding in audit(load_shelf(folder)) if finding.level == "note"]


CASES = [
    ("heads", "heath-17", "label", '"heath 15.25 SHALLOW"', "has the same label as heath-15"),
    ("heads", "heath-17", "cg_up_face", '"33 mm"', "above the top of its face"),
    ("heads", "heath-17", "insertion", '"2 in"', "no wrong"),
    ("heads", "heath-17", "hosel_length", '"1 1/8 in"', "reach through the sole"),
    ("heads", "heath-17", "mass", '"150 g"', "too light for any target from C5 up; weigh it again"),
    ("heads", "heath-17", "mass", '"300 g"', "too heavy for any target up to D4; weigh it again"),
    ("heads", "heath-17", "bore", '"0.345 in"', "no fairway shaft here has a tip for its bore of 0.345 in"),
    (
        "shafts",
        "even-64",
        "tip",
        '"0.37 in"',
        "no fairway head here has a bore for its parallel tip of 0.370",
    ),
    ("shafts", "even-64", "taper", '"yes"', "a taper tip is never trimmed at the tip"),
    ("shafts", "even-64", "raw_length", '"38 in"', "in head heath-15, the shaft must be"),
    ("shafts", "even-64", "parallel_tip", '"1 1/2 in"', "of parallel tip and the head takes"),
    ("grips", "cord-48", "label", '"Cord 52 standard"', "has the same label as cord-48"),
]


@pytest.mark.parametrize(("file", "part", "key", "value", "said"), CASES)
def test_what_is_wrong_is_said(shop: Path, file: str, part: str, key: str, value: str, said: str) -> None:
    assert _wrongs(shop) == []
    _spoil(shop / f"{file}.toml", part, key, value)
    wrongs = _wrongs(shop)
    if said == "no wrong":
        assert wrongs == []
    else:
        assert any(said in wrong for wrong in wrongs), wrongs


def test_a_port_on_the_wrong_side_is_caught(shop: Path) -> None:
    port = '[{ name = "rear", capacity = "9 g", toeward = "0 mm", upward = "0 mm", backward = "-30 mm" }]'
    _spoil(shop / "heads.toml", "heath-17", "ports", port)
    assert any("port 'rear' sits on the wrong side: backward" in wrong for wrong in _wrongs(shop))


def test_a_port_that_holds_nothing_in_stock_is_caught(shop: Path) -> None:
    file = shop / "pieces.toml"
    file.write_text(
        re.sub(r"count = \d+\nfits = .*hosel", lambda m: m[0].replace("24", "0"), file.read_text())
    )
    assert not any("hosel" in wrong for wrong in _wrongs(shop))
    file.write_text(file.read_text().replace(', "hosel"', ""))
    wrongs = _wrongs(shop)
    assert any(
        re.search(r"head heath-15: port 'hosel' of 6.5 g can hold no piece in stock", w) for w in wrongs
    )
    assert not any("'rear'" in wrong for wrong in wrongs)


def test_a_gaping_ladder_is_wrong_and_a_wide_step_worth_a_note(shop: Path) -> None:
    file = shop / "heads.toml"
    text = file.read_text()
    blocks = text.split("[[head]]\n")
    file.write_text("[[head]]\n".join(b for b in blocks if not re.search(r'loft = "2[0-4](\.\d+)? deg"', b)))
    assert any("right-hand heads: nothing lies between 19.5 deg and 25 deg" in w for w in _wrongs(shop))
    file.write_text(
        "[[head]]\n".join(b for b in blocks if not re.search(r'fairway"\nhand = "right"\nloft = "21', b))
    )
    assert _wrongs(shop) == []
    assert "right-hand fairway heads: nothing lies between 19 deg and 23 deg" in _notes(shop)


def test_a_hand_without_a_pair_is_noted(shop: Path) -> None:
    file = shop / "heads.toml"
    text = file.read_text()
    file.write_text(text[: text.index("# The left-hand")])
    assert any("left-hand heads: none is in stock" in note for note in _notes(shop))


def test_a_face_beyond_the_rules_is_noted(shop: Path) -> None:
    _spoil(shop / "heads.toml", "heath-17", "restitution", "0.85")
    assert any("Equipment Rules, Part 2, 4c" in note for note in _notes(shop))


def test_a_piece_for_a_port_that_no_head_has_is_noted(shop: Path) -> None:
    file = shop / "pieces.toml"
    file.write_text(file.read_text().replace('fits = ["rear"', 'fits = ["crown", "rear"', 1))
    assert "piece 0.5 g: no head here has a port called crown" in _notes(shop)


def test_measures_left_out_are_listed_with_their_range(shop: Path) -> None:
    _spoil(shop / "heads.toml", "heath-17", "cg_depth", None)
    _spoil(shop / "shafts.toml", "even-64", "taper", None)
    file = shop / "shop.toml"
    file.write_text(file.read_text().replace("swing_weight_tolerance = 0.5\n", ""))
    notes = _notes(shop)
    assert "head heath-17: cg_depth was not measured; 20 mm is assumed, between 15 mm and 27 mm" in notes
    assert "shaft even-64: taper was not measured; no is assumed" in notes
    tolerance = (
        "swing_weight_tolerance was not measured; 0.5 points is assumed, between 0.5 points and 1 points"
    )
    assert f"the shop: {tolerance}" in notes


def test_a_bore_left_out_is_worded_in_thousandths(shop: Path) -> None:
    _spoil(shop / "heads.toml", "heath-17", "bore", None)
    bore = "head heath-17: bore was not measured; 0.335 in is assumed, between 0.335 in and 0.350 in"
    assert bore in _notes(shop)


def test_ports_left_out_are_said(shop: Path) -> None:
    file = shop / "heads.toml"
    bare = '[[head]]\nid = "dale-20"\nlabel = "Dale 20"\nkind = "fairway"\nhand = "right"\nloft = "20 deg"\n'
    file.write_text(f"{file.read_text()}\n{bare}")
    assert "head dale-20: no ports are listed; it is taken to have none and to take no mass" in _notes(shop)


def test_more_promised_than_counted_is_wrong(shop: Path) -> None:
    book(shop, "one", [Bill(head="heath-15")] * 3)
    assert _wrongs(shop) == []
    _spoil(shop / "heads.toml", "heath-15", "count", "1")
    assert _wrongs(shop) == ["head heath-15: 3 are booked and 1 counted; order 2 or release a booking"]


def test_wrongs_come_before_notes(shop: Path) -> None:
    _spoil(shop / "heads.toml", "bracken-27-left", "mass", '"320 g"')
    levels = [finding.level for finding in audit(load_shelf(shop))]
    assert levels[0] == "wrong"
    assert levels == sorted(levels, reverse=True)


def test_reach_grows_with_what_the_ports_hold(shop: Path) -> None:
    before = reach(load_shelf(shop).head("heath-17"), load_shelf(shop))
    assert before[0] < LIGHTEST < HEAVIEST < before[1]
    _spoil(shop / "heads.toml", "heath-17", "ports", "[]")
    low, high = reach(load_shelf(shop).head("heath-17"), load_shelf(shop))
    assert low == pytest.approx(before[0])
    assert high < before[1] - 10
