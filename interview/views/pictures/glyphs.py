"""The signs pictures are drawn with: full ones, and ones of seven bits for terminals that have no others."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from unicodedata import normalize

from interview.views.pictures.ink import cells


@dataclass(frozen=True, slots=True)
class Glyphs:
    """One set of signs, each a single cell wide."""

    known: str
    closed: str
    """Answered with "I don't know"."""
    open: str
    skipped: str
    needless: str
    dormant: str
    leads: str
    could_win: str
    beaten: str
    out: str
    """Ruled out."""
    bar_for: str
    half_for: str
    bar_against: str
    half_against: str
    axis: str
    """The line that bars stand left and right of."""
    across: str
    """A horizontal line."""
    dot: str
    band: str
    band_left: str
    band_right: str
    point: str
    """A value on an axis."""
    second: str
    """Another value on the same axis."""
    pivot: str
    poise: str
    """Where a club balances."""
    aim: str
    """Where a mark is about to be put."""
    half_tone: str
    """Between a dot and a full tone."""
    fine: bool
    """Whether there are dots finer than a cell."""
    cursor: str
    more: str
    arrow: str
    minus: str
    times: str
    yes: str
    pen: str
    """What a person took into his own hands."""


FULL = Glyphs(
    known="●", closed="◌", open="○", skipped="◦", needless="·", dormant="▫",
    leads="◆", could_win="◇", beaten="·", out="×",
    bar_for="█", half_for="▌", bar_against="▓", half_against="▐",
    axis="│", across="─", dot="·",
    band="━", band_left="┣", band_right="┫", point="●", second="○", pivot="▲", poise="△",
    half_tone="▒", aim="╋",
    fine=True, cursor="▸", more="…", arrow="→", minus="−", times="×", yes="✓", pen="✎",
)  # fmt: skip
"""Signs for a terminal that can."""
PLAIN = Glyphs(
    known="#", closed="?", open="o", skipped="-", needless=".", dormant="z",
    leads="*", could_win="+", beaten=".", out="x",
    bar_for="#", half_for="-", bar_against="=", half_against="-",
    axis="|", across="-", dot=".",
    band="=", band_left="[", band_right="]", point="#", second="o", pivot="^", poise="A",
    half_tone="-", aim="+",
    fine=False, cursor=">", more="~", arrow=">", minus="-", times="x", yes="+", pen="!",
)  # fmt: skip
"""Signs of seven bits."""

_SEVEN = {
    "…": "~", "–": "-", "—": "-", "−": "-", "×": "x", "’": "'", "‘": "'", "“": '"', "”": '"', "°": "d",
    "·": ".", "½": "+", "─": "-", "│": "|", "→": ">", "▸": ">", "█": "#", "✓": "+", "●": "#", "○": "o",
}  # fmt: skip


def seven_bit(text: str) -> str:
    """Return a text in signs of seven bits and in as many cells; what has no likeness becomes `?`."""
    if text.isascii():
        return text
    return "".join(c if c.isascii() else _alike(c) for c in text)


@cache
def _alike(letter: str) -> str:
    """Return what a letter looks most like in seven bits, in as many cells: an e for an e with an accent."""
    if letter in _SEVEN:
        return _SEVEN[letter]
    bare = normalize("NFKD", letter)[:1]
    alike = bare.isascii() and bare.isprintable() and cells(letter) == 1
    return bare if alike else "?" * cells(letter)
