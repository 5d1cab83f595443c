"""Reads one TOML file, whoever wrote it: bounded, and with one sentence for each thing that can be wrong."""

from __future__ import annotations

import re
import stat
import tomllib
from bisect import bisect_right
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from rules.engine.scanner import Path as KeyPath
from rules.engine.scanner import Scanner, Span
from rules.problems import Problem

MOST_BYTES = 1_000_000
"""A file beyond this size is refused unread."""
MOST_DOTS = 60
"""Dots outside strings and numbers that one line may hold: dotted keys nest, and nesting costs time."""

_WORDING = {
    "absent": "there is no such file",
    "folder": "this is a folder, not a file",
    "special": "this is not an ordinary file",
    "forbidden": "this file may not be read; its permissions forbid it, so let your user read it",
    "unreadable": "this file cannot be read: {why}",
    "too-big": "this file holds more than {most} bytes, which is far more than such a file needs",
    "empty": "this file is empty",
    "utf16": "this file is saved as UTF-16; save it as UTF-8",
    "not-text": "this is not a text file in UTF-8",
    "not-toml": "this is not valid TOML: {why}",
    "too-deep": "this is nested too deeply",
    "too-large": "this whole number is larger than any that a file may hold",
}
_WHERE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")
_LARGEST = 10**100
"""Whole numbers stay below it: TOML promises 64 bits (1.0.0, Integer), and sums with larger ones overflow."""
_MANY_DIGITS = re.compile(r"[0-9a-fA-F_]{80}")
_HARMLESS = re.compile(r'"(?:\\.|[^"\\])*"|\'[^\']*\'|\d\.\d')


class FileProblem(Problem):
    """A file that cannot be used: file, line and column (0 for the whole file), and the sentence."""

    def __init__(self, file: Path, message: str, line: int = 0, column: int = 0, code: str = "") -> None:
        self.file, self.line, self.column, self.message, self.code = file, line, column, message, code
        place = f"{file} line {line}, column {column}" if line else f"{file}"
        super().__init__(f"{place}: {message}")


def _problem(file: Path, code: str, line: int = 0, column: int = 0, **data: object) -> FileProblem:
    """Return the problem of a code, worded."""
    return FileProblem(file, _WORDING[code].format_map(data), line, column, code)


class Document:
    """One TOML file as read: its plain data, and where each path of it stands."""

    __slots__ = ("_lines", "_spans", "data", "path", "text")

    def __init__(self, path: Path, text: str, data: dict[str, Any]) -> None:
        self.path = path
        """The file."""
        self.text = text
        self.data = data
        """What tomllib made of it."""
        self._spans: dict[KeyPath, Span] | None = None
        self._lines: list[int] = []

    def position(self, path: KeyPath, *, key: bool = False) -> tuple[int, int]:
        """Return line and column, from 1, of the value at `path` (of its key with `key`).

        Where there is no such path, the nearest enclosing one is given. The text is scanned on first use.
        """
        if self._spans is None:
            self._spans = Scanner(self.text).scan()
            self._lines = [0, *(m.end() for m in re.finditer("\n", self.text))]
        known = path
        while known not in self._spans:
            if not known:
                return (1, 1)
            known = known[:-1]
        span = self._spans[known]
        offset = span.key if key or known != path else span.value
        line = bisect_right(self._lines, offset)
        return line, offset - self._lines[line - 1] + 1


def read_toml(path: Path) -> Document:
    """Read a TOML file. FileProblem says in one sentence why it cannot be used."""
    text = _decode(path, _bytes(path))
    if not text.strip():
        raise _problem(path, "empty")
    return parse_toml(path, text)


def parse_toml(path: Path, text: str) -> Document:
    """Read TOML text that stands in, or is meant for, a file."""
    _refuse_dots(path, text)
    try:
        document = Document(path, text, tomllib.loads(text))
    except RecursionError:
        raise _problem(path, "too-deep") from None
    except tomllib.TOMLDecodeError as error:
        raise _not_toml(path, text, str(error)) from None
    except ValueError as error:
        raise _problem(path, "not-toml", why=_first_sentence(str(error))) from None
    if _MANY_DIGITS.search(text):
        for place in _too_large(document.data, ()):
            raise _problem(path, "too-large", *document.position(place))
    return document


def _too_large(value: Any, at: KeyPath) -> Iterator[KeyPath]:
    """Find whole numbers that TOML does not promise and that neither sums nor sentences can hold."""
    if isinstance(value, int) and abs(value) >= _LARGEST:
        yield at
    elif isinstance(value, dict | list):
        for key, part in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _too_large(part, (*at, key))


def _bytes(path: Path) -> bytes:
    """Read a file's bytes, never more than are allowed, and never from a pipe or device."""
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise _problem(path, "folder")
        if not stat.S_ISREG(mode):
            raise _problem(path, "special")
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise _problem(path, "absent") from None
    except PermissionError:
        raise _problem(path, "forbidden") from None
    except (OSError, ValueError) as error:
        raise _problem(path, "unreadable", why=getattr(error, "strerror", None) or error) from None
    if len(raw) > MOST_BYTES:
        raise _problem(path, "too-big", most=MOST_BYTES)
    return raw


def _decode(path: Path, raw: bytes) -> str:
    """Turn bytes into text; a UTF-8 mark at the start is skipped."""
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise _problem(path, "utf16")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _problem(path, "not-text") from None
    if "\0" in text:
        raise _problem(path, "not-text")
    return text.replace("\r\n", "\n")


def _refuse_dots(path: Path, text: str) -> None:
    """Refuse a key of very many parts, which would take the reader minutes."""
    for number, line in enumerate(text.split("\n"), 1):
        if line.count(".") > MOST_DOTS and _HARMLESS.sub("", line).count(".") > MOST_DOTS:
            raise _problem(path, "too-deep", number, 1)


def _not_toml(path: Path, text: str, error: str) -> FileProblem:
    """Word what tomllib says, with its place."""
    match = _WHERE.search(error)
    why = _first_sentence(_WHERE.sub("", error))
    if match and match.group(1):
        return _problem(path, "not-toml", int(match.group(1)), int(match.group(2)), why=why)
    return _problem(path, "not-toml", text.count("\n") + 1, 1, why=why)


def _first_sentence(text: str) -> str:
    """Return a library's message short, printable and without its capital letter."""
    plain = "".join(c if c.isprintable() else "?" for c in text[:160])
    return plain[:1].lower() + plain[1:]
