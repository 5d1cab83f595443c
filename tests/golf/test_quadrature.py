"""The six strikes: against sampling, and at the edges."""

from __future__ import annotations

import math
import random
from functools import partial

import pytest

from rules.golf.contact import height_up_face
from rules.golf.flight import fly
from rules.golf.impact import Clubhead, strike
from rules.golf.outcome import Outcomes, Worth, play
from rules.golf.quadrature import Face, Lie, mixture, six_strikes, three_nodes
from rules.golf.strike import StrikePattern
from rules.problems import Problem

FACE = Face(math.radians(15), 0.033, 0.0165)
LIES = [Lie(50, 0.0, 0.001), Lie(20, 0.001, 0.004), Lie(20, 0.004, 0.012), Lie(10, 0.005, 0.010)]
PATTERN = StrikePattern(-0.002, -0.003, 0.010, 0.005, 0.3)
HEAD = Clubhead(0.215, 0.82, 0.2, 0.02, 1500e-7, 2300e-7)
LOFT, ATTACK = math.radians(12), math.radians(-3)


def test_one_normal_gives_the_textbook_nodes() -> None:
    # Gauss-Hermite, three points: mean and mean +- sqrt(3) sd, weights 2/3 and 1/6
    nodes = three_nodes((0.001, 4e-6, 0.0, 3 * 16e-12, 0.0))
    assert [x for x, _ in nodes] == pytest.approx([0.001 - 0.002 * 3**0.5, 0.001, 0.001 + 0.002 * 3**0.5])
    assert [w for _, w in nodes] == pytest.approx([1 / 6, 2 / 3, 1 / 6])


def test_one_uniform_gives_the_textbook_nodes() -> None:
    # Gauss-Legendre, three points on -1 to 1: 0 and +- sqrt(3/5), weights 4/9 and 5/18
    nodes = three_nodes((0.0, 1 / 3, 0.0, 1 / 5, 0.0))
    assert [x for x, _ in nodes] == pytest.approx([-(0.6**0.5), 0.0, 0.6**0.5], abs=1e-12)
    assert [w for _, w in nodes] == pytest.approx([5 / 18, 4 / 9, 5 / 18])


def test_no_spread_at_all_is_the_mean_thrice() -> None:
    assert [x for x, _ in three_nodes((0.004, 0.0, 0.0, 0.0, 0.0))] == [0.004] * 3


def test_mean_height_is_geometry_plus_habit_less_the_head_s_own_centre() -> None:
    moments = mixture(PATTERN, [Lie(1, 0.0, 0.0)], FACE, ATTACK)
    assert moments[0] == pytest.approx(height_up_face(FACE.loft, 0.0, ATTACK) - 0.003 - 0.0165)
    assert moments[1] == pytest.approx(0.005**2)


def test_six_strikes_answer_like_twenty_thousand() -> None:
    """Carry over the pattern, against plain sampling of the same pattern (standard error 0.06 yd)."""
    dice, total, n = random.Random(6), 0.0, 6000
    for lie in dice.choices(LIES, [lie.share for lie in LIES], k=n):
        a, b = dice.gauss(0, 1), dice.gauss(0, 1)
        met = height_up_face(FACE.loft, dice.uniform(lie.low, lie.high), ATTACK)
        high = met + PATTERN.mean_high + PATTERN.sd_high * a - FACE.cg_up_face
        toe = PATTERN.mean_toe + PATTERN.sd_toe * (0.3 * a + math.sqrt(1 - 0.09) * b)
        kept = min(max(high, -FACE.cg_up_face), FACE.height - FACE.cg_up_face)
        total += fly(strike(40.0, LOFT, ATTACK, HEAD, toe, kept), 1.2).carry
    nobody_tops = Outcomes(0.0, 0.0, 0.0)
    six = play(
        40.0,
        (LOFT, ATTACK),
        HEAD,
        six_strikes(PATTERN, LIES, FACE, ATTACK),
        nobody_tops,
        Worth(0.1, 0.6, 0.5, 8.0, 16.0),
        partial(fly, density=1.2),
    )
    assert six.expected == pytest.approx(total / n, abs=0.5)
    assert six.expected < six.centred.carry


def test_a_tall_tee_is_kept_on_the_face() -> None:
    strikes = six_strikes(PATTERN, [Lie(1, 0.030, 0.040)], FACE)
    assert max(one.high for one in strikes) == FACE.height - FACE.cg_up_face


@pytest.mark.parametrize("lies", [[], [Lie(0, 0, 0)], [Lie(1, 0, 0), Lie(-1, 0, 0)], [Lie(1, 0.002, 0.001)]])
def test_lies_that_are_none_are_refused(lies: list[Lie]) -> None:
    with pytest.raises(Problem, match="lie"):
        six_strikes(PATTERN, lies, FACE)
