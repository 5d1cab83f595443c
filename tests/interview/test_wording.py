"""The wording: complete, in three voices, mirrored, short, and free of the trade's jargon for customers."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import interview
from interview.wording import words as words_module
from interview.wording.words import Voice, WordingProblem, Words, fill, words

if TYPE_CHECKING:
    from rules.engine.language import Fact

    Facts = Mapping[str, Fact]

JARGON = ("dispersion", "launch", "smash", "swing weight", "attack angle", "descent", "apex", "carry", "lie ")
TESTING = ("wrong answer", "correct", "mistake", "should know", "must", "poor", "bad shot", "weak")
VOICES: tuple[Voice, ...] = ("customer", "fitter", "trainer")


def questions(facts: Facts) -> list[Fact]:
    return [fact for fact in facts.values() if fact.ask is not None]


def missing(wording: Words, facts: Facts) -> list[str]:
    """What a rule base asks and the wording does not word, as keys."""
    lacking = []
    for fact in questions(facts):
        row = wording.questions.get(fact.id, {})
        assert fact.ask is not None
        lacking += [f"question.{fact.id}"] if not row else []
        lacking += [f"{fact.id}.choices"] if row and set(row.get("choices", {})) != set(fact.values) else []
        lacking += [f"{fact.id}.hint"] if row and fact.kind != "choice" and not row.get("hint") else []
        lacking += [f"topic.{fact.ask.topic}"] if row and fact.ask.topic not in wording.topics else []
    return lacking


def file_of(topic: str, facts: Facts) -> str:
    """The file that words most questions of a topic."""
    ids = [f"[question.{fact.id}]" for fact in questions(facts) if fact.ask and fact.ask.topic == topic]
    files = sorted(Path(words_module.__file__).parent.glob("en*.toml"))
    most = max(files, key=lambda file: sum(id in file.read_text(encoding="utf-8") for id in ids))
    return f"interview/wording/{most.name}"


def test_every_question_is_worded_in_every_voice(facts: Facts) -> None:
    lacking = missing(words(), facts)
    by_id = {fact.id: fact.ask.topic for fact in questions(facts) if fact.ask}
    places = {key: file_of(by_id[id], facts) for key in lacking for id in key.split(".") if id in by_id}
    assert lacking == [], f"word them where their topics are worded: {places}"
    assert set(words().questions) == {fact.id for fact in questions(facts)}
    for fact in questions(facts):
        texts = {words().asked(fact, voice).text for voice in VOICES[:2]}
        assert len(texts) == 2
        asked = words().asked(fact, "trainer")
        assert asked.teaches != asked.why != asked.text


def test_what_a_rule_base_adds_is_asked_by_its_title(facts: Facts) -> None:
    bare = Words({}, {}, {}, {})
    asked = bare.asked(facts["turf_mark"], "customer")
    assert asked.text == "Turf mark?"
    assert [c.text for c in asked.choices] == ["none", "brush", "bruise", "divot"]
    assert bare.topic("new_topic") == "New topic"
    lacking = missing(bare, {"turf_mark": facts["turf_mark"]})
    assert lacking == ["question.turf_mark"]


def test_customers_read_plain_words_and_are_never_tested(facts: Facts) -> None:
    for fact in questions(facts):
        asked = words().asked(fact, "customer")
        said = " ".join((asked.text, asked.hint, asked.why, *(c.text for c in asked.choices))).lower()
        barred = [word for word in (*JARGON, *TESTING) if word in said]
        assert barred == [], f"'{fact.id}': a customer would read jargon or a test's words"
        assert fact.id == fact.id.lower()
        assert "{" not in said


def test_texts_are_short_enough_for_a_small_screen(facts: Facts) -> None:
    for fact in questions(facts):
        for voice in ("customer", "fitter"):
            asked = words().asked(fact, voice)
            assert len(asked.text) <= (100 if voice == "customer" else 85), fact.id
            assert max((len(c.text) for c in asked.choices), default=0) <= 32, fact.id
            assert len(asked.hint) <= 100, fact.id
            assert max(len(asked.why), len(asked.teaches)) <= 120, fact.id


def test_customers_questions_end_as_questions(facts: Facts) -> None:
    for fact in questions(facts):
        assert words().asked(fact, "customer").text.rstrip().endswith((".", "?"))
        assert "?" in words().asked(fact, "customer").text


def test_left_handers_get_mirrored_words_and_plain_sides_stay(facts: Facts) -> None:
    right, left = (words().asked(facts["curve"], "customer", hand) for hand in ("right", "left"))
    assert right.label("hook") == "A lot, to the left"
    assert left.label("hook") == "A lot, to the right"
    assert left.label("slice") == "A lot, to the left"
    assert right.label("straight") == left.label("straight")
    for question in ("miss", "hand", "contact", "sole_marks"):
        assert words().asked(facts[question], "customer", "left") == words().asked(
            facts[question], "customer", "right"
        )
    assert words().asked(facts["miss"], "customer", "left").label("left") == "Left"


def test_a_bare_number_s_unit_is_in_the_hint(facts: Facts) -> None:
    for fact in questions(facts):
        if fact.kind == "number" and fact.unit not in ("", "strokes"):
            assert f"In {words().unit(fact.unit)}," in words().asked(fact, "customer").hint, fact.id


def test_braces_hold_names_and_nothing_else() -> None:
    assert fill("{a} {0} {a.b} {a!r} {}", {"a": "x{b}"}) == "x{b} {0} {a.b} {a!r} {}"
    with pytest.raises(WordingProblem, match="nothing was given for"):
        fill("{missing}", {})


def test_a_phrase_that_is_not_there_is_named() -> None:
    with pytest.raises(WordingProblem, match=r"ask\.nonsense"):
        words().say("ask.nonsense")
    with pytest.raises(WordingProblem, match="ask: there is no such phrase"):
        words().say("ask")


def test_every_phrase_that_the_program_says_is_there_and_every_one_there_is_said() -> None:
    home = Path(interview.__file__).parent
    files = [*(home / "commands" / "ask").glob("*.py"), *(home / "conversation").glob("*.py")]
    program = "\n".join(file.read_text(encoding="utf-8") for file in files)
    known = set(_keys(words().phrases, ""))
    said = set(re.findall(r"\"((?:ask|interview)\.[a-z_]+(?:\.[a-z_]+)?)\"", program))
    starts = tuple(set(re.findall(r"f\"((?:ask|interview)\.[a-z_.]*)\{", program)))
    assert {key for key in said - known if not key.startswith("interview.views")} == set()
    ours = {key for key in known if key.startswith(("ask.", "interview."))}
    assert {key for key in ours - said if not key.startswith(starts)} == set()


def _keys(table: Mapping[str, object], prefix: str) -> list[str]:
    found: list[str] = []
    for key, value in table.items():
        if isinstance(value, Mapping) and not set(value) <= set(VOICES):
            found += _keys(value, f"{prefix}{key}.")
        else:
            found.append(prefix + key)
    return found


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ('[question.x]\ncustomer = "a?"\nfitter = "b?"\nwhy = "c"', "the sentence 'trainer' is missing"),
        (
            '[question.x]\ncustomer = "a {sky}?"\nfitter = "b?"\nwhy = "c"\ntrainer = "d"',
            "{sky} cannot stand",
        ),
        (
            '[question.x]\ncustomer = "a?"\nfitter = "b?"\nwhy = "c"\ntrainer = "d"\nhnt = "e"',
            "'hnt' is not known",
        ),
        (
            '[question.x]\ncustomer = "a?"\nfitter = "b?"\nwhy = "c"\ntrainer = "d"\n'
            'choices = { y = ["one"] }',
            "two labels",
        ),
        ('[questions.x]\ncustomer = "a?"', "this section of en.toml is not known"),
    ],
)
def test_wording_is_read_strictly(
    text: str, wanted: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "en.toml").write_text(text, encoding="utf-8")
    monkeypatch.setattr(words_module, "__file__", str(tmp_path / "words.py"))
    with pytest.raises(WordingProblem, match=wanted.replace("{", r"\{")):
        words.__wrapped__("en")


def test_two_files_cannot_word_one_thing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("en.toml", "en_more.toml"):
        (tmp_path / name).write_text('[unit]\nmph = "miles"\n', encoding="utf-8")
    monkeypatch.setattr(words_module, "__file__", str(tmp_path / "words.py"))
    with pytest.raises(WordingProblem, match=r"unit\.mph.*words it a second time"):
        words.__wrapped__("en")
