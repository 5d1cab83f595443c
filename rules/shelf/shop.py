"""The shop itself: its name, its bench and what its own finished clubs taught it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Calibration:
    """What a shop learned from its own finished clubs on its own scale (`turfpair calc calibrate`)."""

    setback: float
    """A head's centre of mass projects on the shaft this far short of the length mark (m)."""
    glue_and_ferrule: float
    """Ferrule and adhesive together (kg)."""
    ruler_offset: float
    """How much less the bench ruler reads than the 60-degree plane (m)."""
    learned_from: str
    """Which clubs it was learned from; empty while it is an assumption."""
    assumed: frozenset[str] = frozenset()
    """Names of the fields that are assumptions."""


@dataclass(frozen=True, slots=True)
class Shop:
    """A shop's own settings."""

    name: str
    """What it calls itself."""
    units: Literal["imperial", "metric"]
    """How it likes quantities displayed."""
    glue_bench_temperature: float
    """Temperature where clubs cure (K)."""
    swing_weight_tolerance: float
    """How near to target it builds (points); a house setting, not found in writing."""
    calibration: Calibration
    """What its own clubs taught it."""
    assumed: frozenset[str] = frozenset()
    """Names of the fields that the shop left out and a declared default fills."""
