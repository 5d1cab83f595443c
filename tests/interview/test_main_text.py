"""Text that enters or leaves is harmless to a terminal."""

from __future__ import annotations

import unicodedata

from hypothesis import given, settings
from hypothesis import strategies as st

from interview.text import LONGEST_LINE, LONGEST_NOTE, clean, counted, note_text, one_line


def test_colours_titles_and_screen_clearing_vanish_whole() -> None:
    nasty = "a\x1b[31mred\x1b[0m \x1b]0;title\x07b\x9b2Jc\x1bMd"
    assert one_line(nasty) == "ared bcd"


def test_overrides_of_writing_direction_vanish() -> None:
    assert one_line("driver\u202egnol\u2066x\ufeff") == "drivergnolx"


def test_letters_of_every_script_stay() -> None:
    for text in ("Zoë Ōtani", "ক্লাব", "מועדון", "👩‍🦱 5‑wood", "30 °C — 42¼ in"):
        assert one_line(text) == text


def test_a_note_keeps_its_lines_and_loses_its_tail() -> None:
    assert note_text("one \r\n two\x00\rthree ") == "one\n two\nthree"
    long = note_text("x" * 9000)
    assert len(long) == LONGEST_NOTE
    assert long.endswith("…")


def test_one_line_is_cut_with_an_ellipsis() -> None:
    assert one_line("word " * 200).endswith("…")
    assert len(one_line("word " * 200)) <= LONGEST_LINE


def test_one_of_a_thing_takes_no_s() -> None:
    assert [counted(count, "ball") for count in (0, 1, 2)] == ["0 balls", "1 ball", "2 balls"]


@settings(max_examples=200)
@given(st.text(st.characters()))
def test_nothing_that_steers_a_terminal_survives(text: str) -> None:
    for cleaned in (clean(text), one_line(text), note_text(text)):
        assert not [c for c in cleaned if unicodedata.category(c) in ("Cc", "Cs") and c not in "\n\t"]
    assert "\n" not in one_line(text)
    assert one_line(one_line(text)) == one_line(text)
