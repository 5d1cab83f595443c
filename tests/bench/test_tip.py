"""Tips in bores: what fits, what is shimmed, what is advised against, what is refused."""

from __future__ import annotations

import pytest

from rules.bench.problems import OutOfRange
from rules.bench.tip import LEAST_WALL, TAPER_BORE_WAYS, fit, open_bore
from rules.units import UNITS

INCH = UNITS["in"].factor


@pytest.mark.parametrize(
    ("tip", "bore", "verdict"),
    [
        (0.335, 0.335, "fits"),
        (0.335, 0.339, "fits"),
        (0.370, 0.374, "fits"),
        (0.335, 0.3395, "shim"),
        (0.370, 0.370, "fits"),
        (0.335, 0.350, "shim"),
        (0.355, 0.370, "shim"),
        (0.350, 0.370, "sleeve"),
        (0.335, 0.370, "sleeve"),
        (0.335, 0.400, "refused"),
        (0.370, 0.335, "refused"),
        (0.350, 0.335, "refused"),
    ],
)
def test_parallel_tips_in_parallel_bores(tip: float, bore: float, verdict: str) -> None:
    got = fit(tip * INCH, bore * INCH)
    assert got.verdict == verdict
    assert got.gap / INCH == pytest.approx(bore - tip)
    assert got.allowed == (verdict != "refused")


def test_tapers_meet_tapers() -> None:
    assert fit(0.355 * INCH, 0.355 * INCH, tip_taper=True, bore_taper=True).verdict == "fits"
    assert "bottoms out" in fit(0.350 * INCH, 0.355 * INCH, bore_taper=True).text
    assert fit(0.355 * INCH, 0.355 * INCH, tip_taper=True).verdict == "refused"


@pytest.mark.parametrize("tip", [0.335, 0.350, 0.355, 0.370])
def test_each_gap_counts_up_to_its_limit_whatever_the_diameter(tip: float) -> None:
    """Snug to 4, a shim to 15, a sleeve to 35 thousandths (house value and cases of the trade)."""
    for gap, verdict in ((0.004, "fits"), (0.015, "shim"), (0.035, "sleeve"), (0.036, "refused")):
        assert fit(tip * INCH, (tip + gap) * INCH).verdict == verdict
    assert fit(tip * INCH, (tip + 0.004) * INCH, tip_taper=True).verdict == "refused"
    assert fit(tip * INCH, (tip + 0.005) * INCH, tip_taper=True).verdict == "shim"


def test_a_large_tip_is_never_forced_or_sanded() -> None:
    assert "never force or sand" in fit(0.370 * INCH, 0.335 * INCH).text


def test_a_sleeve_is_advised_against_and_says_how() -> None:
    said = fit(0.335 * INCH, 0.370 * INCH).text
    assert said.startswith("Advised against")
    assert "full-depth centred sleeve" in said


def test_opening_a_bore_wants_a_fixture_a_measured_wall_and_enough_of_it() -> None:
    wide, thin = 0.470 * INCH, 0.440 * INCH
    # (0.470 - 0.370) / 2 = 0.050 in = 1.27 mm; (0.440 - 0.370) / 2 = 0.035 in = 0.889 mm, under 1 mm
    good = open_bore(0.335 * INCH, 0.370 * INCH, wide, fixture=True)
    assert good.allowed
    assert good.wall == pytest.approx(0.00127)
    assert not open_bore(0.335 * INCH, 0.370 * INCH, thin, fixture=True).allowed
    assert not open_bore(0.335 * INCH, 0.370 * INCH, wide, fixture=False).allowed
    unmeasured = open_bore(0.335 * INCH, 0.370 * INCH, None, fixture=True)
    assert not unmeasured.allowed
    assert unmeasured.wall is None
    assert LEAST_WALL > 0


def test_nonsense_is_refused_in_a_sentence() -> None:
    with pytest.raises(OutOfRange, match=r"diameter of the tip is 3.35 in"):
        fit(3.35 * INCH, 0.370 * INCH)
    with pytest.raises(OutOfRange, match="wanted diameter"):
        open_bore(0.370 * INCH, 0.335 * INCH, 0.5 * INCH, fixture=True)


def test_the_ways_for_a_taper_bore_name_their_cost() -> None:
    assert [name for name, _ in TAPER_BORE_WAYS] == ["taper_shaft", "softer_blank", "open_bore"]
    assert "fixture" in dict(TAPER_BORE_WAYS)["open_bore"]
