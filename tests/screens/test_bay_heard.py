"""What a typed line means: answers in any order, as golfers talk."""

from __future__ import annotations

import pytest

from interview.conversation import Conversation, WentTo
from interview.screens.bay.clubs import ClubProblem, read_club, reading
from interview.screens.bay.heard import Heard, heard
from interview.screens.bay.named import find_question
from interview.session import begin


@pytest.fixture(scope="module")
def at(conversation: Conversation):  # type: ignore[no-untyped-def]
    state = conversation.start(begin("talk"))

    def read(question: str, line: str) -> Heard:
        return heard(conversation, conversation.step(state, WentTo(question)), line)

    return read


@pytest.mark.parametrize(
    ("up", "line", "kind", "question", "words"),
    [
        ("hand", "2", "answer", "hand", "left"),
        ("hand", "r", "answer", "hand", "right"),
        ("handicap", "18", "answer", "handicap", "18"),
        ("handicap", "+2", "answer", "handicap", "+2"),
        ("driver_speed", "about 92", "answer", "driver_speed", "92 mph, a guess"),
        ("driver_speed", "41.1 m/s measured", "answer", "driver_speed", "91.9 mph, measured"),
        ("height", "5'11\"", "answer", "height", "71 in"),
        ("longest_iron_loft", "27", "answer", "longest_iron_loft", "27 deg"),
        ("contact", "2 6", "answer", "contact", "thin; low on the face"),
        ("contact", "thin, heel", "answer", "contact", "thin; heel"),
        ("lies", "tight 50, rough 30, tee 20", "answer", "lies", "tight fairway 50 %; rough 30 %; tee 20 %"),
        ("contact", "tempo smooth", "answer", "tempo", "start down: smooth"),
        ("contact", "handicap = 18", "answer", "handicap", "handicap: 18"),
        ("hand", "92 mph", "answer", "driver_speed", "driver head speed: 92 mph"),
        ("hand", "driver loft 10.5", "answer", "driver_loft", "driver loft: 10.5 deg"),
        ("hand", "tempo dk", "unknown", "tempo", "start down: I don't know"),
        ("hand", "tempo", "go", "tempo", "go to start down"),
        ("hand", "wrist", "go", "wrist_to_floor", "go to wrist to floor"),
        ("hand", "I don't know", "unknown", "hand", "not known"),
        ("hand", "-", "skip", "hand", "pass it over"),
        ("hand", "?", "why", "hand", "why it is asked"),
        ("hand", "back", "back", "hand", "go back"),
        ("hand", "   ", "nothing", "hand", ""),
        ("pain", "slice", "answer", "curve", "curve: slice"),
        ("pain", "sli", "answer", "curve", "curve: slice"),
        ("handicap", "thin heel", "answer", "contact", "contact: thin; heel"),
        ("handicap", "low", "answer", "flight", "flight height: low"),
        ("pain", "firm", "answer", "turf", "turf: firm"),
        ("pain", "lies 30 50 20", "answer", "lies", "lies: tight fairway 30 %; fairway 50 %; rough 20 %"),
        ("pain", "tight 60 rough 40", "answer", "lies", "lies: tight fairway 60 %; rough 40 %"),
        ("hand", "no pain", "answer", "pain", "pain when swinging: no"),
        ("hand", "18 handicap", "answer", "handicap", "handicap: 18"),
        ("hand", "5'11", "answer", "height", "height: 71 in"),
        ("hand", "330 yd", "answer", "driver_carry", "driver carry: 330 yd"),
        ("hand", "iron 27", "answer", "longest_iron_loft", "loft of the longest iron used: 27 deg"),
        ("hand", "driver 10.5", "answer", "driver_loft", "driver loft: 10.5 deg"),
        ("hand", "conf 2", "answer", "confidence_fairway", "confidence over a fairway wood: 2"),
        ("turf", "heel", "unclear", "", "which: 'contact heel' or 'sole marks heel'?"),
        ("hand", "name Ruth B.", "note", "", "whose fitting this is: Ruth B."),
        ("hand", "that is all", "rest", "hand", "nothing that is still open is known"),
        ("hand", "my 3-wood", "club", "", "a club already owned: 3-wood: fairway wood"),
        ("hand", "sideways", "unread", "hand", ""),
        ("handicap", "\x1b[31m18\x00", "answer", "handicap", "18"),
    ],
)
def test_line(at, up: str, line: str, kind: str, question: str, words: str) -> None:  # type: ignore[no-untyped-def]
    meant = at(up, line)
    assert (meant.kind, meant.question, meant.words) == (kind, question, words)


def test_an_answer_to_the_question_on_the_screen_comes_before_any_name(at) -> None:  # type: ignore[no-untyped-def]
    """`tee` is a lie here, and a purpose elsewhere; `miss right` names another question."""
    assert at("lies", "tee 20, fairway 80").question == "lies"
    assert at("curve", "miss right").question == "miss"


def test_every_question_is_found_by_its_name(conversation: Conversation) -> None:
    state = conversation.start(begin("talk"))
    for id, fact in conversation.base.facts.items():
        if fact.ask is not None:
            assert find_question(conversation, state, fact.title) == id
            assert find_question(conversation, state, id.replace("_", " ")) == id


def test_every_question_is_reached_by_a_few_letters_of_its_name(conversation: Conversation, at) -> None:  # type: ignore[no-untyped-def]
    """Whatever is up, some beginning of a question's name goes to it; how many letters is printed."""
    facts = conversation.base.facts
    letters = {}
    for id, fact in facts.items():
        if fact.ask is None:
            continue
        parts = [name[:end] for name in (fact.title, id.replace("_", " ")) for end in range(2, len(name) + 1)]
        meant = (part for part in sorted(parts, key=len) if _goes(at("hand", part), id))
        letters[id] = len(next(meant))
    mean, most = sum(letters.values()) / len(letters), max(letters.values())
    print(f"letters to a question: {mean:.1f} on average, {most} at most")
    assert max(letters.values()) <= 12


def _goes(meant: Heard, question: str) -> bool:
    return (meant.kind, meant.question) == ("go", question)


def test_a_club_is_read_from_one_line() -> None:
    club = read_club("his 3-wood, 15 deg, 43 1/4 in, D2, 330 g, 185 yd, not liked, can add 8 g")
    assert club == {
        "name": "his 3-wood", "kind": "fairway", "loft": {"value": "15 deg", "how": "stamped"},
        "length": "43 1/4 in", "swing_weight": "D2", "total": "330 g",
        "carry": {"value": "185 yd", "how": "said"}, "liked": "no", "can_add": "8 g",
    }  # fmt: skip
    spoken = "old 5 wood 18 deg 42 1/2 in D2 330 g 185 yd so so room for 8 g"
    assert read_club(spoken) == {
        "name": "old 5 wood", "kind": "fairway", "loft": {"value": "18 deg", "how": "stamped"},
        "length": "42 1/2 in", "swing_weight": "D2", "total": "330 g",
        "carry": {"value": "185 yd", "how": "said"}, "liked": "so_so", "can_add": "8 g",
    }  # fmt: skip
    assert read_club("old hybrid, 19 deg measured")["loft"] == {"value": "19 deg", "how": "measured"}
    assert reading("") == ("", False)
    assert reading("his 3-wood, 15")[1] is False
    with pytest.raises(ClubProblem):
        read_club(", 15 deg")
    with pytest.raises(ClubProblem):
        read_club("w, can add 8 yd")
