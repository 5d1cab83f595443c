"""The golfer's sheet: his numbers, his clubs, and why, in plain words; his to take anywhere."""

from __future__ import annotations

from interview.sheets.golfer.sheet import GolferSheet, golfer_sheet

__all__ = ["GolferSheet", "golfer_sheet"]
