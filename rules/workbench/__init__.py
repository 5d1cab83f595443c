"""The chosen clubs at the bench: planned, built, read, corrected, and certified against the demo.

What every run of the road needs is here; readings, ways out, matching and certificates are asked of their
own modules, so that a run that wants none of them loads none of them.
"""

from __future__ import annotations

from rules.workbench.club import Club, finish
from rules.workbench.shared import apart, finish_both

__all__ = ["Club", "apart", "finish", "finish_both"]
