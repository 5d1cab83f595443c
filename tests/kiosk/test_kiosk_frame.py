"""What goes to a browser and what it may say: a short list, and nothing else gets past it."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from interview.conversation import Conversation
from interview.kiosk.visit import Visit
from interview.views.kiosk import page_of, painted
from interview.views.kiosk.frame import LONGEST, Heard, frame, heard
from interview.views.pictures import FULL

Walk = Callable[..., Visit]
ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["key", "press", "page", "size", "touched", "x"]), inner, max_size=3
        )
    ),
    max_leaves=6,
)


def test_a_page_arrives_whole(conversation: Conversation, walk: Walk) -> None:
    page = page_of(conversation, walk("start"))
    made = painted(page, "answer:left", 40, 42, FULL)
    shown = json.loads(frame(3, page, made, "answer:left", 2))
    assert (shown["page"], shown["at"]) == (3, 2)
    texts = ["".join(sign for _, sign in row) for row in shown["rows"]]
    assert texts == ["".join(ink.text for ink in row.inks) for row in made.rows]
    tiles: dict[str, Any] = {press: rest for press, *rest in shown["tiles"]}
    assert set(tiles) == {tile.press for tile in page.pressable}
    assert tiles["answer:left"][4:] == ["Left-handed", True, False]
    x, y, wide, high = tiles["answer:right"][:4]
    assert "Right-handed" in "".join(text[x : x + wide] for text in texts[y : y + high])


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ({"key": "5"}, Heard(key="5")), ({"key": "w"}, Heard(key="w")), ({"key": "ArrowUp"}, Heard(key="up")),
        ({"key": "Shift+Tab"}, Heard(key="shift+tab")), ({"key": ","}, Heard(key="full_stop")),
        ({"press": "start", "page": 0}, Heard(press="start", page=0)), ({"touched": True}, Heard()),
        ({"size": [41, 44]}, Heard(size=(41, 44))), ({"size": [0, 10**9]}, Heard(size=(1, 300))),
    ],
)  # fmt: skip
def test_what_a_page_says_is_understood(said: Any, meant: Heard) -> None:
    assert heard(json.dumps(said)) == meant


@pytest.mark.parametrize(
    "key", ["ctrl+c", "ctrl+q", "f1", "F5", "", "é", "\x03", "\x1b", "escape", "qq", "AltGraph"]
)
def test_no_other_key_is_heard(key: str) -> None:
    assert heard(json.dumps({"key": key})) is None


@given(ANYTHING)
@settings(max_examples=60)
def test_nothing_but_the_short_list_gets_past(said: Any) -> None:
    found = heard(json.dumps(said))
    if found is not None:
        assert isinstance(said, dict)
        assert "+" not in found.key or found.key == "shift+tab"
        assert found.size is None or all(1 <= one <= 300 for one in found.size)


def test_something_long_or_deep_is_not_read() -> None:
    assert heard(json.dumps({"press": "x" * LONGEST, "page": 1})) is None
    assert heard("[" * 200) is None
