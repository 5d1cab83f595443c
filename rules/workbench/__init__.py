"""The chosen clubs at the bench: planned, built, read, corrected, and certified against the demo."""

from __future__ import annotations

from rules.workbench.club import Club, finish

__all__ = ["Club", "finish"]
