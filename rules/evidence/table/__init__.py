"""Trial shots as comma-separated values: read in any column order, written so that no cell is a formula."""

from __future__ import annotations

from rules.evidence.table.reading import Rejected, ShotTable, TableProblem, read_shots
from rules.evidence.table.writing import shots_table

__all__ = ["Rejected", "ShotTable", "TableProblem", "read_shots", "shots_table"]
