"""What the fuzzing shares: the command run in this process, what may never leave it, and nasty text."""

from __future__ import annotations

import contextlib
import io
import os
import re
import signal
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from interview.commands.main import main

LONG = os.environ.get("TURFPAIR_LONG", "") not in ("", "0")
"""Whether this is the long run, with twenty to a hundred times as many examples."""
SLOWEST = 2.0 if sys.gettrace() is None else 6.0
"""Seconds of processor time that no example may take, more where each line is traced for coverage; time on
the wall depends on the neighbours."""
SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))

STEERS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]"
)
"""What may never reach a terminal, a page or a table: C0 but tab and line feed, DEL, C1, lone surrogates,
and what turns the direction of writing (ECMA-48; Unicode Standard Annex 9, Table 1; Unicode 16, 23.6)."""

NASTY = (
    "\x1b[2J\x1b]0;owned\x07", "\x9b31mred", "a\x00b", "\x7f\x08\x08", "\u202egnp.exe", "\u2066\u2067x",
    "\u200fx", "[/b]", "[link=https://nowhere.invalid]x[/link]", "[@click=app.quit]x[/]",
    "</script><script>alert(1)</script>", "'\" onmouseover='x'", "=HYPERLINK(1)", "@SUM(1)", "+1+1", "-2+3",
    "\t=1", "{0}{id}", "{", "%s%n", "$(reboot)", "x\r\ny", "x\ny\nz", "\u2028\u2029\x85", "\ufeff",
    "e" + "\u0301" * 50, "\U0001f3cc\ufe0f\u200d", "ﷺ" * 9, "nan", "1e999", "9" * 400, "-0", "0x1f", "٣٤",
    "1/0", "5'11\"", "NULL", "..", "-", "--", "", " ", "\\", '"', "'''", "#", "\U000e0001x",
)  # fmt: skip
"""Text that has driven a terminal, a markup, a page, a spreadsheet or a parser somewhere."""

T = TypeVar("T")


def tries(few: int, many: int) -> Callable[[T], T]:
    """So many examples: a few in the gate, many in the long run; slowness is judged by `polite`."""
    return settings(
        max_examples=many if LONG else few, deadline=None, suppress_health_check=list(HealthCheck)
    )


class Ran(NamedTuple):
    """What a command did: its status, the very bytes it wrote, and the processor's seconds."""

    status: int
    out: bytes
    err: bytes
    seconds: float


def ran(words: Sequence[str], typed: bytes = b"", slowest: float = SLOWEST) -> Ran:
    """Run the command line here; what seems slow is timed again, in case the machine was."""
    done = _ran(words, typed)
    for _ in range(3):
        if done.seconds < slowest:
            break
        done = done._replace(seconds=min(done.seconds, _ran(words, typed).seconds))
    return done


def _ran(words: Sequence[str], typed: bytes) -> Ran:
    """Run the command line once, its streams as they are in a pipe."""
    out, err = (io.TextIOWrapper(io.BytesIO(), "utf-8", "strict", newline="\n") for _ in "12")
    kept, sys.stdin = sys.stdin, io.TextIOWrapper(io.BytesIO(typed), "utf-8", "strict")
    begun = time.process_time()
    try:
        with in_time(), contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            status = main(words)
    finally:
        sys.stdin = kept
    seconds = time.process_time() - begun
    return Ran(status, written(out), written(err), seconds)


def written(stream: io.TextIOWrapper) -> bytes:
    """Return the bytes that were written to a stream in memory."""
    stream.flush()
    buffer = stream.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue()


@contextlib.contextmanager
def in_time(seconds: float = 60.0) -> Iterator[None]:
    """End what waits for ever, on a pipe or a key, which takes none of the processor's time."""

    def late(*_: object) -> None:
        raise TimeoutError("it waits for ever")

    before = signal.signal(signal.SIGALRM, late)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def clean_bytes(raw: bytes) -> None:
    """Hold that bytes are text in UTF-8 in which nothing steers."""
    found = STEERS.search(raw.decode("utf-8"))
    assert found is None, f"{found.group()!r} in {raw[max(0, found.start() - 60) :][:160]!r}"


def polite(done: Ran, slowest: float = SLOWEST, most: int = 200_000) -> Ran:
    """Hold a run to what is promised: a status, one clean line for bad input, no flood, no long wait."""
    said = done.err.decode("utf-8")
    assert done.status in (0, 1, 2), f"{done.status}: {said}"
    assert b"Traceback" not in done.out + done.err
    clean_bytes(done.out)
    clean_bytes(done.err)
    if done.status == 2:
        assert said.startswith("turfpair: "), said
        assert len(said.splitlines()) == 1, said
        assert len(said) <= 1100
    assert len(done.out) <= most
    assert done.seconds < slowest
    return done


@contextlib.contextmanager
def place_of_its_own(folder: Path) -> Iterator[Path]:
    """Work in a folder that is also the home, so that whatever is named lands there."""
    before, variables = Path.cwd(), dict(os.environ)
    for name in list(os.environ):
        if name.startswith("TURFPAIR_") and name not in ("TURFPAIR_LONG", "TURFPAIR_HYPOTHESIS"):
            del os.environ[name]
    own = {"HOME": str(folder), "XDG_STATE_HOME": str(folder / "state"), "COLUMNS": "80", "TERM": "dumb"}
    os.environ.update(own)
    os.chdir(folder)
    try:
        yield folder
    finally:
        os.chdir(before)
        os.environ.clear()
        os.environ.update(variables)


def nasty_text(most: int = 30) -> st.SearchStrategy[str]:
    """Text as nobody types it, and as some do."""
    any_text, nasty = st.text(max_size=most), st.sampled_from(NASTY)
    return st.one_of(nasty, any_text, st.tuples(any_text, nasty).map("".join))


def spliced(text: str, at: float, length: int, put: str) -> bytes:
    """Put a text at a share of another one, in place of so many of its letters."""
    place = int(at * len(text))
    return (text[:place] + put + text[place + length :]).encode("utf-8", "replace")


def mutated(value: Any, wrong: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Plain data with one to three of its places changed: another value, a key gone, doubled or renamed."""
    return st.integers(1, 3).flatmap(lambda times: _mutated(value, wrong, times))


_WAYS = ("set", "set", "set", "gone", "again", "name")


@st.composite
def _mutated(draw: st.DrawFn, value: Any, wrong: st.SearchStrategy[Any], times: int) -> Any:
    for _ in range(times):
        at = draw(st.sampled_from(sorted(_places(value), key=str)))
        value = _changed(value, at, draw(st.sampled_from(_WAYS)), draw(wrong))
    return value


def _places(value: Any, at: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every place in plain data, tables and lists among them."""
    if at:
        yield at
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, part in parts:
        yield from _places(part, (*at, key))


def _changed(data: Any, at: tuple[str | int, ...], how: str, wrong: Any) -> Any:
    """Return data that differs at one place."""
    first, *rest = at
    copy = data.copy()
    if rest:
        copy[first] = _changed(data[first], tuple(rest), how, wrong)
    elif how == "gone" and len(copy) > 1:
        del copy[first]
    elif how == "again" and isinstance(copy, list) and isinstance(first, int):
        copy.insert(first, copy[first])
    elif how == "name" and isinstance(copy, dict):
        copy[str(wrong)[:40]] = copy.pop(first)
    else:
        copy[first] = wrong
    return copy


def toml_values(most: int = 30) -> st.SearchStrategy[Any]:
    """Values that a TOML file can hold, deep and shallow."""
    text = nasty_text(most).filter(lambda one: not any("\ud800" <= c <= "\udfff" for c in one))
    plain = st.one_of(
        text, st.booleans(), st.integers(-(10**25), 10**25), st.floats(),
        st.datetimes(), st.dates(), st.times(),
    )  # fmt: skip
    return st.recursive(
        plain,
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(text, inner, max_size=3),
        max_leaves=6,
    )
