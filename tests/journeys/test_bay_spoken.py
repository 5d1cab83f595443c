"""A hurried fitter types what a golfer tells, in the golfer's order, down to both sheets; keys are counted.

The golfer is invented. She says: "I'm Ruth. I play off twenty-two. I just can't hit my 3-wood, it's fifteen
degrees, forty-three inches, I hate it. I catch it thin, or off the heel, and when I do get it, it slices and
finishes right. Somebody measured my driver in spring: eighty-one miles an hour. A good drive flies 180, a
7-iron 115. I'm right-handed. We play on firm ground, a third of it off tight lies, half off proper fairway,
the rest light rough. I only brush the grass. It flies low; of six, perhaps two get up. I tried a friend's
5-wood and hit it well. Over the 3-wood I have no faith at all, one out of five; a hybrid is better, four.
That big face worries me. My longest iron is twenty-eight degrees and goes 125. I want the clubs for second
shots on par fives, and for long ones into greens. It's windy. They call my swing smooth. Nothing hurts. I'm
five foot five, and an adult, thank you."
"""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.session import load
from rules.fitting import House
from tests.journeys.real_terminal import Terminal, needs_tmux

SAID: dict[str, tuple[str, ...]] = {
    "whose fitting it is, her own club": ("name Ruth", "my 3-wood 15 deg 43 in hates it"),
    "words that need no name": (
        "thin heel", "slice", "firm", "brush", "low", "worries", "windy", "smooth", "adult",
        "par5 60 approach 40",
    ),
    "quantities that need no name": ("81 mph meas", "5'5"),
    "by part of a name": (
        "handicap 22", "miss right", "carry 180", "7-iron 115", "hand right", "lies 30 50 20", "up 2",
        "5-wood well", "conf 1", "hybrid 4", "iron 28", "longest 125", "no pain",
    ),
}  # fmt: skip
"""What is typed, by how it is told; it is entered line by line, in the golfer's order."""
ORDER = (
    "name Ruth", "handicap 22", "my 3-wood 15 deg 43 in hates it", "thin heel", "slice", "miss right",
    "81 mph meas", "carry 180", "7-iron 115", "hand right", "firm", "lies 30 50 20", "brush", "low", "up 2",
    "5-wood well", "conf 1", "hybrid 4", "worries", "iron 28", "longest 125", "par5 60 approach 40", "windy",
    "smooth", "no pain", "5'5", "adult",
)  # fmt: skip
A_KEY, A_THOUGHT = 0.28, 1.35
"""Seconds to press a key, for somebody who types 40 words a minute, and to think before each line (Card,
Moran & Newell 1980, The keystroke-level model for user performance time with interactive systems,
Communications of the ACM 23 (7); both from memory)."""
MOST_KEYS, LONGEST = 270, 240.0


@needs_tmux
def test_a_spoken_account_is_fitted_in_few_keys(
    terminal: Terminal, tmp_path: Path, house: House, capsys: pytest.CaptureFixture[str]
) -> None:
    assert sorted(ORDER) == sorted(line for lines in SAID.values() for line in lines)
    terminal.start("bay")
    terminal.wait("STANDING")
    clubs = 0
    for at, line in enumerate(ORDER):
        terminal.type(line)
        terminal.press("Enter")
        clubs += line.startswith(("name", "my"))
        terminal.wait(f"{at + 1 - clubs} said")
    terminal.press("F11")
    terminal.wait("YOUR TWO CLUBS")
    terminal.press("F11")
    terminal.wait("Written:")
    file = next((tmp_path / "sessions").glob("*.toml"))
    session = load(file, house.base.facts)
    pages = sorted(page.name for page in (tmp_path / "sheets").iterdir())
    assert pages == [f"{session.id}-golfer.html", f"{session.id}-workshop.html"]
    assert len(session.subject.answers) == 25
    assert [club.name for club in session.subject.owned] == ["3-wood"]
    assert session.note == "Ruth"
    seconds = terminal.keys * A_KEY + (len(ORDER) + 2) * A_THOUGHT
    with capsys.disabled():
        print(f"\na spoken account, down to both sheets: {terminal.keys} keys")
        print(f"  {seconds:.0f} s for a typist of 40 words a minute who thinks before each line")
        for kind, lines in SAID.items():
            print(f"  {kind}: {sum(len(line) + 1 for line in lines)} keys for {len(lines)} lines")
        print("  both sheets: 2 keys")
    assert terminal.keys == sum(len(line) + 1 for line in ORDER) + 2
    assert terminal.keys <= MOST_KEYS
    assert seconds <= LONGEST
