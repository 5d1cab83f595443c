"""Pictures as text of record, and at every width there is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.screens.bay.orders import BALLS
from interview.screens.kit.faces import order_list
from interview.views.pictures import FULL, PLAIN, Glyphs, Picture, plain, seven_bit
from interview.views.pictures.bars import bar, halves
from interview.views.pictures.beam import beam_rows
from interview.views.pictures.distances import ladder_rows
from interview.views.pictures.face import face_rows
from interview.views.pictures.flights import flights_rows
from interview.views.pictures.ink import beside, cells, clipped, fitted, padded, row, safe, width_of, wrapped
from interview.views.pictures.ledger import contrast_rows, ledger_rows, near_rows, reason_rows
from interview.views.pictures.parts import parts_rows
from interview.views.pictures.standing import standing_key, standing_rows
from interview.views.pictures.talk import ask_rows, said_rows
from interview.views.pictures.topics import topic_key, topic_list, topic_strip
from interview.views.pictures.whatif import changes_rows, whatif_rows
from tests import golden
from tests.screens.bay_views import (
    BEAM,
    CONTRAST,
    FACE,
    FLIGHTS,
    LADDER,
    PARTS,
    REASONS,
    STANDING,
    TALK,
    WHAT_IF,
)

HERE = Path(__file__).parent / "golden"
Paint = Callable[[int, Glyphs], Picture]
PICTURES: dict[str, Paint] = {
    "topics": lambda w, g: topic_strip(TALK, w, g),
    "questions": lambda w, g: (*topic_key(w, g), *topic_list(TALK, w, g)),
    "said": lambda w, g: said_rows(TALK, w, g),
    "ask": lambda w, g: ask_rows(TALK, w, g),
    "standing": lambda w, g: (*standing_rows(STANDING, w, g), *standing_key(w, g)),
    "parts": lambda w, g: parts_rows(PARTS, w, g, 0),
    "distances": lambda w, g: ladder_rows(LADDER, w, g),
    "flights": lambda w, g: flights_rows(FLIGHTS, w, g),
    "face": lambda w, g: face_rows(FACE, w, g),
    "beam": lambda w, g: beam_rows(BEAM, w, g),
    "ledger": lambda w, g: ledger_rows(REASONS, w, g),
    "reason": lambda w, g: reason_rows(REASONS.lines[0], w),
    "contrast": lambda w, g: contrast_rows(CONTRAST, w, g),
    "nearly": lambda w, g: near_rows(REASONS.near, w, g),
    "whatif": lambda w, g: (*changes_rows(WHAT_IF, w, g), *whatif_rows(WHAT_IF, w, g)),
}


def held(name: str, text: str) -> None:
    """Hold a text to the one of record."""
    golden.held(HERE / f"{name}.txt", text + "\n")


@pytest.mark.parametrize("name", PICTURES)
def test_picture_is_as_recorded(name: str) -> None:
    parts = [
        f"{width} {kind}\n{plain(PICTURES[name](width, glyphs))}"
        for width in (72, 38)
        for kind, glyphs in SETS
    ]
    held(f"picture_{name}", "\n\n".join(parts))


SETS = (("full", FULL), ("seven bits", PLAIN))


@pytest.mark.parametrize("name", PICTURES)
def test_picture_lives_at_any_width(name: str) -> None:
    for width in range(1, 150):
        for _, glyphs in SETS:
            rows = [fitted(one, width) for one in PICTURES[name](width, glyphs)]
            assert {width_of(one) for one in rows} <= {width}


@pytest.mark.parametrize("name", PICTURES)
def test_nothing_runs_over_its_width_where_it_is_usual(name: str) -> None:
    for width in (36, 40, 56, 72, 78, 118):
        for one in PICTURES[name](width, FULL):
            assert width_of(one) <= width, plain([one])


@pytest.mark.parametrize("name", PICTURES)
def test_seven_bits_are_enough(name: str) -> None:
    before = plain(PICTURES[name](72, PLAIN))
    after = seven_bit(before)
    assert after.isascii()
    assert after.count("?") == before.count("?"), "a sign has no likeness in seven bits"


@pytest.mark.parametrize("width", range(34, 120))
def test_two_pairs_side_by_side_can_be_told_apart_at_any_width(width: int) -> None:
    """What differs between them is the last letters of their names, which no side may cut."""
    lines = plain(whatif_rows(WHAT_IF, width, FULL))
    assert "…" not in lines
    assert "22.5°" in lines
    assert "21.5°" in lines


@pytest.mark.parametrize("width", range(30, 120))
def test_every_piece_of_mass_is_told_at_any_width(width: int) -> None:
    lines = plain(parts_rows(PARTS, width, FULL))
    assert [lines.count(piece) for piece in ("5.5 g", "7 g", "6.5 g", "8 g")] == [1, 1, 1, 1]


@pytest.mark.parametrize("width", [38, 56, 78])
def test_every_order_says_what_it_does_to_the_end(width: int) -> None:
    lines = plain(order_list(BALLS)(width, FULL))
    assert all(len(line) <= width for line in lines.splitlines())
    assert "…" not in lines
    flat = " ".join(lines.split())
    assert all(word in flat for one in BALLS for word in one.help.split())


def test_flights_are_to_scale() -> None:
    """As many rows for a yard upwards as columns across, a cell being twice as high as wide."""
    rows = flights_rows(FLIGHTS, 100, PLAIN, high=40)
    ground = next(at for at, one in enumerate(rows) if set(plain([one])) == {"-"})
    across = width_of(rows[ground])
    assert ground * 2 / across == pytest.approx(27.0 / 170.0, rel=0.25)


def test_ladder_tells_each_step() -> None:
    text = plain(ladder_rows(LADDER, 72, FULL))
    for step in ("19 yd", "16 yd", "18 yd"):
        assert step in text


def test_face_marks_stand_where_they_were_struck() -> None:
    """For a right-hander the toe is on the left, looking at the face; a low strike is below the others."""
    for right, view in ((False, FACE), (True, replace(FACE, toe_is_right=True))):
        lines = plain(face_rows(view, 72, FULL)).splitlines()
        places = {at: line.index("×") for at, line in enumerate(lines[1:]) if "×" in line}
        toe, heel, low = (places[at] for at in sorted(places))
        assert (toe > heel) == right, "the upper mark was struck toward the toe, the next toward the heel"
        assert min(toe, heel) < low < max(toe, heel), "the lowest was struck in the middle"
        assert (lines[-1].index("heel") < lines[-1].index("toe")) == right


def test_ledger_is_readable_without_colour() -> None:
    text = plain(ledger_rows(REASONS, 72, FULL))
    assert "▓│" in text
    assert "│█" in text
    assert "−1.50" in text
    assert "= 4-wood 17° + 7-wood 21°: 1.50 points" in text
    assert "Rules that spoke and weigh nothing just now: 1" in text


@given(st.integers(0, 5000), st.integers(0, 5000), st.integers(1, 5000), st.integers(0, 60))
@settings(max_examples=60, deadline=None)
def test_a_bar_fills_its_cells_and_no_more(against: int, speaks_for: int, scale: int, width: int) -> None:
    inks = bar(against, speaks_for, scale, width, FULL)
    assert sum(cells(ink.text) for ink in inks) == width
    assert (halves(against, scale, 10) > 0) == (against > 0)


@given(st.text(max_size=40), st.integers(0, 30))
@settings(max_examples=100, deadline=None)
def test_text_of_any_kind_fits_and_steers_nothing(text: str, width: int) -> None:
    kept = safe(text)
    assert not any(ord(letter) < 32 or 0x7F <= ord(letter) < 0xA0 for letter in kept)
    assert cells(clipped(kept, width)) <= width
    assert cells(padded(kept, width)) == width
    assert width_of(fitted(row(kept, "x"), width)) == width
    assert len(seven_bit(kept)) == cells(kept)
    assert seven_bit(kept).isascii()


@given(st.text(alphabet="abc xyz", max_size=60), st.integers(1, 30))
@settings(max_examples=50, deadline=None)
def test_wrapped_rows_hold_every_word(text: str, width: int) -> None:
    joined = "".join(ink.text for one in wrapped(text, width) for ink in one.inks).replace(" ", "")
    assert joined == text.replace(" ", "")
    assert all(width_of(one) <= width for one in wrapped(text, width))


def test_pictures_stand_beside_each_other() -> None:
    both = beside(((wrapped("one two", 4), 4), (wrapped("three", 6), 6)), "|")
    assert plain(both) == "one |three\ntwo |"
