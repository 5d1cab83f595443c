"""Where the face meets the ball: geometry of a lofted face behind a ball on turf.

The datum is the leading edge, and heights are measured *up the face* from it. A head whose face is stated
"sole to top" stands on its sole: with the leading edge some millimetres off the ground (its ground clearance)
the ball is met that much lower, which shifts a whole family of faces; give that as `clearance`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from rules.golf.ball import RADIUS
from rules.problems import Problem

LOFT_RANGE = (math.radians(1.0), math.radians(70.0))
"""rad: lofts for which the ball is met on the face and not by an edge."""

RAISED_RANGE = (-0.005, 0.08)
"""m: from a ball sitting down to the tallest tee."""


def height_up_face(loft: float, raised: float = 0.0, attack: float = 0.0, clearance: float = 0.0) -> float:
    """Return the distance up the face from the leading edge at which the ball is met, m.

    (r + b - c - r sin L) / cos L, r = 21.34 mm, b the height in m by which the lie raises the ball above
    the path of the sole (bare turf 0; in grass less than the blades, since the sole sinks too), c the
    clearance of the leading edge, L = loft + attack in rad. A falling blow (attack below 0) takes loft off,
    and so meets the ball higher: about 1 mm at -3 degrees, 2 mm at -6. On bare turf 16.4 mm at 15 degrees,
    14.7 at 21.

    Problem for lofts outside 1 to 70 degrees or a ball more than 5 mm down or 80 mm up.
    """
    return heights_up_face(loft, (raised,), attack, clearance)[0]


def heights_up_face(
    loft: float, raises: Sequence[float], attack: float = 0.0, clearance: float = 0.0
) -> list[float]:
    """Return where one face meets balls raised by so many m, as `height_up_face` does for one of them."""
    delivered = loft + attack
    low, high = LOFT_RANGE
    if not low <= delivered <= high:
        shown = math.degrees(delivered)
        raise Problem(
            f"a delivered loft of {shown:.1f} deg is outside 1 to 70 deg; check loft and attack angle"
        )
    bare, upright = RADIUS * (1.0 - math.sin(delivered)), math.cos(delivered)
    least, most = RAISED_RANGE
    found = []
    for raised in raises:
        if not least <= raised <= most:
            raise Problem(
                f"a ball raised by {raised * 1000:g} mm is outside -5 to 80 mm; check the lie or the tee"
            )
        found.append((bare + raised - clearance) / upright)
    return found


def centred_face_height(
    loft: float, raised: float = 0.0, attack: float = 0.0, clearance: float = 0.0
) -> float:
    """Return the height in m of the face whose centre meets the ball: twice the height up the face.

    This doubling is a cross-check for fairway woods (30 to 32 mm off bare turf, as common practice has it);
    the judge is where the head's centre of mass projects on its face: see `above_centre`.
    """
    return 2.0 * height_up_face(loft, raised, attack, clearance)


def above_centre(height: float, cg_up_face: float) -> float:
    """Return how far above the line through the head's centre of mass a strike lies, m (below: negative).

    Both are measured up the face from the leading edge: the strike, and the point where a normal to the face
    passes through the centre of mass.
    """
    return height - cg_up_face
