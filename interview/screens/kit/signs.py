"""Which signs the terminal can show, and the last look at everything that goes to one that can show few."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from interview.text import seven_bit_locale
from interview.views.pictures import FULL, PLAIN, Glyphs, seven_bit

if TYPE_CHECKING:
    from textual.app import App

_POOR = ("linux", "vt100", "vt102", "vt220", "ansi", "cons25")
"""Terminals whose letters are few, by the first part of TERM."""


def terminal_glyphs() -> Glyphs:
    """Return the signs for the terminal that this program writes to."""
    encoding = (getattr(sys.__stderr__, "encoding", None) or "").lower().replace("-", "")
    poor = os.environ.get("TERM", "").split("-")[0] in _POOR or seven_bit_locale(os.environ)
    return FULL if encoding.startswith("utf") and not poor else PLAIN


def glyphs_of(app: App[object]) -> Glyphs:
    """Return the signs of an app; full ones where it does not say."""
    found = getattr(app, "glyphs", FULL)
    return found if isinstance(found, Glyphs) else FULL


class SevenBits(LineFilter):
    """Turns whatever is about to be written into signs of seven bits, cell for cell."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """Return the segments in seven bits."""
        return [Segment(seven_bit(text), style, control) for text, style, control in segments]
