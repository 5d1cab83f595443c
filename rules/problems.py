"""What goes wrong for a user's reason, as one clear sentence: what, where, what to do."""

from __future__ import annotations


class Problem(Exception):  # noqa: N818  # a user's problem, not the program's error
    """Bad input of any sort. `str()` is one sentence fit for a person; commands end with status 2."""
