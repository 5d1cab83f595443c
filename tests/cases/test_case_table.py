"""Every case of the trade is asserted, or listed with the reason why this product does not answer it."""

from __future__ import annotations

import re
from pathlib import Path

CASES = {
    "A01": "a wood shortened by an inch: points lost, grams to restore",
    "A02": "a lighter grip on the swing-weight scale",
    "A04": "a wood wanted two inches shorter",
    "A05": "fat shots blamed on a quarter inch",
    "A07": "how much lead tape makes a point, and whether it bends a shot",
    "A08": "two ports: where the heavy screw goes",
    "A10": "matched by inertia or by balance",
    "A11": "a 0.335 in tip in a 0.370 in bore",
    "A12": "an old taper bore and a softer, lighter shaft",
    "A14": "shaft mass with the driver shaft known",
    "A16": "saving a glued-in graphite shaft",
    "A17": "a reshafted wood wanted in an hour",
    "A19": "a slow swinger and a 15-degree wood off turf",
    "A21": "a 3-wood that goes as far as the driver",
    "A22": "7-wood or hybrid for a high handicapper",
    "A25": "steep or shallow: hybrid or wood",
    "A27": "fourteen clubs already",
    "A29": "wood, hybrid and iron of 21 degrees",
    "A30": "thin and low off tight fairways: which face",
    "A32": "only the hybrid hooks",
    "A33": "an over-long 3-wood",
    "A35": "a tall golfer",
    "A36": "a junior and cut-down clubs",
    "A40": "250 yards at 90 mph",
    "A41": "the apex that suits a speed",
}
"""Questions put to club makers and fitters in public, in our own words (common practice)."""
UNANSWERED: dict[str, str] = {}
"""Cases left out, each with its reason; at most three."""


def test_every_case_is_asserted_or_listed_with_its_reason() -> None:
    text = "".join(path.read_text(encoding="utf-8") for path in Path(__file__).parent.glob("test_*.py"))
    asserted = {name.upper() for name in re.findall(r"^def test_(a\d\d)_", text, re.MULTILINE)}
    assert asserted == CASES.keys() - UNANSWERED.keys()
    assert len(UNANSWERED) <= 3
