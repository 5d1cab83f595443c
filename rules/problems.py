"""What goes wrong for a user's reason, as one clear sentence: what, where, what to do."""

from __future__ import annotations


class Problem(Exception):
    """Bad input of any sort. `str()` is one sentence fit for a person; commands end with status 2."""
