"""The audit trail: whatever keeps a session notes what was decided, and `explain` says what that changes."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from interview.commands.main import main
from interview.conversation import Answered, Conversation
from interview.screens.bay.desk import sit_down
from interview.session import Voice, begin, load, session_text, with_answer
from interview.session.recorded import changed_sections, with_run
from interview.store import Store
from rules.fitting import House, fit
from rules.inquiry.audit import decided

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
RULE = "misses-want-loft"


@pytest.fixture
def changed(tmp_path: Path) -> Path:
    """Rules without the one that made this golfer's pair weaker."""
    (folder := tmp_path / "rules").mkdir()
    (folder / "base.toml").write_text(f'schema = 1\noff = ["{RULE}"]\n', encoding="utf-8")
    return folder


def kept(
    house: House, tmp_path: Path, *, voice: Voice = "fitter", digest: str = "", name: str = "hates-hybrids"
) -> Path:
    """A session as it was kept after a run."""
    session = replace(load(SAMPLES / f"{name}.toml", house.base.facts), voice=voice)
    session = with_run(session, session, fit(house, session.subject))
    record = replace(session.record, rules_digest=digest or session.record.rules_digest)
    (file := tmp_path / "kept.toml").write_text(
        session_text(replace(session, record=record)), encoding="utf-8"
    )
    return file


@pytest.fixture
def explain(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Any:
    """Runs `explain` without its study and returns what comes before the reasons, on one line."""
    monkeypatch.setattr("rules.inquiry.study.study", lambda *_, **__: None)

    def run(*words: object) -> str:
        assert main(["explain", *map(str, words)]) == 0
        said = capsys.readouterr().out
        assert max(map(len, said.splitlines())) <= 80 or said.startswith("{")
        return said if said.startswith("{") else " ".join(said.partition("\nWHY\n")[0].split())

    return run


def test_nothing_changed_says_nothing(house: House, tmp_path: Path, explain: Any) -> None:
    assert explain(kept(house, tmp_path)).startswith("The pair: ")


def test_changed_rules_say_from_what_to_what_and_because_of_which(
    house: House, tmp_path: Path, changed: Path, explain: Any
) -> None:
    """The rules of then are the built-in ones, so that they are at hand."""
    said = explain(kept(house, tmp_path), "--rules", changed)
    assert "The rules have changed since this session was last run" in said
    assert "(fairway-17+fairway-21) -> a 3-wood of 15 degrees" in said
    assert f"because of {RULE} (+1.74)" in said
    assert "playing length of the longer club: 41.75 in -> 42 in" in said
    assert "written down" not in said


def test_without_the_rules_of_then_what_was_noted_tells_and_what_cannot_be_known_is_said(
    house: House, tmp_path: Path, changed: Path, explain: Any
) -> None:
    file = kept(house, tmp_path, digest="0ld")
    said = explain(file, "--rules", changed)
    assert f"for the pair of then {RULE} is no longer among the rules (it gave -1.71)" in said
    assert "What the pair of now would have had then was not written down" in said
    again = explain(kept(house, tmp_path), "--before", changed)
    assert "By the rules alone" in again
    assert f"because of {RULE}" in again
    assert "The rules have changed" not in again


def test_an_old_session_without_its_decisions_says_so_and_takes_the_rules_of_then(
    house: House, tmp_path: Path, changed: Path, explain: Any
) -> None:
    old = tmp_path / "old.toml"
    text = (SAMPLES / "hates-hybrids.toml").read_text(encoding="utf-8").replace('"customer"', '"fitter"')
    old.write_text(f'{text}\n[record]\nrules_digest = "0ld"\n', encoding="utf-8")
    said = explain(old)
    assert "What was decided then was not written down" in said
    assert "--before FOLDER tells it" in said
    said = explain(old, "--before", changed)
    assert "The rules that --before names are not those that ran then" in said
    assert f"because of {RULE}" in said


def test_answers_and_shelf_that_changed_are_told_apart_from_rules(
    house: House, tmp_path: Path, changed: Path, explain: Any
) -> None:
    file = kept(house, tmp_path)
    session = with_answer(load(file, house.base.facts), house.base.facts, "head_feel", "light")
    assert changed_sections(session) == ("answers",)
    file.write_text(session_text(session), encoding="utf-8")
    said = explain(file)
    assert "The session itself has changed since it was last run: answers." in said
    assert "all of this together" in said
    assert "rules have changed" not in said
    said = explain(file, "--rules", changed)
    assert "The session itself has changed since then: answers." in said
    assert "By the rules alone, on the session and the catalogue of now:" in said
    found = json.loads(explain(file, "--rules", changed, "--json"))["audit"]
    assert found["session_changed"] == ["answers"]
    assert found["rules_changed"]
    assert not found["catalogue_changed"]
    assert [one["decision"] for one in found["by_rules"]] == ["pairing"]


def test_a_customer_is_told_in_two_sentences(
    house: House, tmp_path: Path, changed: Path, explain: Any
) -> None:
    said = explain(kept(house, tmp_path, voice="customer"), "--rules", changed)
    assert said.startswith("Our rules changed since we last looked. Then your two clubs were a 4-wood of")
    for jargon in (RULE, "fairway-1", "digest", "catalogue", "->"):
        assert jargon not in said


def test_a_part_is_told_alone_when_it_is_asked_for(
    house: House, tmp_path: Path, changed: Path, explain: Any
) -> None:
    said = explain(kept(house, tmp_path), "longer.length", "--rules", changed)
    assert "41.75 in -> 42 in" in said
    assert "pair: " not in said
    assert "It changes nothing here" in explain(kept(house, tmp_path), "longer.tip", "--rules", changed)


def test_a_trial_that_is_taken_in_notes_what_is_decided_now(
    house: House, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = kept(house, tmp_path, digest="0ld", name="digger-scattered")
    table = next((SAMPLES / "trials").glob("*.csv"))
    assert main(["trial", str(file), "--shots", str(table), "--in-place"]) == 0
    capsys.readouterr()
    session = load(file, house.base.facts)
    assert session.subject.shots
    assert session.record.rules_digest == house.digest
    assert changed_sections(session) == ()
    assert session.record.decided == decided(fit(house, session.subject)).picks


def test_the_bay_notes_what_it_decided_and_of_which_answers(house: House, tmp_path: Path) -> None:
    """Kept before it is worked out, a record is of the answers before; left in peace, of the last one."""
    desk = sit_down(Conversation.of(house), Store(tmp_path).begin(begin("bay")))
    for question, text in (("handicap", "18"), ("driver_speed", "92 mph")):
        job = desk.hear(Answered(question, text, None))
        assert job is not None
        state = desk.run(job)
        assert state is not None
        assert desk.accept(job, state)
    session = load(desk.draft.file, house.base.facts)
    assert changed_sections(session) == ("answers",)
    desk.keep_all()
    session = load(desk.draft.file, house.base.facts)
    assert changed_sections(session) == ()
    assert session.record.decided == decided(fit(house, session.subject)).picks
    written = desk.draft.file.stat().st_mtime_ns
    desk.keep_all()
    assert desk.draft.file.stat().st_mtime_ns == written


def test_opening_an_old_session_writes_nothing(house: House, tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.file("old").write_text('schema = 1\nid = "old"\n', encoding="utf-8")
    desk = sit_down(Conversation.of(house), store.open("old", house.base.facts))
    desk.keep_all()
    assert store.file("old").read_text(encoding="utf-8") == 'schema = 1\nid = "old"\n'
