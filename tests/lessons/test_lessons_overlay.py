"""Edits of a copy: checked by the loader, tried, saved elsewhere; what came with the program stays."""

from __future__ import annotations

from pathlib import Path

import pytest

from rules.house import KNOWLEDGE, House, load_house
from rules.inquiry.replay import replayed
from rules.lessons.case import Case, LessonProblem
from rules.lessons.overlay import (
    HEADING,
    CannotSave,
    begin,
    check,
    edit,
    editable,
    effect_everywhere,
    effect_here,
    revert,
    save,
    switch_off,
)

RULE = "thin-strikes-shorten"


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.toml"))}


def test_a_copy_written_back_unchanged_means_the_same(house: House) -> None:
    """Every place of a third of all rules and assumptions is written as it stands."""
    overlay = begin(house)
    for id in [*house.base.rules, *house.base.assumptions][::3]:
        for field in editable(overlay, id):
            overlay = edit(overlay, id, field.path, field.text)
    found = check(overlay)
    assert found.problems == ()
    assert found.house is not None
    assert found.house.base.digest == house.base.digest


def test_an_edit_is_tried_on_one_golfer_and_on_all(house: House, cases: tuple[Case, ...], thin: Case) -> None:
    overlay = edit(begin(house), RULE, "effect.adjust", "-1 in")
    edited = check(overlay).house
    assert edited is not None
    moved = {one.decision: (one.before, one.after) for one in effect_here(thin, edited).decisions}
    assert moved["longer.length"] == (41_250, 40_500)
    told: list[tuple[int, int]] = []
    tally = effect_everywhere(cases, edited, lambda done, of: told.append((done, of)))
    assert told[-1] == (len(cases), len(cases))
    singly = [replayed(case.house, edited, case.id, case.subject, case.subject) for case in cases]
    assert sorted(one.id for one in tally.changed) == sorted(one.id for one in singly if one.changed)
    assert thin.id in [one.id for one in tally.changed]


def test_a_saved_copy_is_an_overlay_for_any_command(house: House, tmp_path: Path) -> None:
    before = contents(KNOWLEDGE)
    overlay = switch_off(edit(begin(house), RULE, "effect.adjust", "-1 in"), "new-clubs-cost")
    files = save(overlay, tmp_path / "mine")
    assert [file.name for file in files] == ["edits.toml", "base.toml"]
    assert all(file.read_text(encoding="utf-8").startswith(HEADING) for file in files)
    edited = check(overlay).house
    again = load_house(tmp_path / "mine")
    assert edited is not None
    assert again.base.digest == edited.base.digest != house.base.digest
    assert contents(KNOWLEDGE) == before
    assert "new-clubs-cost" not in again.base.rules
    # Going on from there keeps what was changed, and what is taken back goes from the folder too.
    further = begin(again, tmp_path / "mine")
    assert set(further.rows) == {RULE}
    assert further.off == {"new-clubs-cost"}
    assert [file.name for file in save(revert(further, "new-clubs-cost"), tmp_path / "mine")] == [
        "edits.toml"
    ]
    assert sorted(contents(tmp_path / "mine")) == ["edits.toml"]


def test_what_does_not_load_is_told_in_one_sentence_and_not_saved(house: House, tmp_path: Path) -> None:
    faults = {
        "effect.adjust": ("-0.5 kg", "a length is wanted"),
        "when.all.1.one_of": ("thinn", "did you mean 'thin'?"),
        "because": ("So says {nobody}.", "is no fact that this rule may read"),
    }
    for path, (text, wanted) in faults.items():
        overlay = edit(begin(house), RULE, path, text)
        found = check(overlay)
        assert found.house is None
        assert len(found.problems) == 1
        assert wanted in found.problems[0]
        assert "/tmp" not in found.problems[0]
        with pytest.raises(CannotSave, match="what does not load is not saved"):
            save(overlay, tmp_path / "mine")
    assert not (tmp_path / "mine").exists()


def test_the_rules_that_came_with_the_program_are_never_written(house: House, tmp_path: Path) -> None:
    overlay, before = edit(begin(house), RULE, "effect.adjust", "-1 in"), contents(KNOWLEDGE)
    link = tmp_path / "link"
    link.symlink_to(KNOWLEDGE, target_is_directory=True)
    for folder in (KNOWLEDGE, KNOWLEDGE / "mine", KNOWLEDGE.parent, KNOWLEDGE.parent.parent, link):
        with pytest.raises(CannotSave, match="stay as they are"):
            save(overlay, folder)
    assert contents(KNOWLEDGE) == before


def test_nothing_else_is_written_over(house: House, tmp_path: Path) -> None:
    overlay = edit(begin(house), RULE, "effect.adjust", "-1 in")
    (tmp_path / "edits.toml").write_text("# a shop's own\n", encoding="utf-8")
    with pytest.raises(CannotSave, match="holds other things"):
        save(overlay, tmp_path)
    with pytest.raises(CannotSave, match="is a file"):
        save(overlay, tmp_path / "edits.toml")
    with pytest.raises(CannotSave, match="nothing has been edited"):
        save(begin(house), tmp_path / "new")


def test_numbers_are_written_as_people_write_them(house: House) -> None:
    texts = [field.text for field in editable(begin(house), "shorter-club-must-get-up")]
    assert "20 %" in texts
    assert not any("e+" in text for text in texts[:-2])


def test_an_assumption_is_edited_like_a_rule(house: House) -> None:
    overlay = edit(begin(house), "airborne-enough", "value", "5")
    found = check(overlay).house
    assert found is not None
    assert found.base.assumptions["airborne-enough"].value == 5
    assert check(revert(overlay, "airborne-enough")).house is not None


def test_places_and_ids_that_are_not_there_are_told(house: House) -> None:
    overlay = begin(house)
    for job in (
        lambda: editable(overlay, "nobody"),
        lambda: edit(overlay, RULE, "id", "x"),
        lambda: edit(overlay, RULE, "effect.points", "1"),
        lambda: switch_off(overlay, "airborne-enough"),
    ):
        with pytest.raises(LessonProblem):
            job()
