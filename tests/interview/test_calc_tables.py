"""Calculations that lay out tables: lengths, faces, tips and deliveries, as notes and as JSON."""

from __future__ import annotations

import json
from itertools import pairwise
from typing import Any

import pytest

from interview.commands.main import main

Capture = pytest.CaptureFixture[str]
LENGTH = ["length", "--length", "42 in", "--head-speed", "88 mph", "--loft", "16 deg"]
LENGTH += ["--head-mass", "212 g", "--shaft-mass", "70 g"]
FACE = ["face", "--loft", "18 deg", "--face-height", "31 mm", "--cg-up-face", "16.2 mm"]
FACE += ["--lie", "tight_fairway=50", "--lie", "fairway=25", "--lie", "tee=25"]
CUTS = ["tip", "--tip", "0.335 in", "--bore", "0.335 in", "--raw-length", "46 in", "--length", "42 in"]
CUTS += ["--to-ground", "1.25 in", "--trim", "1 in"]
LAUNCH = ["delivered", "--head-speed", "88 mph", "--loft", "18 deg"]


def as_json(words: list[str], capsys: Capture) -> dict[str, Any]:
    assert main(["calc", *words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def as_note(words: list[str], capsys: Capture) -> str:
    assert main(["calc", *words]) == 0
    out = capsys.readouterr().out
    assert max(map(len, out.splitlines())) <= 80
    return " ".join(out.split())


def test_a_club_by_half_inches(capsys: Capture) -> None:
    rows = as_json(LENGTH, capsys)["rows"]
    assert [row["length_in"] for row in rows] == [40.5, 41, 41.5, 42, 42.5, 43, 43.5]
    told = rows[3]
    assert (told["head_speed_mph"], told["scatter_toe_mm"]) == (88.0, 10.0)
    assert rows[5]["head_speed_mph"] == pytest.approx(88 * 1.006)
    assert rows[1]["scatter_high_mm"] == pytest.approx(6 * 0.94)
    for one, other in pairwise(rows):
        assert one["mass_needed_g"] > other["mass_needed_g"]
        # three points for half an inch at two grams a point
        rule = one["rule_of_thumb"]["mass_needed_g"] - other["rule_of_thumb"]["mass_needed_g"]
        assert rule == pytest.approx(6.0)
        assert one["carry_yd"]["low"] <= one["carry_yd"]["expected"] <= one["carry_yd"]["high"]
    assert told["rule_of_thumb"]["mass_needed_g"] == pytest.approx(told["mass_needed_g"])


def test_the_mass_at_a_length_is_that_of_the_sum_of_parts(capsys: Capture) -> None:
    """Worked by hand at 42 in, D0, nothing off the tip: what 212 g at 41.4 in lacks.

    Shaft 42 - 1.25 - 0.125 = 40.625 in of 46, even: 70 x 40.625 / 46 = 61.821 g, its centre 40.625 / 2 +
    0.125 = 20.4375 in. Moments about 14 in, g*in: shaft 61.821 x 6.4375 = 397.97; grip 50 x -10 = -500;
    glue 4 x (42 - 2.375 - 14) = 102.5; head 212 x 27.4 = 5808.8; together 5809.27. D0 is 6052.62.
    """
    told = as_json(LENGTH, capsys)["rows"][3]
    assert told["mass_needed_g"] == pytest.approx((6052.62 - 5809.27) / 27.4, abs=0.01)


def test_lengths_say_what_is_assumed(capsys: Capture) -> None:
    said = as_note(LENGTH, capsys)
    for phrase in (
        "Trust the exact sum",
        "bench rule",
        "no published table was found",
        "Check it on the scale",
    ):
        assert phrase in said
    assert "106.7 cm" in as_note([*LENGTH, "--units", "metric"], capsys)


def test_a_face_over_lies(capsys: Capture) -> None:
    got = as_json(FACE, capsys)
    assert got["tightest_that_matters"] == "tight_fairway"
    # tight 0.5 mm: (21.335 (1 - sin 16) + 0.5) / cos 16 = 16.60 mm at -2 deg of attack
    assert got["asked_cg_up_face_mm"] == pytest.approx(16.60, abs=0.02)
    assert got["face_height_mm"] == pytest.approx(2 * got["asked_cg_up_face_mm"])
    lies = got["lies"]
    assert lies["tee"]["loss_percent"] > lies["rough"]["loss_percent"] > lies["tight_fairway"]["loss_percent"]
    assert lies["rough"]["share_percent"] == 0
    assert lies["fairway"]["share_percent"] == 25
    assert got["heads"]
    said = as_note(FACE, capsys)
    assert "Off a tee this face gives up" in said
    assert "> tight fairway 50 %" in said


def test_a_teed_ball_asks_for_another_face(capsys: Capture) -> None:
    teed = as_json([*FACE[:7], "--lie", "tee=90", "--lie", "fairway=10"], capsys)
    assert teed["tightest_that_matters"] == "tee"
    assert teed["face_height_mm"] > 50


def test_cuts_of_a_raw_shaft(capsys: Capture) -> None:
    got = as_json(CUTS, capsys)
    # 42 - 1.25 - 0.125 of cap = 40.625; 46 - 1 - 40.625 = 4.375
    assert got["cuts_in"] == {"tip": 1.0, "butt": 4.375, "shaft": 40.625}
    assert got["verdict"] == "fits"
    deeper = as_json([*CUTS, "--note-depth", "1 in"], capsys)
    assert deeper["cuts_in"]["tip"] == 1.25


def test_a_small_tip_in_a_hybrid_bore_is_advised_against(capsys: Capture) -> None:
    words = ["tip", "--tip", "0.335 in", "--bore", "0.370 in"]
    assert as_json(words, capsys)["gap_in"] == pytest.approx(0.035)
    assert "Advised against" in as_note(words, capsys)


def test_an_old_taper_bore_and_its_ways(capsys: Capture) -> None:
    words = ["tip", "--tip", "0.370 in", "--bore", "0.355 in", "--taper-bore", "--open-to", "0.370 in"]
    got = as_json([*words, "--hosel-outside", "0.480 in", "--fixture"], capsys)
    # (0.480 - 0.370) / 2 = 0.055 in = 1.397 mm
    assert got["opening"] == {"allowed": True, "wall_mm": pytest.approx(1.397)}
    assert (
        as_json([*words, "--hosel-outside", "0.430 in", "--fixture"], capsys)["opening"]["allowed"] is False
    )
    assert as_json(words, capsys)["opening"] == {"allowed": False, "wall_mm": None}
    assert "A taper shaft" in as_note(words, capsys)


def test_a_launch_tells_what_was_delivered(capsys: Capture) -> None:
    # The blow of 16 deg at -2, from `calc impact`: what comes back is what went in.
    blow = [
        "impact",
        "--head-speed",
        "88 mph",
        "--loft",
        "16 deg",
        "--attack",
        "-2 deg",
        "--head-mass",
        "215 g",
    ]
    launch = as_json(blow, capsys)
    seen = [
        "--ball-speed", f"{launch['ball_speed_mph']} mph", "--launch", f"{launch['launch_deg']} deg",
        "--spin", f"{launch['spin_rpm']} rpm",
    ]  # fmt: skip
    got = as_json([*LAUNCH, *seen], capsys)
    assert got["delivered_loft_deg"] == pytest.approx(16, abs=0.4)
    assert got["spread_deg"] < 1
    assert "takes off the club's loft" in as_note([*LAUNCH, *seen], capsys)


def test_a_height_tells_a_loft(capsys: Capture) -> None:
    low, high = (
        as_json([*LAUNCH, "--apex", f"{feet} ft"], capsys)["delivered_loft_deg"] for feet in (55, 85)
    )
    assert low < high
    assert "From a height alone" in as_note([*LAUNCH, "--apex", "70 ft"], capsys)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([*LENGTH, "--head-mass", "-212 g"], "the head mass is -212 g"),
        ([*LENGTH, "--loft", "0 deg"], "loft"),
        ([*LENGTH, "--length", "49 in"], "does not conform: the longest allowed is 48 in"),
        ([*LENGTH, "--shaft-length", "38 in"], "take a longer raw shaft"),
        ([*LENGTH, "--head-speed", "nan"], "--head-speed: 'nan' does not start with a number"),
        ([*LENGTH, "--speed-per-inch", "50 %"], "an inch is outside"),
        ([*LENGTH, "--swing-weight", "Z9"], "--swing-weight: "),
        ([*FACE, "--lie", "carpet=3"], "--lie: 'carpet=3' is not a lie and its share"),
        ([*FACE, "--lie", "rough=-3"], "--lie: "),
        ([*FACE, "--cg-up-face", "40 mm"], "the line must lie on the face"),
        ([*FACE, "--loft", "0 deg"], "loft"),
        (["tip", "--tip", "0.370 in"], "the following arguments are required: --bore"),
        (["tip", "--tip", "0.370 in", "--bore", "2 in"], "diameter of the bore is 2 in"),
        ([*CUTS, "--length", "49 in"], "does not conform"),
        ([*CUTS, "--raw-length", "40 in"], "take a longer raw shaft"),
        (
            [*CUTS, "--parallel-tip", "2 in", "--insertion", "1.125 in"],
            "take a shaft with a longer parallel tip",
        ),
        (
            ["tip", "--tip", ".335", "--bore", ".335", "--length", "42 in"],
            "is missing: it goes with --length",
        ),
        (LAUNCH, "give either a measured launch"),
        ([*LAUNCH, "--apex", "300 ft"], "--apex: no loft from 2 to 40 deg"),
    ],
)
def test_what_makes_no_sense_is_one_sentence(words: list[str], said: str, capsys: Capture) -> None:
    assert main(["calc", *words]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert err.count("\n") == 1
