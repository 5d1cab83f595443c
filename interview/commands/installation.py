"""Whether the packages that were installed are ours.

Another distribution on the package index also installs a package called `rules` and overwrites ours
without a word. That is noticed before anything of `rules` is used.
"""

from __future__ import annotations

import importlib
from pathlib import Path

import interview

_OURS = "turfpair"
FOREIGN = (
    "turfpair: the package '{package}' at {place} is not Turfpair's (another distribution has replaced it); "
    "install Turfpair again in a virtual environment of its own"
)
"""The one sentence said when one of them is not."""


def foreign_rules() -> str | None:
    """Return the sentence to say when `rules` or `interview` is not ours, or None when all is well."""
    try:
        rules = importlib.import_module("rules")
    except Exception:
        return FOREIGN.format(package="rules", place="(it cannot be imported)")
    ours = Path(__file__).resolve().parents[1]
    met = Path(interview.__file__ or "nowhere").resolve().parent
    if met != ours:
        return FOREIGN.format(package="interview", place=met)
    home = ours.parent
    place = Path(rules.__file__ or "nowhere").resolve().parent
    if getattr(rules, "DISTRIBUTION", None) == _OURS and place.parent == home:
        return None
    return FOREIGN.format(package="rules", place=place)
