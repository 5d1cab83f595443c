"""What a study of an outcome adds: how sure it is, what would change it, what it leans on."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from interview.views.numbers import Plain


class Change(NamedTuple):
    """The nearest value of one fact that changes a decision, through the physics."""

    fact: str
    now: Plain
    """What it is, in `unit`."""
    to: Plain
    """What it would have to be, in `unit`."""
    unit: str | None
    pick: str
    """What would be picked then."""


class Study(NamedTuple):
    """A study as views render it; whoever runs one fills it in. Without one its fields are null."""

    sure: float | None = None
    """Share of draws over the spread of all facts in which the pick stays, 0 to 1."""
    steady: bool | None = None
    """Every plausible completion of the open questions gives the same pick."""
    would_change: Mapping[str, tuple[Change, ...]] = MappingProxyType({})
    """By decision: what would change it."""
    changes_pick: Mapping[str, bool] = MappingProxyType({})
    """By assumption: whether its plausible range changes the pick."""
