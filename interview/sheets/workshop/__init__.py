"""The workshop's sheet: numbers only, every line of the build, with boxes for readings and initials."""

from __future__ import annotations

from interview.sheets.workshop.sheet import WorkshopSheet, workshop_sheet

__all__ = ["WorkshopSheet", "workshop_sheet"]
