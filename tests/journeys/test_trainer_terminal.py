"""One lesson in a real terminal: a class, a prediction marked and walked, an exercise, and a way out."""

from __future__ import annotations

from pathlib import Path

from interview.classroom import ClassBook
from tests.journeys.real_terminal import Terminal, needs_tmux

SAMPLE = Path(__file__).parents[2] / "sample_sessions" / "digger-scattered.toml"


@needs_tmux
def test_a_lesson_by_keys_alone(terminal: Terminal, tmp_path: Path) -> None:
    folder = tmp_path / "class"
    terminal.start("trainer", str(SAMPLE), "--class", str(folder), TERM="screen-16color")
    terminal.wait("Digger scattered")
    terminal.press("F6")
    terminal.wait("Nobody is in it yet")
    terminal.press("F2")
    terminal.wait("Add a trainee")
    terminal.type("Ann [/b]")
    terminal.press("Enter")
    terminal.wait("1 in it")
    terminal.press("Enter", "Escape")
    terminal.wait("at the keys: Ann [/b]")
    terminal.press("Enter")
    terminal.wait("0 of 17 predicted")
    terminal.press("Enter")
    terminal.wait("type to narrow")
    terminal.press("Enter")
    terminal.wait("Which facts drive it")
    terminal.type("handicap")
    terminal.press("Enter", "F5")
    terminal.wait("1 of 17 predicted")
    terminal.press("F5")
    terminal.wait("WHAT IT CARRIED")
    terminal.press("Enter")
    terminal.wait("step 1 of")
    terminal.press("Right")
    terminal.wait("step 2 of")
    terminal.press("Left")
    terminal.wait("step 1 of")
    terminal.press("Escape")
    terminal.wait("Marked")
    terminal.press("Escape", "Escape", "F3")
    terminal.wait("Exercise:")
    terminal.press("C-q")
    terminal.wait("STATUS 0")
    book = ClassBook.open(folder)
    assert [one.item for one in book.attempts] == ["predict:digger-scattered:pairing"]
