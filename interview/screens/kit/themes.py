"""The looks: one for the sun and one for dusk. Screens name only variables of these."""

from __future__ import annotations

from textual.theme import Theme

_SUN = {
    "ink-dim": "#3f4a46",
    "ink-for": "#0b5d3b",
    "ink-against": "#8a3b12",
    "ink-mark": "#5b2a86",
    "ink-alert": "#9c1c1c",
    "ink-line": "#7b8782",
    "ink-key": "#0b4a6f",
    "paper-raised": "#e9ebe3",
}
_DUSK = {
    "ink-dim": "#a9b5ae",
    "ink-for": "#8fd6ad",
    "ink-against": "#f0b18a",
    "ink-mark": "#cfb1f0",
    "ink-alert": "#ff9d92",
    "ink-line": "#6d7a74",
    "ink-key": "#9cd0ee",
    "paper-raised": "#1d2724",
}
SUN = Theme(
    name="turfpair-sun", primary="#0b5d3b", secondary="#0b4a6f", warning="#8a3b12", error="#9c1c1c",
    success="#0b5d3b", accent="#0b4a6f", foreground="#101614", background="#fbfbf6", surface="#fbfbf6",
    panel="#e9ebe3", dark=False, text_alpha=1.0, variables=_SUN,
)  # fmt: skip
"""Dark ink on pale paper: what can be read with the sun on the screen."""
DUSK = Theme(
    name="turfpair-dusk", primary="#8fd6ad", secondary="#9cd0ee", warning="#f0b18a", error="#ff9d92",
    success="#8fd6ad", accent="#9cd0ee", foreground="#edf2ee", background="#101614", surface="#101614",
    panel="#1d2724", dark=True, text_alpha=1.0, variables=_DUSK,
)  # fmt: skip
"""Pale ink on dark paper, for evenings and indoor bays."""
THEMES = (SUN, DUSK)
"""Both looks, the usual one first."""
