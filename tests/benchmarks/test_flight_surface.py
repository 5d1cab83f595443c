"""The lazy surface against flights, in one run: how close its carries are, and how many times faster."""

from __future__ import annotations

import math
import random
import time

import pytest

from rules.golf.coefficients import LAWS, RPM, Law
from rules.golf.flight import Launch, fly
from rules.golf.surface import CarrySurface

DENSITY = 1.19
YARD = 0.9144
CENTRES = ((58, 9, 3500), (55, 11, 4200), (52, 13, 4800), (45, 12, 3300), (66, 9.5, 3900), (48, 14, 4300))


def draws(n: int) -> list[Launch]:
    """Launches as an uncertain golfer draws them: around six clubs, speed, launch and spin all loose."""
    dice = random.Random(25)
    found: list[Launch] = []
    while len(found) < n:
        speed, angle, spin = dice.choice(CENTRES)
        drawn = (dice.gauss(speed, 2), dice.gauss(angle, 2), dice.gauss(spin, 500))
        if drawn[1] > 1:
            found.append(Launch(drawn[0], math.radians(drawn[1]), drawn[2] * RPM))
    return found


@pytest.mark.parametrize("law", LAWS)
def test_surface_within_a_tenth_of_a_yard_and_ten_times_faster(law: Law) -> None:
    balls = draws(1500)
    start = time.perf_counter()
    flown = [fly(ball, DENSITY, law) for ball in balls]
    middle = time.perf_counter()
    surface = CarrySurface(DENSITY, law)
    for ball in balls:
        surface.carry(ball.speed, ball.angle, ball.spin)
    filled = time.perf_counter()
    read = [surface.carry(ball.speed, ball.angle, ball.spin) for ball in balls]
    end = time.perf_counter()
    gaps = [(a - b.carry) / YARD for a, b in zip(read, flown, strict=True)]
    rms = math.sqrt(math.fsum(gap * gap for gap in gaps) / len(gaps))
    ratio = (middle - start) / (end - filled)
    print(
        f"\n{law} law: RMS {rms:.3f} yd, worst {max(map(abs, gaps)):.2f} yd, {ratio:.0f}x faster than "
        f"flying, {surface.flights} nodes flown for {len(balls)} draws"
    )
    assert rms < 0.1
    assert ratio > 10
