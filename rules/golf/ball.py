"""The golf ball: mass, size and moment of inertia, as the Equipment Rules bound them.

Source: Equipment Rules, Part 4 (Conformance of Balls): mass not over 1.620 oz (45.93 g), diameter not under
1.680 in (42.67 mm). Balls are made at those limits, so the limits are the values used here.
"""

from __future__ import annotations

import math

MASS = 0.04593
"""Mass, kg: 45.93 g at most."""

DIAMETER = 0.04267
"""Diameter, m: 42.67 mm at least."""

RADIUS = DIAMETER / 2
"""Radius, m."""

AREA = math.pi * DIAMETER**2 / 4
"""Frontal area, m2, against which drag and lift coefficients are stated."""

GRAVITY = 9.80665
"""Standard gravity, m/s2 (ISO 80000-3)."""
