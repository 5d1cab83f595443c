"""The interview line by line: every answer kept at once, none taken for another question."""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from interview.commands.ask.lines import Lines
from interview.commands.ask.talk import LineTalk
from interview.conversation import Conversation
from interview.session import Voice, begin, load, with_details
from interview.store import Store
from interview.wording.words import words
from tests import golden

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Fact
    from rules.facts.subject import Subject
    from rules.fitting import Outcome

    Road = Callable[[Subject], Outcome]

Talk = Callable[..., tuple[LineTalk, str, str]]
GOLDEN = Path(__file__).parent / "golden_ask_customer.txt"


@pytest.fixture
def talk(base: RuleBase, plain_road: Road, tmp_path: Path) -> Talk:
    """Return a function that holds an interview over some lines: the talk, how it ended, what it printed."""

    def hold(*typed: str, voice: Voice = "fitter", id: str = "x") -> tuple[LineTalk, str, str]:
        out = io.StringIO()
        store = Store(tmp_path)
        known = id in store.ids()
        session = with_details(begin(id), voice=voice)
        draft = store.open(id, base.facts) if known else store.begin(session)
        lines = Lines(io.StringIO("".join(f"{line}\n" for line in typed)), out)
        line_talk = LineTalk(Conversation(base, plain_road, words()), draft, lines, "imperial")
        return line_talk, line_talk.run(), out.getvalue()

    return hold


def test_every_answer_is_in_the_file_before_the_next_question(
    talk: Talk, facts: Mapping[str, Fact], monkeypatch: pytest.MonkeyPatch
) -> None:
    kept: list[int] = []
    ask = Lines.ask

    def looking(lines: Lines) -> str | None:
        file = current[0].draft.file if current else None
        kept.append(len(load(file, facts).answered) if file and file.exists() else 0)
        return ask(lines)

    current: list[LineTalk] = []
    run = LineTalk.run

    def watched(line_talk: LineTalk) -> str:
        current.append(line_talk)
        return run(line_talk)

    monkeypatch.setattr(Lines, "ask", looking)
    monkeypatch.setattr(LineTalk, "run", watched)
    talk("left", "dk", "95")
    assert kept == [0, 1, 2, 3]


def test_a_wrong_answer_asks_again_and_later_lines_do_not_slip_by(talk: Talk) -> None:
    held, _, printed = talk("left", "eighteen", "12")
    assert "handicap: 'eighteen' does not start with a number." in printed
    assert held.state.session.written["answers"] == {"hand": "left", "handicap": 12}


def test_an_empty_line_answers_nothing(talk: Talk) -> None:
    held, _, printed = talk("", "", "left")
    assert printed.count("An answer is wanted") == 2
    assert held.state.session.answered == ("hand",)


def test_any_question_is_answered_by_name_while_another_is_up(talk: Talk) -> None:
    held, _, printed = talk("wind = windy", "usual score: 101", "bogus = 3", "left")
    assert held.state.session.written["answers"] == {"wind": "windy", "typical_score": 101, "hand": "left"}
    assert printed.count("Noted.\nHand?") == 2
    assert "hand: 'bogus = 3' is neither right nor left." in printed


def test_why_is_told_in_the_words_of_the_voice(talk: Talk) -> None:
    assert "It tells us which heads to look at" in talk("?", voice="customer", id="c")[2]
    assert "turned into shape for the hand" in talk("?", "why wind", id="f")[2].replace("\n", " ")


def test_back_list_go_and_clear_steer(talk: Talk) -> None:
    held, _, printed = talk(
        "left", "12", "back", "back", "-", "list", "go turf", "clear handicap", "go nowhere"
    )
    assert "So far: left. Type '-' to leave it so." in printed
    assert "    handicap: 12" in printed
    assert "    wind: open, but it no longer matters" in printed
    assert "Turf: firm, average, soft?" in printed
    assert "'nowhere' is not a question" in printed
    assert held.state.session.answered == ("hand",)


def test_back_at_the_beginning_says_so(talk: Talk) -> None:
    assert "There is nothing there to go to." in talk("back")[2]


def test_help_names_every_word_that_steers(talk: Talk) -> None:
    printed = talk("help")[2]
    for word in ("dk", "-", "?", "back", "list", "go QUESTION", "clear", "done", "quit"):
        assert f"\n{word} " in printed


@pytest.mark.parametrize(("last", "ending"), [("done", "done"), ("quit", "quit"), (None, "done")])
def test_it_ends_by_word_or_by_the_end_of_input(last: str | None, ending: str, talk: Talk) -> None:
    typed = ["left", *([last] if last else [])]
    held, ended, _ = talk(*typed)
    assert ended == ending
    assert held.draft.file.exists()


def test_pain_stops_the_talk_and_says_why(talk: Talk) -> None:
    held, ended, printed = talk("pain = yes", "")
    assert "Stop: swinging hurts." in printed
    assert "licensed professional comes first" in printed
    assert (ended, held.state.stage) == ("done", "halted")
    held, _, _ = talk("pain = yes", "on", "left", id="went-on")
    assert held.state.session.answered == ("pain", "hand")


def test_what_is_passed_over_is_offered_at_the_end(talk: Talk, facts: Mapping[str, Fact]) -> None:
    asked = sum(fact.ask is not None for fact in facts.values())
    held, ended, printed = talk("-", *["dk"] * (asked - 4), "on", "left", "on", "dk", "dk", "dk", "done")
    assert "Passed over and still open: 1." in printed
    assert "No unanswered question matters any more." in printed
    assert "Cannot change the pick; answer it only if you like." in printed
    assert "No question is open." in printed
    assert (ended, held.state.stage) == ("done", "done")


def test_an_interview_is_taken_up_where_it_was_left(talk: Talk) -> None:
    talk("left", "12", "quit")
    _, _, printed = talk("list")
    assert "2 answered" in printed
    assert "    hand: left" in printed
    assert "Hand?" not in printed


def test_a_copy_made_elsewhere_meanwhile_is_said(talk: Talk, tmp_path: Path) -> None:
    held, _, _ = talk("left")
    (tmp_path / "x.toml").write_text('schema = 1\nid = "x"\nnote = "somebody else"\n')
    held.lines = Lines(io.StringIO("12\n"), out := io.StringIO())
    held.run()
    assert "somebody else changed x.toml meanwhile" in out.getvalue().replace("\n", " ")
    assert held.draft.id == held.state.session.id == "x-2"
    assert "somebody else" in (tmp_path / "x.toml").read_text()


TYPED = {
    "hand": ("2", "-", "done"), "handicap": ("?", "dk"), "typical_score": ("ninety-five", "95 or so"),
    "pain": ("no, I feel fine",), "age_band": ("adult",), "driver_speed": ("-",),
    "driver_carry": ("190",), "seven_iron_carry": ("about 135 yards",),
    "lies": ("1 50, 3 30, tee 20",), "turf": ("in between",), "contact": ("2 5",), "miss": ("left",),
    "curve": ("a lot, to the left",), "confidence_fairway": ("2",), "confidence_hybrid": ("4",),
    "deep_face": ("it worries me",), "type_preference": ("go hand", "back"),
}  # fmt: skip
"""What the customer of the transcript types at each question, in turn; at any other he does not know."""


def test_the_transcript_of_a_customer_reads_well(talk: Talk, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each line answers the question on the screen by its id, so that a new question shifts none of them."""
    left = {question: list(lines) for question, lines in TYPED.items()}
    ask, run = Lines.ask, LineTalk.run
    current: list[LineTalk] = []

    def answering(lines: Lines) -> str | None:
        typed = left.get(current[0].state.asking or "", [])
        lines._reader = io.StringIO(f"{typed.pop(0) if typed else 'dk'}\n")
        return ask(lines)

    def watched(line_talk: LineTalk) -> str:
        current.append(line_talk)
        return run(line_talk)

    monkeypatch.setattr(Lines, "ask", answering)
    monkeypatch.setattr(LineTalk, "run", watched)
    _, ended, printed = talk(voice="customer")
    assert ended == "done"
    golden.held(GOLDEN, printed)
