"""Every command with options and values that nobody would type: a status, one clean line, no traceback."""

from __future__ import annotations

import importlib
import os
import shutil
import subprocess
import sys
from argparse import Action, ArgumentParser, _SubParsersAction
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from interview.commands import calc
from interview.commands.common import Parser, add_common
from interview.commands.registry import listed
from tests.proof.fuzz_kit import SAMPLES, Ran, nasty_text, place_of_its_own, polite, ran, tries

TURFPAIR = Path(sys.executable).with_name("turfpair")
QUANTITIES = (
    "85 mph", "12 deg", "-3 deg", "200 g", "42 1/4 in", "31.5 mm", "0", "-0", "1e308", "60 degF",
    "215 g @ 42 in", "heel=12 g", "toe=12 g @ 30,-12,-8 mm", "1.5x8,3x6", "2 deg closed", "slice", "90 d",
    "nan mph", "1e-300 in",
)  # fmt: skip


def words_of(action: Action) -> st.SearchStrategy[str]:
    """Values for one option or argument: some that fit, some that nearly do, some that never will."""
    files = [str(file) for file in SAMPLES[:4]]
    named = f"{action.metavar} {action.dest}"
    fitting = [*QUANTITIES, "handicap=3", "longer.length", "demo", "3", "new", "."]
    if "SESSION" in named or "CLUBS" in named:
        fitting += [*files * 4, "absent.toml", "/dev/null", "/dev/zero", "."]
    if "csv" in named:
        fitting += [str(file) for file in (SAMPLES[0].parent / "trials").glob("*.csv")] * 4 + ["/dev/zero"]
    if "FOLDER" in named:
        fitting += [str(SAMPLES[0].parent), "absent", "/dev/zero", str(SAMPLES[0])]
    chosen = [str(choice) for choice in action.choices or ()]
    return st.one_of(st.sampled_from(chosen * 3 + fitting), spoken())


def spoken() -> st.SearchStrategy[str]:
    """Words as a shell hands them over: no NUL, bytes that are no text as surrogates; no way out of here."""
    text = nasty_text(12).map(lambda one: one.replace("\0", "\udc80").encode("utf-8", "replace").decode())
    return text.filter(lambda one: not one.startswith(("/", "~")) and ".." not in one)


@st.composite
def command_lines(draw: st.DrawFn) -> list[str]:
    """A command with some of its options, some of their values, and sometimes something else in between."""
    command = draw(st.sampled_from(listed()))
    parser = Parser(prog=command.name)
    command.load().configure(parser)
    add_common(parser)
    words = [command.name, *draw_words(draw, parser)]
    if draw(st.integers(0, 9)) == 0:
        words.insert(draw(st.integers(0, len(words))), draw(spoken()))
    return words


def draw_words(draw: st.DrawFn, parser: ArgumentParser) -> list[str]:
    """Words for what one parser takes."""
    words: list[str] = []
    tail: list[str] = []
    for action in parser._actions:
        if isinstance(action, _SubParsersAction):
            name = draw(st.sampled_from(sorted(action.choices)))
            tail += [name, *draw_words(draw, filled(action.choices[name], name))]
        elif action.option_strings:
            if action.required or draw(st.integers(0, 4)) == 0:
                words += option(draw, action)
        else:
            words += [draw(words_of(action)) for _ in range(draw(st.sampled_from((1, 1, 1, 0, 2))))]
    return words + tail


def filled(parser: ArgumentParser, name: str) -> ArgumentParser:
    """Return a parser with what its module adds on first use."""
    if isinstance(parser, calc.LazyParser):
        own = Parser(prog=name)
        importlib.import_module(f"interview.commands.calc.{name}").configure(own)
        own.add_argument("--json", action="store_true")
        return own
    return parser


def option(draw: st.DrawFn, action: Action) -> list[str]:
    """Words for one option, apart from its value or joined to it."""
    flag = draw(st.sampled_from(action.option_strings))
    if action.nargs == 0:
        return [flag]
    value = draw(words_of(action))
    return [f"{flag}={value}"] if draw(st.booleans()) else [flag, value]


def studies(words: list[str]) -> bool:
    """Whether a command line would study a session that can be read, which takes thousands of roads."""
    slow = words[:1] == ["explain"] or "--study" in words
    return slow and any(word.endswith(".toml") and Path(word).exists() for word in words)


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    with place_of_its_own(tmp_path_factory.mktemp("commands")) as folder:
        yield folder


@example(words=["sessions", "--sessions", "\x1b[2J\x1b]0;owned\x07", "list"])
@example(words=["sheet", str(SAMPLES[0]), "--for", "golfer", "--html", "\x1b[2J\n.html"])
@given(words=command_lines())
@tries(250, 6000)
def test_any_command_with_any_options(own: Path, words: list[str]) -> None:
    if studies(words):
        words = [word for word in words if not word.endswith(".toml")]
    polite(ran(words, b"quit\n"))
    for left in own.iterdir():
        shutil.rmtree(left) if left.is_dir() else left.unlink()


@given(words=command_lines().map(lambda words: words[:1] + [word for word in words[1:] if word]))
@tries(4, 150)
def test_a_process_of_its_own(own: Path, words: list[str]) -> None:
    """The same through the installed command, where words are bytes and streams are pipes."""
    if not studies(words):
        given_words = [os.fsencode(TURFPAIR), *(os.fsencode(word) for word in words)]
        done = subprocess.run(given_words, cwd=own, input=b"quit\n", capture_output=True, timeout=60)
        polite(Ran(done.returncode, done.stdout, done.stderr, 0.0))


@given(words=st.lists(spoken() | st.sampled_from([c.name for c in listed()]), min_size=1, max_size=4))
@tries(60, 2000)
def test_any_words_at_all(own: Path, words: list[str]) -> None:
    polite(ran(words, b"quit\n"))
