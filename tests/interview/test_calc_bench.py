"""What each bench calculation prints, as a note and as JSON."""

from __future__ import annotations

import json
from typing import Any

import pytest

from interview.commands.main import main

Capture = pytest.CaptureFixture[str]
BY_PARTS = ["balance", "--part", "215 g @ 42.4 in", "--part", "65 g @ 21 in", "--part", "50 g @ 4 in"]
SHORTEN = ["shorten", "--from", "43 in", "--to", "42 in", "--head-mass", "212 g", "--shaft-mass", "65 g"]
PORTS = ["ports", "--need", "13 g", "--port", "heel=12 g", "--port", "toe=12 g @ 30,-12,-8 mm"]
PORTS += ["--stock", "1.5x8,3x6,5x4,8", "--head-mass", "212 g"]


def as_json(words: list[str], capsys: Capture) -> dict[str, Any]:
    assert main(["calc", *words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def as_note(words: list[str], capsys: Capture) -> str:
    assert main(["calc", *words]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_balance_of_a_finished_club(capsys: Capture) -> None:
    # 390 * (29.5 - 14) = 6045 g*in = 213.231 oz*in; (213.231 - 213.5) / 1.75 = -0.154: C9.8
    got = as_json(["balance", "--mass", "390 g", "--point", "29.5 in"], capsys)
    assert got["moment_oz_in"] == pytest.approx(213.231, abs=0.001)
    assert got["points_from_D0"] == pytest.approx(-0.154, abs=0.001)
    assert (got["swing_weight"], got["total_g"], got["balance_point_in"]) == ("C9.8", 390.0, 29.5)
    assert got["inertia_kg_cm2"] is None


def test_balance_by_parts(capsys: Capture) -> None:
    got = as_json(BY_PARTS, capsys)
    assert set(got) == {
        "moment_oz_in", "swing_weight", "points_from_D0", "total_g", "balance_point_in", "inertia_kg_cm2"
    }  # fmt: skip
    assert got["points_from_D0"] == pytest.approx(0.169, abs=0.001)
    assert got["swing_weight"] == "D0.2"
    # 0.215 * 1.07696^2 + 0.065 * 0.5334^2 + 0.05 * 0.1016^2 = 0.268376 kg*m2
    assert got["inertia_kg_cm2"] == pytest.approx(2683.76, abs=0.05)


def test_a_shafts_length_adds_its_own_inertia(capsys: Capture) -> None:
    longer = [*BY_PARTS[:4], "65 g @ 21 in long 41 in", *BY_PARTS[5:]]
    # 0.065 * 1.0414^2 / 12 = 0.0058745 kg*m2
    got, point = as_json(longer, capsys), as_json(BY_PARTS, capsys)
    assert got["inertia_kg_cm2"] - point["inertia_kg_cm2"] == pytest.approx(58.745, abs=0.01)


def test_a_reading_just_under_a_letter_is_never_named_ten(capsys: Capture) -> None:
    # moment for 9.96 points: (213.5 + 9.96 * 1.75) oz*in = 6546.75 g*in; 400 g at 14 + 16.3669 in
    got = as_json(["balance", "--mass", "400 g", "--point", "30.36687 in"], capsys)
    assert got["points_from_D0"] == pytest.approx(9.96, abs=0.002)
    assert got["swing_weight"] == "E0.0"


def test_balance_says_sum_and_rule(capsys: Capture) -> None:
    said = as_note(BY_PARTS, capsys)
    assert "1.75 g by the exact sum and 2 g by the bench rule" in said
    assert "Check it on the scale" in said
    assert "add 'long 41 in'" in said


def test_shorten_both_ways(capsys: Capture) -> None:
    got = as_json([*SHORTEN, "--grip-mass", "50 g"], capsys)
    assert set(got) == {"points_change", "restore_g", "grams_per_point", "rule_of_thumb"}
    assert got["points_change"] == pytest.approx(-5.14, abs=0.01)
    assert got["restore_g"] == pytest.approx(9.11, abs=0.01)
    assert got["grams_per_point"] == pytest.approx(1.772, abs=0.001)
    assert got["rule_of_thumb"] == {"points_change": -6.0, "restore_g": 12.0}


def test_shorten_says_which_to_trust_and_asks_for_the_scale(capsys: Capture) -> None:
    said = as_note(SHORTEN, capsys)
    assert "exact sum bench rule" in said
    assert "Trust the exact sum" in said
    assert "1.6 points too heavy" in said
    assert "Check it on the scale" in said
    assert "CAUTION" not in said


def test_more_than_an_inch_is_cautioned_in_the_note(capsys: Capture) -> None:
    assert "CAUTION: more than 1 in" in as_note([*SHORTEN[:3], "--to", "41 in", *SHORTEN[5:]], capsys)


def test_a_setback_puts_the_mass_nearer_in(capsys: Capture) -> None:
    # 5.1416 * 49.6117 / (42 - 0.6 - 14) = 9.310 g
    assert as_json([*SHORTEN, "--setback", "0.6 in"], capsys)["restore_g"] == pytest.approx(9.310, abs=0.002)


def test_metric_notes(capsys: Capture) -> None:
    assert "From 109.2 cm to 106.7 cm" in as_note([*SHORTEN, "--units", "metric"], capsys)


def test_ports_for_a_slicer(capsys: Capture) -> None:
    got = as_json([*PORTS, "--miss", "slice", "--hand", "right"], capsys)
    assert set(got) == {"plan", "pieces", "added_g", "short_by_g", "cg_shift_mm"}
    assert got["plan"] == {"heel": 11.5, "toe": 1.5}
    assert got["pieces"] == {"heel": [5.0, 5.0, 1.5], "toe": [1.5]}
    assert (got["added_g"], got["short_by_g"]) == (13.0, 0.0)
    # heel at -30,-10,0 by its name, toe at 30,-12,-8 as given; head 212 + 13 = 225 g
    assert got["cg_shift_mm"]["toeward"] == pytest.approx((11.5 * -30 + 1.5 * 30) / 225, abs=1e-6)
    assert got["cg_shift_mm"]["upward"] == pytest.approx((11.5 * -10 + 1.5 * -12) / 225, abs=1e-6)
    assert got["cg_shift_mm"]["backward"] == pytest.approx(1.5 * -8 / 225, abs=1e-6)


def test_left_is_a_slice_to_a_left_hander_only(capsys: Capture) -> None:
    slicer = as_json([*PORTS, "--miss", "left", "--hand", "left"], capsys)
    hooker = as_json([*PORTS, "--miss", "left", "--hand", "right"], capsys)
    assert slicer["plan"]["heel"] > slicer["plan"]["toe"]
    assert hooker["plan"]["toe"] > hooker["plan"]["heel"]


def test_the_ports_note_is_honest(capsys: Capture) -> None:
    said = as_note([*PORTS, "--miss", "slice"], capsys)
    for phrase in (
        "exactly what was asked for",
        "small effect",
        "Lie, face angle and offset move a miss more",
        "torque wrench",
        "Rule 4.1a(3)",
        "Check it on the scale",
    ):
        assert phrase in said


def test_ports_that_cannot_hold_it_say_what_else_helps(capsys: Capture) -> None:
    said = as_note([*PORTS[:2], "30 g", *PORTS[3:]], capsys)
    assert "short" in said
    # 212 g and 24 g of pieces in it: both ports hold 12 g, and 6 g is missing: 6 g at 41.4 in is 3.3 points
    assert "Or a head of 242 g with what is in it now: +3.3 points, on target." in said
    assert "Or a grip of 45 g, which leaves the head as it is: +1.0 points" in said
    assert "Or a quarter inch more, 42 1/4 in" in said
    ways = as_json([*PORTS[:2], "30 g", *PORTS[3:]], capsys)["alternatives"]
    assert {one["kind"] for one in ways} == {"heavier_head", "lighter_grip", "longer"}
    assert all(one["leaves_points"] == pytest.approx(3.315 - one["points"], abs=0.01) for one in ways)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (["--port", "wing=5 g"], "where port 'wing' sits is not known"),
        (["--port", "toe"], "is not a name and a capacity"),
        (["--port", "sole=5 g @ 1,2 mm"], "a place is three numbers"),
        (["--port", "sole=5 g @ 1,2,3 g"], "--port: "),
        (["--port", "heel=5 g"], "two ports called 'heel'"),
        (["--need", "-3 g"], "mass to add is -3 g"),
        (["--stock", "5x2,soap"], "--stock: 'soap' does not start with a number"),
        (["--head-mass", "0 g"], "the head mass is 0 g"),
        (["--miss", "shank"], "invalid choice: 'shank'"),
    ],
)
def test_ports_refuse_in_one_line(change: list[str], said: str, capsys: Capture) -> None:
    assert main(["calc", *PORTS, *change]) == 2
    err = capsys.readouterr().err
    assert said in err
    assert err.count("\n") == 1


def test_bore_both_ways(capsys: Capture) -> None:
    measured = as_json(["bore", "--hosel-length", "2.375 in", "--insertion", "1.125 in"], capsys)
    dry = as_json(["bore", "--shaft-length", "45 in", "--length-with-head", "46.25 in"], capsys)
    assert measured == dry == {"bottom_to_ground_in": 1.25}


def test_loft_shows_both_views(capsys: Capture) -> None:
    words = ["loft", "--loft", "18 deg", "--face", "2 deg closed", "--lie", "57 deg"]
    got = as_json(words, capsys)["effective_loft_deg"]
    assert got["bench_rule"] == 20.0
    assert got["geometry"] == pytest.approx(18 + 2 * 0.649, abs=0.01)
    said = as_note(words, capsys)
    assert "exact geometry bench rule" in said
    assert "Makers differ" in said


def test_an_open_face_takes_loft_away(capsys: Capture) -> None:
    got = as_json(["loft", "--loft", "18 deg", "--face", "2 deg open"], capsys)["effective_loft_deg"]
    assert got["bench_rule"] == 16.0
    assert 16.0 < got["geometry"] < 18.0


def test_a_face_must_say_which_way(capsys: Capture) -> None:
    for face in ("2 deg", "-2 deg", "sideways"):
        assert main(["calc", "loft", "--loft", "18 deg", "--face", face]) == 2
        assert "--face: " in capsys.readouterr().err


def test_glue_sends_nobody_out_within_the_hour(capsys: Capture) -> None:
    # 65 degF is 3.889 K under 72: 24 * 2^0.3889 = 31.4 h; a day when warm (common practice)
    cold = ["glue", "--temperature", "65 degF", "--glued-for", "1 h"]
    got = as_json(cold, capsys)
    assert (got["hold_h"], got["may_play"], got["wait_h"], got["pull"]) == (32, False, 31, None)
    said = as_note(cold, capsys)
    assert "no play for 32 h" in said
    assert "Not yet: slow epoxy wants 31 h more" in said
    assert as_json(["glue", "--glued-for", "24 h"], capsys)["may_play"] is True


def test_glue_lets_graphite_out_by_little_heat_and_a_straight_pull(capsys: Capture) -> None:
    pull = as_json(["glue", "--pull", "graphite"], capsys)["pull"]
    assert pull == {"heat_degF": pytest.approx([250, 300]), "twist": False, "torch": False}
    said = as_note(["glue", "--pull", "graphite"], capsys)
    assert "may not survive" in said
    assert "local codes come first" in said
    assert "pull" not in as_note(["glue"], capsys)
