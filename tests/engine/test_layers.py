"""Folders and overlays that cannot be used: the whole sentence, and the place."""

from __future__ import annotations

from pathlib import Path

import pytest

from rules.engine import RuleBaseFaults, load
from rules.engine.faults import Fault

RULE = """
[[rule]]
id = "{id}"
decision = "tree"
scope = "tree"
effect = {{ points = 1 }}
because = "Because it is so."
teaches = "Teach it so."
source = {{ kind = "common_practice" }}
"""


def faults(folder: Path, *overlays: Path) -> tuple[Fault, ...]:
    with pytest.raises(RuleBaseFaults) as caught:
        load(folder, overlays)
    return caught.value.faults


def whole(folder: Path, code: str, **data: object) -> None:
    """Hold a folder to one fault of the folder as a whole: no line, no column, nothing inside."""
    (fault,) = faults(folder)
    assert fault == Fault(code, folder, 0, 0, "", "", data)
    assert str(fault) == f"{folder}: {fault.message}"


def test_a_folder_without_a_rule_base_is_told_as_a_whole(tmp_path: Path) -> None:
    whole(tmp_path / "nowhere", "no-folder")
    whole(tmp_path, "no-files")
    (tmp_path / "x.toml").write_text("# nothing here")
    whole(tmp_path, "no-base")
    whole(tmp_path / "x.toml", "not-folder")


def test_a_folder_too_large_is_told_as_a_whole(tmp_path: Path) -> None:
    few, many = tmp_path / "few", tmp_path / "many"
    few.mkdir()
    many.mkdir()
    for i in range(201):
        (many / f"{i}.toml").touch()
    whole(many, "too-many-files", count=201, most=200)
    for i in range(4):
        (few / f"{i}.toml").write_text("#" * 1_000_000)
    assert [fault.code for fault in faults(few)] == ["no-base"]  # four million bytes are still read
    (few / "more.toml").write_text("#")
    whole(few, "too-much", most=4_000_000)


@pytest.mark.parametrize(
    ("error", "why"),
    [(OSError(5, "Input/output error"), "input/output error"), (OSError("It went away"), "it went away")],
)
def test_a_folder_that_fails_says_why(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, error: OSError, why: str
) -> None:
    def fail(_: Path) -> None:
        raise error

    monkeypatch.setattr(Path, "iterdir", fail)
    whole(tmp_path, "closed-folder", why=why)


def overlay(place: Path, text: str = "", base: str = "") -> Path:
    """An overlay of one file, and of a base.toml where it switches something off."""
    place.mkdir()
    (place / "changes.toml").write_text(text or "# nothing")
    if base:
        (place / "base.toml").write_text(base)
    return place


def test_two_overlays_on_one_id_are_each_told_by_file_and_line(garden_folder: Path, tmp_path: Path) -> None:
    one = overlay(tmp_path / "one", "# ours\n" + RULE.format(id="fruit-wanted"))
    two = overlay(tmp_path / "two", "# theirs\n\n" + RULE.format(id="fruit-wanted"))
    off = overlay(tmp_path / "off", base='off = ["blossom-wanted",\n  "fruit-wanted"]')
    assert [str(fault) for fault in faults(garden_folder, one, two)] == [
        f"{two}/changes.toml line 5, column 6: rule 'fruit-wanted', id: two overlays change 'fruit-wanted', "
        "this one and changes.toml line 3; leave it to one of them"
    ]
    assert [str(fault) for fault in faults(garden_folder, one, off)] == [
        f"{off}/base.toml line 2, column 3: off[2]: two overlays change 'fruit-wanted', this one and "
        "changes.toml line 3; leave it to one of them"
    ]


def test_what_is_switched_off_and_is_not_there_is_told_with_the_nearest(
    garden_folder: Path, tmp_path: Path
) -> None:
    off = overlay(tmp_path / "off", base='off = ["blossom-wanted", "friut-wanted", 7]')
    assert [str(fault) for fault in faults(garden_folder, off)] == [
        f"{off}/base.toml line 1, column 26: off[2]: 'friut-wanted' is to be switched off, but no such id is "
        "there; did you mean 'fruit-wanted'?",
        f"{off}/base.toml line 1, column 42: off[3]: '7' is to be switched off, but no such id is there",
    ]


def test_a_set_of_words_cannot_stand_in_for_one_word_and_is_told_word_by_word(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    facts.write_text(facts.read_text().replace('value = "loam"', 'value = ["sand", "clay"]'))
    (fault,) = faults(garden_folder)
    assert (
        fault.message == "the assumption 'usual-soil' is 'clay' and 'sand'; one of clay, loam, sand is wanted"
    )


def test_one_word_cannot_stand_in_for_a_set_of_words(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    wishes = 'fallback = "usual-wish"\nask = { topic = "use", order = 1 }'
    usual = """
[[assumption]]
id = "usual-wish"
value = %s
values = ["shade", "fruit", "blossom"]
text = "Most wish for something to eat."
source = { kind = "assumption", note = "house value" }
"""
    text = facts.read_text().replace('ask = { topic = "use", order = 1 }', wishes)
    facts.write_text(text + usual % '["fruit"]')
    assert load(garden_folder).facts["wishes"].fallback == "usual-wish"
    facts.write_text(text + usual % '"fruit"')
    (fault,) = faults(garden_folder)
    assert fault.message == (
        "the assumption 'usual-wish' is 'fruit'; a list of some of shade, fruit, blossom is wanted"
    )


def test_a_quantity_beyond_all_numbers_is_told_where_it_stands(garden_folder: Path) -> None:
    facts = garden_folder / "facts.toml"
    text = facts.read_text().replace(
        'unit = "m"\nrange = ["1 m", "40 m"]', 'unit = "h"\nrange = ["1 h", "1e306 h"]'
    )
    facts.write_text(text)
    told = [fault for fault in faults(garden_folder) if fault.code == "not-finite"]
    assert [(fault.key, fault.message) for fault in told] == [
        ("range[2]", "a finite number is wanted, not '1e306 h'")
    ]


def test_one_id_alone_is_no_list_of_ids(garden_folder: Path, tmp_path: Path) -> None:
    off = overlay(tmp_path / "off", base='off = "fruit-wanted"')
    assert [str(fault) for fault in faults(garden_folder, off)] == [
        f"{off}/base.toml line 1, column 7: off: a list of ids to switch off is wanted, not 'fruit-wanted'"
    ]


def test_an_overlay_may_name_the_schema_and_only_the_one_there_is(
    garden_folder: Path, tmp_path: Path
) -> None:
    load(garden_folder, [overlay(tmp_path / "same", base="schema = 1")])
    later = overlay(tmp_path / "later", base="schema = 2")
    assert [str(fault) for fault in faults(garden_folder, later)] == [
        f"{later}/base.toml line 1, column 10: schema: schema 1 is wanted, not '2'"
    ]


def test_entries_without_end_are_told_once_and_where_they_are_too_many(garden_folder: Path) -> None:
    (garden_folder / "many.toml").write_text("[[decision]]\n" * 120)
    told = [fault for fault in faults(garden_folder) if fault.code == "too-many"]
    assert [str(fault) for fault in told] == [
        f"{garden_folder}/many.toml line 99, column 1: decision[99]: 120 of them are too many; 100 is "
        "the most that is read"
    ]


def test_an_entry_that_is_no_table_is_told_where_it_stands(garden_folder: Path) -> None:
    (garden_folder / "odd.toml").write_text("rule = [\n  1,\n]\noff = []\n")
    assert [str(fault) for fault in faults(garden_folder)] == [
        f"{garden_folder}/odd.toml line 2, column 3: rule[1]: a table is wanted, not '1'",
        f"{garden_folder}/odd.toml line 4, column 1: off: ids are switched off in base.toml, in one line: "
        'off = ["an-id", "another-id"]',
    ]


def test_an_id_too_long_to_name_its_entry_is_counted_instead(garden_folder: Path) -> None:
    for length, owner in ((99, f"rule '{'x' * 99}'"), (100, "rule[1]")):
        (garden_folder / "long.toml").write_text(RULE.format(id="x" * length))
        (fault,) = faults(garden_folder)
        assert (fault.code, fault.owner, fault.key) == ("bad-id", owner, "id")
