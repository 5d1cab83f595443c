"""What commands print, cleaned last of all: whoever wrote a file, nothing in it steers the terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO, cast

from interview.text import clean, one_line

_LONGEST = 1000
"""Characters of one sentence on the error stream."""


class CleanStream:
    """A text stream that takes out what could steer a terminal; in all else the stream behind it."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        """Write a text cleaned, and return how much of it was taken: all."""
        self._stream.write(clean(text))
        return len(text)

    def __getattr__(self, name: str) -> object:
        return getattr(self._stream, name)


@contextmanager
def cleaned_output() -> Iterator[None]:
    """Clean for a while what is printed. Screens draw on a stream of their own, and so do progress bars."""
    before = sys.stdout
    if before is not None:
        sys.stdout = cast(TextIO, CleanStream(before))
    try:
        yield
    finally:
        sys.stdout = before


def complain(sentence: str) -> None:
    """Print one sentence as one clean line on the error stream; OSError where nobody is listening."""
    print(f"turfpair: {one_line(sentence, _LONGEST)}", file=sys.stderr)
