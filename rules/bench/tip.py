"""Whether a shaft's tip belongs in a head's bore, and what may be done when it does not.

Common practice unless said otherwise. Parallel tips are .335 and .350 in (woods) and .370 in (hybrids and
irons), taper tips .355 in. Work on a bore wants eye protection, a fixture and a wall that allows it; local
codes and the head maker's own word come first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rules.bench.problems import require
from rules.units import UNITS

_INCH = UNITS["in"].factor
_MM = UNITS["mm"].factor

SNUG = 0.004 * _INCH
"""A gap this small is only room for glue, m (house value)."""
SHIM_UP_TO = 0.015 * _INCH
"""A shim centres a tip over a gap up to this, m (case of the trade: .335 in .350)."""
SLEEVE_UP_TO = 0.035 * _INCH
"""Only a full-depth centred sleeve bridges up to this, m (.335 in .370)."""
LEAST_WALL = 1.0 * _MM
"""House value for the least hosel wall after opening, m (0.8 to 1.3 mm); the maker's figure goes first."""

Verdict = Literal["fits", "shim", "sleeve", "refused"]


@dataclass(frozen=True, slots=True)
class TipFit:
    """What is to be said of one tip in one bore."""

    verdict: Verdict
    """fits; shim; sleeve (advised against, a full-depth centred sleeve or nothing); refused."""
    gap: float
    """Bore less tip across the diameter, m; negative when the tip is the larger."""
    text: str
    """One or two sentences for the bench."""

    @property
    def allowed(self) -> bool:
        """Whether it may be built at all."""
        return self.verdict != "refused"


def fit(tip: float, bore: float, *, tip_taper: bool = False, bore_taper: bool = False) -> TipFit:
    """Judge a tip (diameter, m) in a bore (m); a taper meets a taper and a parallel a parallel.

    Valid for diameters of 0.30 to 0.45 in. Raises OutOfRange.
    """
    require("diameter of the tip", tip, 0.30 * _INCH, 0.45 * _INCH, "in")
    require("diameter of the bore", bore, 0.30 * _INCH, 0.45 * _INCH, "in")
    gap = bore - tip
    if bore_taper and not tip_taper:
        return TipFit("refused", gap, _PARALLEL_IN_TAPER)
    if gap < -1e-6:
        return TipFit("refused", gap, _TOO_LARGE)
    if gap <= SNUG + 1e-6 and tip_taper and not bore_taper:
        return TipFit("refused", gap, _TAPER_IN_PARALLEL)
    if gap <= SNUG + 1e-6:
        return TipFit("fits", gap, "The tip fits the bore.")
    if gap <= SHIM_UP_TO + 1e-6:
        return TipFit("shim", gap, _SHIM)
    if gap <= SLEEVE_UP_TO + 1e-6:
        return TipFit("sleeve", gap, _SLEEVE)
    return TipFit("refused", gap, _TOO_SMALL)


_TOO_LARGE = (
    "The tip is larger than the bore: never force or sand it down, it would be cut through where it is "
    "thinnest; take a shaft made for this bore, or have the bore opened where the hosel wall allows."
)
_TOO_SMALL = (
    "The tip is far too small for the bore and no sleeve centres it; take a shaft made for this bore."
)
_SHIM = "The tip is a little small: centre it with a shim over the full depth, and note it on the sheet."
_SLEEVE = (
    "Advised against: for height take more loft or a lower head first, then a shaft made for this bore with "
    "a softer tip, which raises launch by 2 degrees at most. If it must be done: a full-depth centred "
    "sleeve, a fresh trim plan, a note on the sheet, and a look for cracks after its first range session."
)
_PARALLEL_IN_TAPER = (
    "A parallel tip bottoms out early in a taper bore; take a taper shaft, or have the bore opened to "
    "parallel where the hosel wall allows."
)
_TAPER_IN_PARALLEL = (
    "A taper tip touches a parallel bore of the same size only at its top; take a parallel shaft."
)

TAPER_BORE_WAYS: tuple[tuple[str, str], ...] = (
    ("taper_shaft", "A taper shaft in the mass and flex wanted: no work on the head, but few are made."),
    (
        "softer_blank",
        "A longer taper blank used so that it plays softer: cheap, and the flex may still miss.",
    ),
    ("open_bore", "Open the hosel to parallel, on a fixture and drill press, if the wall allows."),
)
"""Ways for an old taper-bore head, told with their cost before any work; makers disagree on the last two."""


@dataclass(frozen=True, slots=True)
class Opening:
    """Whether a bore may be opened, and the wall (m) that would be left; None when it was not measured."""

    allowed: bool
    wall: float | None
    text: str


def open_bore(bore: float, wanted: float, hosel_outside: float | None, *, fixture: bool) -> Opening:
    """Judge opening a bore to a wanted diameter (m), the hosel's outside diameter measured at its thinnest.

    Refused without a measured wall, without a fixture, or when less than LEAST_WALL would be left.
    """
    require("diameter of the bore", bore, 0.30 * _INCH, 0.45 * _INCH, "in")
    require("wanted diameter of the bore", wanted, bore, 0.45 * _INCH, "in")
    if hosel_outside is None:
        return Opening(False, None, "Not before the hosel wall is measured: its outside diameter is wanted.")
    require("outside diameter of the hosel", hosel_outside, bore, 1 * _INCH, "in")
    wall = (hosel_outside - wanted) / 2
    if not fixture:
        return Opening(False, wall, "Not by hand: a fixture and a drill press, or not at all.")
    if wall < LEAST_WALL - 1e-9:
        text = (
            f"Refused: {wall / _MM:.2f} mm of wall would be left and {LEAST_WALL / _MM:.1f} mm is the least."
        )
        return Opening(False, wall, text)
    text = (
        f"Allowed with a fixture: take the least metal; {wall / _MM:.2f} mm of wall stays, so check it after."
    )
    return Opening(True, wall, text)
