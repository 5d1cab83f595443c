"""Whatever is typed to the interview, the lesson and their lines: answered in words, kept as it reads."""

from __future__ import annotations

import json
import shutil
import tomllib
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import example, given, reject
from hypothesis import strategies as st

from interview.commands.drill.lesson import JOBS
from interview.conversation import Conversation
from interview.conversation.events import (
    Answered,
    Event,
    NotKnown,
    PassedOver,
    WentBack,
    WentOn,
    WentTo,
    Withdrew,
)
from interview.screens.bay.opening import key, recall
from interview.session import begin, session_of, session_text, with_club, with_details, with_override
from interview.views.kiosk.frame import heard
from interview.wording.words import words
from rules.facts.answers import AnswerProblem
from rules.fitting import House, fit
from rules.house import load_house
from rules.problems import Problem
from tests.proof.fuzz_kit import (
    SAMPLES,
    STEERS,
    clean_bytes,
    mutated,
    nasty_text,
    place_of_its_own,
    polite,
    ran,
    toml_values,
    tries,
)

HOUSE = load_house()
FACTS = HOUSE.base.facts
QUESTIONS = sorted(id for id, fact in FACTS.items() if fact.ask is not None)
WORDS = sorted({word for id in QUESTIONS for word in FACTS[id].values})
SPOKEN = st.one_of(
    nasty_text(20), st.sampled_from(WORDS),
    st.sampled_from(["85 mph", "about 92 measured", "18", "+3", "-8", "5'11\"", "1 m 80", "3,5", "½ in"]),
    st.tuples(st.sampled_from(WORDS), st.integers(-5, 400)).map(lambda pair: f"{pair[0]} {pair[1]}"),
    st.lists(st.sampled_from(WORDS), max_size=4).map(" and ".join),
)  # fmt: skip
"""What may be said to a question."""
TYPED = st.one_of(
    SPOKEN, st.tuples(st.sampled_from(QUESTIONS), SPOKEN).map(" = ".join),
    st.sampled_from([
        "why", "back", "list", "skip", "help", "go on", "clear hand", "go miss", "go to nowhere", "balls",
        "keep in kept", "keep in \x1b[2J", "keep a/b/c", f"keep {'x' * 300}", "why pain", "no idea", "done",
    ]),
)  # fmt: skip
LESSON = st.one_of(
    nasty_text(12), st.sampled_from(sorted(JOBS)),
    st.tuples(st.sampled_from(sorted(JOBS)), nasty_text(12)).map(" ".join),
    st.sampled_from([
        "case ²", "case 2", "case --5", "predict longer.length", "predict all", "41 1/4 in", "1", "²",
        "handicap, miss", "step pairing", "facts pairing", "exercise claim", "exercise reading", "heavy",
        "D0", "change handicap=4", "flip driver_speed", "map tempo", "effect", "off nothing", "undo",
        "edit thin-strikes-shorten effect.adjust = -1 in", "save copy", "save /dev/null", "trainee Ann",
        "trainee ²", "class", "summary", "again", "again ²",
    ]),
)  # fmt: skip


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    with place_of_its_own(tmp_path_factory.mktemp("typed")) as folder:
        yield folder


@pytest.fixture(scope="module")
def conversation(house: House) -> Conversation:
    """The interview without the look for steadiness, so that a step takes a moment."""
    return Conversation(house.base, lambda subject: fit(house, subject), words())


def tame(sentence: object) -> None:
    """Hold a sentence to one line of bounded length in which nothing steers."""
    text = str(sentence)
    assert STEERS.search(text) is None, text
    assert len(text.splitlines()) == 1
    assert len(text) < 1000


def events() -> st.SearchStrategy[Event]:
    """Everything that may happen in an interview."""
    question = st.sampled_from(QUESTIONS)
    return st.one_of(
        st.builds(Answered, question, SPOKEN), st.builds(Answered, question, SPOKEN),
        st.builds(NotKnown, question),
        st.builds(PassedOver, question), st.builds(Withdrew, question), st.builds(WentTo, question),
        st.builds(WentBack), st.builds(WentOn),
    )  # fmt: skip


@given(question=st.sampled_from(QUESTIONS), said=SPOKEN)
@tries(150, 10_000)
def test_an_answer_is_kept_as_it_reads_or_refused_in_a_sentence(
    conversation: Conversation, question: str, said: str
) -> None:
    state = STARTED.setdefault("state", conversation.start(begin("typed")))
    quick = Conversation(conversation.base, lambda _: state.outcome, conversation.wording)
    after = quick.step(state, Answered(question, said))
    if after.refusal is not None:
        tame(after.refusal.sentence)
        assert after.session == state.session
    text = session_text(after.session)
    clean_bytes(text.encode())
    assert session_text(session_of(tomllib.loads(text), FACTS)) == text


STARTED: dict[str, Any] = {}
"""The beginning of an interview, gone through once."""


@given(happened=st.lists(events(), min_size=1, max_size=8))
@tries(12, 600)
def test_an_interview_of_any_events(conversation: Conversation, happened: list[Event]) -> None:
    state = conversation.start(begin("typed"))
    for event in happened:
        state = conversation.step(state, event)
        if state.refusal is not None:
            tame(state.refusal.sentence)
        assert set(state.session.subject.answers) <= set(QUESTIONS)
    text = session_text(state.session)
    assert session_text(session_of(tomllib.loads(text), FACTS)) == text


@given(name=nasty_text(), reason=nasty_text(), note=nasty_text(200))
@tries(80, 5000)
def test_names_reasons_and_notes_are_kept_as_they_read(name: str, reason: str, note: str) -> None:
    club = {"name": name, "kind": "fairway", "loft": "15 deg"}
    try:
        session = with_details(with_club(begin("typed"), FACTS, "owned", club), note=note)
        session = with_override(session, FACTS, "longer.length", "42 in", reason)
    except (Problem, AnswerProblem) as problem:
        tame(problem)
        reject()
    text = session_text(session)
    clean_bytes(text.encode())
    assert session_text(session_of(tomllib.loads(text), FACTS)) == text


@given(lines=st.lists(TYPED, max_size=7), voice=st.sampled_from(["fitter", "customer"]))
@tries(12, 800)
def test_lines_typed_to_ask(own: Path, lines: list[str], voice: str) -> None:
    shutil.rmtree(own / "kept", ignore_errors=True)
    text = "\n".join(line.replace("\n", " ") for line in lines)
    polite(ran(["ask", "--sessions", "kept", "--voice", voice], text.encode("utf-8", "replace"), 8.0), 8.0)
    for file in own.rglob("*.toml"):
        clean_bytes(file.read_bytes())
        file.unlink()


@example(lines=["edit nothing", "edit hand", "edit {0}{id}", "off {0}", "map {0}", "step {0}"], keeps=False)
@given(lines=st.lists(LESSON, max_size=8), keeps=st.booleans())
@tries(15, 800)
def test_lines_typed_to_a_lesson(own: Path, lines: list[str], keeps: bool) -> None:
    text = "\n".join(line.replace("\n", " ") for line in lines)
    some = ["--class", "class", "--trainee", "Ann"] if keeps else []
    done = ran(
        ["trainer", "--plain", str(SAMPLES[3]), "--seed", "3", *some], text.encode("utf-8", "replace"), 20.0
    )
    polite(done, 20.0)
    shutil.rmtree(own / "class", ignore_errors=True)
    shutil.rmtree(own / "copy", ignore_errors=True)


@given(
    line=st.one_of(
        nasty_text(40),
        st.sampled_from(["[" * 4000, '{"size":' + "9" * 3000 + "}", '{"key":"' + "x" * 5000 + '"}']),
        st.dictionaries(st.sampled_from(["key", "press", "page", "size", "touched", "x"]), toml_values()).map(
            lambda said: json.dumps(said, default=str)
        ),
    )
)  # fmt: skip
@tries(150, 10_000)
def test_what_a_browser_may_send(line: str) -> None:
    said = heard(line)
    if said is not None and said.size is not None:
        assert all(1 <= one < 1000 for one in said.size)
    assert said is None or len(said.key) < 20


@pytest.mark.parametrize(
    "text", ["", "[" * 100_000, "[]", "{}", '{"key": 3}', '{"key": null, "ask": []}', "\x00", "9" * 5000]
)
def test_a_damaged_memory_of_the_opening_is_forgotten(tmp_path: Path, text: str) -> None:
    (tmp_path / "opening.json").write_text(text)
    assert recall(tmp_path) is None
    (tmp_path / "opening.json").write_text(text.replace("3", f'"{key()}"').replace("null", f'"{key()}"'))
    assert recall(tmp_path) is None


ROLL = {
    "schema": 1,
    "trainee": [{"id": "t1", "name": "Ann"}, {"id": "t2", "name": "Bo"}],
    "attempt": [
        {
            "trainee": "t1", "at": datetime(2026, 5, 4, 9, 30, tzinfo=UTC), "item": "claim:sweeper:3",
            "kind": "claim", "score": 0.5, "verdict": "nearly",
        },
    ],
}  # fmt: skip


@given(data=mutated(ROLL, toml_values() | st.sampled_from(["t1", "t²", "claim:--5", 0.5, "Ann"])))
@tries(40, 3000)
def test_a_class_changed_at_some_places(own: Path, data: dict[str, Any]) -> None:
    shutil.rmtree(own / "class", ignore_errors=True)
    (own / "class").mkdir()
    raw = tomli_w.dumps(data).encode("utf-8", "replace")
    (own / "class" / "class.toml").write_bytes(raw)
    polite(
        ran(
            ["trainer", "--plain", str(SAMPLES[3]), "--class", "class"],
            b"class\ntrainee Ann\nagain\nsummary\n",
        )
    )
    for file in (own / "class").iterdir():
        if file.name != "class.toml":
            clean_bytes(file.read_bytes().replace(b"\r\n", b"\n"))
