"""What the toolkit does by itself that would hurt a fitting, and does not do here."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from textual import events

import interview.screens
from interview.screens.kit.lists import FindScreen

SCREENS = Path(interview.screens.__file__).parent
SAMPLE = str(Path(__file__).parents[2] / "sample_sessions" / "marks-overrule-handicap.toml")
COUNTING = {"Select", "SelectionList", "OptionList", "RadioSet", "RadioButton", "Checkbox", "MaskedInput"}
"""Widgets that crash when narrow, move without answering, or take 1 and True for the same."""


@pytest.mark.parametrize(("typed", "handicap"), [("3,5", 3.5), ("3.5", 3.5), ("35 mph", None), ("1 8", None)])
async def test_a_number_is_never_put_together_from_pieces(
    open_bay: Any, typed: str, handicap: float | None
) -> None:
    """A field for numbers would drop what it does not like: 3,5 would become 35."""
    async with open_bay() as bay:
        await bay.say("handicap", typed)
        answer = bay.desk.state.session.subject.answers.get("handicap")
        assert (answer.value if answer else None) == handicap
        assert (bay.app.screen.query_one("#line").value == typed) == (handicap is None)


async def test_a_pasted_quantity_keeps_its_unit(open_bay: Any) -> None:
    async with open_bay() as bay:
        await bay.say("driver speed")
        bay.app.screen.focused.post_message(events.Paste("41 m/s measured\r\n"))
        await bay.settle()
        await bay.press("enter")
        assert bay.desk.state.session.subject.answers["driver_speed"].value == pytest.approx(41)


async def test_the_line_keeps_the_focus_whatever_changes_around_it(open_bay: Any) -> None:
    """A question that goes, a column that hides, a screen that closes: keys still go to the line."""
    async with open_bay(120, 40, session=SAMPLE) as bay:
        for keys in (("f2",), ("f3",), ("up", "delete"), ("f8", "escape"), ("f5", "f7"), ("f4", "b")):
            await bay.press(*keys, "escape")
            assert bay.app.focused.id == "line", keys
        await bay.press("f5")
        for width in (120, 40, 63, 80):
            await bay.pilot.resize_terminal(width, 24)
            await bay.pilot.pause()
            assert bay.app.focused is not None
            assert bay.app.focused.region.width, "what has the focus can be seen"
        await bay.press("escape")
        await bay.type("tempo")
        assert bay.app.screen.query_one("#line").value == "tempo"


async def test_no_palette_opens_and_leaving_keeps_what_was_said(open_bay: Any, store: Any) -> None:
    async with open_bay() as bay:
        screen = bay.app.screen
        await bay.press("ctrl+p", "ctrl+c")
        assert bay.app.screen is screen
        await bay.say("handicap 18")
        await bay.pilot.press("ctrl+q")
        await bay.pilot.pause()
        assert "handicap = 18" in store.file("demo").read_text()


async def test_a_session_of_an_odd_name_is_a_row_like_any_other(open_bay: Any, store: Any) -> None:
    """A row's target may be any text; only a widget's id must be a name."""
    async with open_bay() as bay:
        await bay.say("right", "name 1st [/] session.of='x'")
        await bay.press("f9")
        assert isinstance(bay.app.screen, FindScreen)
        assert "1st [/] session.of='x'" in bay.screen_text()


def _calls() -> Iterator[tuple[str, ast.Call]]:
    for path in sorted(SCREENS.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                yield f"{path.name}:{node.lineno}", node


def _makes(call: ast.Call) -> str:
    """The name of what is called."""
    return ast.unparse(call.func).rpartition(".")[2]


def test_ids_of_widgets_are_written_down_and_never_made_of_data() -> None:
    """An id made of a rule's or a file's name could be refused as bad while somebody is being fitted."""
    made = [
        (where, ast.unparse(one.value))
        for where, call in _calls()
        for one in call.keywords
        if one.arg == "id" and not isinstance(one.value, ast.Constant) and _makes(call)[:1].isupper()
    ]
    passed_on = {"id", "one.id", "name"}
    """A parameter, an order's id, one of the panes' names: each is written down elsewhere in the folder."""
    assert {text for _, text in made} <= passed_on, made


def test_no_widget_is_used_that_counts_or_crashes_when_narrow() -> None:
    used = [(where, _makes(call)) for where, call in _calls() if _makes(call) in COUNTING]
    assert not used
