"""Six strikes that stand for a golfer's whole pattern on all his lies, the same to the bit each time.

Low-high there are three, heel-toe two. The three come from *one* mixture over his lies: each lie raises the
ball by a height that is even between two limits, each weighs as he meets it, and his own scatter lies on
top. They are the Gauss nodes of that mixture, so that any quantity that is a polynomial of degree five in
the height of strike is averaged exactly; the two average degree three in heel-toe exactly.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from rules.golf.contact import heights_up_face
from rules.golf.strike import StrikePattern
from rules.problems import Problem


@dataclass(frozen=True, slots=True)
class Lie:
    """A lie the golfer meets: how often, and how far it raises the ball above the path of the sole."""

    share: float
    """Of his shots; shares need not add up to 1, they are scaled."""

    low: float
    """m: the least it raises the ball."""

    high: float
    """m: the most; heights between are taken to be equally likely."""


class Face(NamedTuple):
    """A head's face, measured up it from the leading edge, m."""

    loft: float
    """rad, static."""

    height: float
    """To the top edge."""

    cg_up_face: float
    """To the point through which the normal to the face passes through the centre of mass."""

    clearance: float = 0.0
    """Of the leading edge above the ground when the sole rests on it."""


class Strike(NamedTuple):
    """One of the strikes that stand for the pattern."""

    toe: float
    """m toward the toe."""

    high: float
    """m above the line through the centre of mass."""

    weight: float
    """Its share; the six add up to 1."""


Moments = tuple[float, float, float, float, float]
"""Mean, then central moments two to five."""


def mixture(pattern: StrikePattern, lies: Sequence[Lie], face: Face, attack: float = 0.0) -> Moments:
    """Return the moments of strike height above the centre of mass, over all lies and the golfer's scatter,
    m.

    Within a lie the height is a uniform plus a normal: its second and fourth central moments are w^2/12 +
    s^2 and w^4/80 + 6 s^2 w^2/12 + 3 s^4, odd ones nought. Problem when no lie has a share.
    """
    total = math.fsum([lie.share for lie in lies])
    if not total > 0.0 or any(lie.share < 0.0 or lie.high < lie.low for lie in lies):
        raise Problem("at least one lie needs a share above 0, and each its lower height first")
    ends = [end for lie in lies for end in (lie.low, lie.high)]
    met, own, high = (
        heights_up_face(face.loft, ends, attack, face.clearance),
        pattern.sd_high**2,
        pattern.mean_high,
    )
    parts = []
    for lie, lowest, highest in zip(lies, met[::2], met[1::2], strict=True):
        # Weight, mean, variance and fourth central moment of strike height on one lie.
        width2, mean = (highest - lowest) ** 2, (lowest + highest) / 2 + high - face.cg_up_face
        fourth = width2**2 / 80 + own * width2 / 2 + 3 * own**2
        parts.append((lie.share / total, mean, width2 / 12 + own, fourth))
    mean = math.fsum([w * m for w, m, _, _ in parts])
    away = [(w, m - mean, v, f) for w, m, v, f in parts]
    return (
        mean,
        math.fsum([w * (d**2 + v) for w, d, v, _ in away]),
        math.fsum([w * (d**3 + 3 * d * v) for w, d, v, _ in away]),
        math.fsum([w * (d**4 + 6 * d**2 * v + f) for w, d, v, f in away]),
        math.fsum([w * (d**5 + 10 * d**3 * v + 5 * d * f) for w, d, v, f in away]),
    )


def three_nodes(moments: Moments) -> tuple[tuple[float, float], ...]:
    """Return the three Gauss nodes of a distribution with their weights, lowest first.

    G. H. Golub and J. H. Welsch, Math. Comp. 23 (1969) 221: nodes are the roots of the third orthogonal
    polynomial, here built from the moments and solved by Viete's cosines. A distribution without spread
    gives its mean thrice.
    """
    mean, m2, m3, m4, m5 = moments
    sd = math.sqrt(m2)
    if sd < 1e-9:
        return ((mean, 1 / 6), (mean, 2 / 3), (mean, 1 / 6))
    skew, kurt, fifth = m3 / sd**3, m4 / sd**4, m5 / sd**5
    # Below this a mixture has, to all purposes, two points only, and a third node has nothing to stand for.
    norm = max(kurt - skew * skew - 1.0, 1e-6)
    third = (fifth - 2 * skew * kurt + skew**3) / norm
    nodes = _cubic_roots(-third - skew, third * skew - 1.0 - norm, third)
    weights = [1.0 / (1.0 + x * x + (x * x - skew * x - 1.0) ** 2 / norm) for x in nodes]
    total = math.fsum(weights)
    return tuple((mean + sd * x, w / total) for x, w in zip(nodes, weights, strict=True))


def _cubic_roots(a: float, b: float, c: float) -> tuple[float, float, float]:
    """Return the three real roots of x^3 + a x^2 + b x + c, rising (Viete; only for cubics that have
    three)."""
    p, q = a * a / 9 - b / 3, (2 * a**3 - 9 * a * b + 27 * c) / 54
    radius = math.sqrt(max(p, 0.0))
    turn = math.acos(max(-1.0, min(1.0, q / radius**3))) if radius > 0.0 else 0.0
    low, middle, high = [-2 * radius * math.cos((turn + k * math.tau) / 3) - a / 3 for k in (0, -1, 1)]
    return low, middle, high


def six_strikes(
    pattern: StrikePattern, lies: Sequence[Lie], face: Face, attack: float = 0.0
) -> tuple[Strike, ...]:
    """Return the six strikes that stand for a pattern over lies: low, middle, high, each heelward then
    toeward.

    Heights are kept on the face: a node over the top edge, or under the leading one, is put at the edge
    (what goes past an edge is a topped or skied ball, an outcome of its own). Heel-toe follows height as
    far as the pattern's correlation says, and lies symmetrically about that.
    """
    moments = mixture(pattern, lies, face, attack)
    mean, variance = moments[0], moments[1]
    shared = pattern.correlation * pattern.sd_toe * pattern.sd_high
    slope = shared / variance if variance > 0.0 else 0.0
    aside = math.sqrt(max(pattern.sd_toe**2 - slope * shared, 0.0))
    found: list[Strike] = []
    for high, weight in three_nodes(moments):
        toe, kept = pattern.mean_toe + slope * (high - mean), on_face(high, face)
        found += [Strike(toe - aside, kept, weight / 2), Strike(toe + aside, kept, weight / 2)]
    return tuple(found)


def three_heights(
    pattern: StrikePattern, lies: Sequence[Lie], face: Face, attack: float = 0.0
) -> list[tuple[float, float]]:
    """Return the heights of the six strikes with their weights, lowest first: heel and toe left aside."""
    nodes = three_nodes(mixture(pattern, lies, face, attack))
    return [(on_face(high, face), weight) for high, weight in nodes]


def on_face(high: float, face: Face) -> float:
    """Return a height above the line through the centre of mass, m, kept between the face's two edges."""
    return min(max(high, -face.cg_up_face), face.height - face.cg_up_face)
