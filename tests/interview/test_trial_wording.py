"""Every phrase that a trial says is there, every one there is said, and each works in every voice."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import interview
from interview.wording.words import Voice, words

HOME = Path(interview.__file__).parent
VOICES: tuple[Voice, ...] = ("customer", "fitter", "trainer")


def keys(table: Mapping[str, object], prefix: str) -> set[str]:
    found: set[str] = set()
    for key, value in table.items():
        if isinstance(value, Mapping) and not set(value) <= set(VOICES):
            found |= keys(value, f"{prefix}{key}.")
        else:
            found.add(prefix + key)
    return found


def program() -> str:
    files = [*(HOME / "views" / "trial").glob("*.py"), HOME / "commands" / "ask" / "balls.py"]
    return "\n".join(file.read_text(encoding="utf-8") for file in files).replace("'", '"')


def test_phrases_and_program_agree() -> None:
    known = keys(words().phrases["trial"], "") | keys(words().phrases["balls"], "")
    text = program()
    fixed = set(re.findall(r"\"([a-z_]+(?:\.[a-z_]+)?)\"", text))
    starts = tuple(re.findall(r"f\"([a-z]+\.[a-z_]*)\{", text))
    named = set(re.findall(r"\"([a-z_]+)\"", text))
    unsaid = {
        key
        for key in known
        if key not in fixed and not key.startswith(starts) and key.rpartition(".")[2] not in named
    }
    assert unsaid == set()
    for key in {key for key in fixed if "." in key}:
        assert key in known or key.split(".")[0] not in words().phrases["trial"], key


def test_a_golfer_is_never_told_more_figures_than_he_asked_for() -> None:
    plain = words().phrases["trial"]["plain"]
    facts = {"driver_head_speed", "attack", "delivered_loft_change", "strike_mean_toe", "strike_mean_high",
             "strike_sd_toe", "strike_sd_high", "mishits_fairway", "mishits_hybrid"}  # fmt: skip
    assert set(plain) == {f"{fact}_{way}" for fact in facts for way in ("more", "less")}
    assert not any(re.search(r"\d|\{", sentence) for sentence in plain.values())
    assert set(words().phrases["trial"]["figure"]) == facts
