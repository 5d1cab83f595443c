"""The ball arithmetic as it is asked for on the command line: keys, values, notes and refusals."""

from __future__ import annotations

import argparse
import importlib

import pytest

from interview.commands.calc import Calculation
from rules.golf.coefficients import LAWS
from rules.problems import Problem
from rules.units import UnitError

FLIGHT = ["--ball-speed", "162 mph", "--launch", "9.3 deg", "--spin", "3663 rpm"]
IMPACT = ["--head-speed", "90 mph", "--loft", "12 deg", "--head-mass", "200 g"]
IMPACT += ["--restitution", "0.83", "--spin-grip", "0"]


def asked(name: str, words: list[str]) -> tuple[dict[str, object], str]:
    """What a calculation answers, as an object and as a note."""
    module: Calculation = importlib.import_module(f"interview.commands.calc.{name}")
    parser = argparse.ArgumentParser()
    module.configure(parser)
    args = parser.parse_args(words)
    result = module.compute(args)
    return result, " ".join(module.text(result, args).split())


def test_flight_object_and_note() -> None:
    result, note = asked("flight", FLIGHT)
    assert list(result) == ["carry_yd", "apex_yd", "apex_ft", "descent_deg", "time_s", "carry_band_yd", "law"]
    # men's tour average for the 3-wood, 2023 season, as widely republished: 249 yd and an apex of 32 yd
    assert result["carry_yd"] == pytest.approx(249, abs=9)
    assert result["apex_yd"] == pytest.approx(32, abs=5)
    band = result["carry_band_yd"]
    assert isinstance(band, list)
    assert band[0] <= result["carry_yd"] <= band[1]
    assert band[0] < band[1]
    assert all(f"the {law} law is {of.title}" in note for law, of in LAWS.items())
    for said in ("253 yd", "6 degrees too flat", "Bearman & Harvey 1976", "Trust the first"):
        assert said in note


def test_flight_by_the_second_law_in_thin_air() -> None:
    result, note = asked(
        "flight", [*FLIGHT, "--law", "second", "--altitude", "1600 m", "--temperature", "90 degF"]
    )
    assert result["law"] == "second"
    band = result["carry_band_yd"]
    assert isinstance(band, list)
    carry = result["carry_yd"]
    assert isinstance(carry, float)
    assert max(band[0], 265) < carry <= band[1]
    assert "second law" in note


def test_a_clipped_flight_says_so_in_both() -> None:
    result, note = asked("flight", [*FLIGHT[:5], "1500 rpm"])
    assert result["clipped"] is True
    assert "CAUTION" in note


def test_a_ball_that_never_flies_is_told() -> None:
    result, note = asked("flight", ["--ball-speed", "100", "--launch=-2", "--spin", "3000"])
    assert (result["carry_yd"], result["time_s"]) == (0.0, 0.0)
    assert "never leaves the ground" in note


def test_impact_object_and_note() -> None:
    result, note = asked("impact", IMPACT)
    assert list(result) == ["ball_speed_mph", "launch_deg", "spin_rpm"]
    # The Modern Guide to Golf Clubfitting (handbook), ch. 15 loft ladder
    assert result["ball_speed_mph"] == pytest.approx(131.0, abs=0.25)
    assert "one delivered" in note
    assert "as struck centred" not in note


def test_impact_off_centre_shows_both() -> None:
    off = ["--toe", "12.7 mm", "--moi-heel-toe", "3000 g*cm2", "--high=-4 mm", "--moi-vertical", "1500 g*cm2"]
    result, note = asked("impact", [*IMPACT, *off, "--cg-depth", "20 mm", "--attack=-3 deg"])
    straight, _ = asked("impact", [*IMPACT, "--attack=-3 deg"])
    assert float(str(result["ball_speed_mph"])) < float(str(straight["ball_speed_mph"]))
    for said in ("as struck centred", "bulge", "low on a real face"):
        assert said in note


def test_contact_object_and_note() -> None:
    result, note = asked("contact", ["--loft", "15 deg"])
    assert list(result) == ["height_up_face_mm", "face_height_mm"]
    assert result["height_up_face_mm"] == pytest.approx(16.4, abs=0.05)
    assert result["face_height_mm"] == pytest.approx(32.7, abs=0.1)
    for said in ("leading edge", "30 to 32 mm", "centre of mass", "falling blow"):
        assert said in note


def test_contact_in_grass_and_with_clearance() -> None:
    bare, _ = asked("contact", ["--loft", "18"])
    grass, note = asked("contact", ["--loft", "18", "--ball-raised", "4", "--attack=-3", "--clearance", "0"])
    assert float(str(grass["height_up_face_mm"])) > float(str(bare["height_up_face_mm"])) + 4
    assert "sole sinks" in note


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("flight", [*FLIGHT[:5], "-3000 rpm"]),
        ("flight", ["--ball-speed", "400 mph", *FLIGHT[2:]]),
        ("flight", ["--ball-speed", "0", *FLIGHT[2:]]),
        ("flight", ["--ball-speed", "nan", *FLIGHT[2:]]),
        ("flight", ["--ball-speed", "162 yd", *FLIGHT[2:]]),
        ("flight", [*FLIGHT, "--humidity", "140"]),
        ("flight", [*FLIGHT, "--altitude", "9000 m"]),
        ("flight", [*FLIGHT, "--temperature", "120 degC"]),
        ("impact", ["--head-speed", "90", "--loft", "0 deg", "--head-mass", "200"]),
        ("impact", ["--head-speed", "90", "--loft", "12", "--head-mass=-200"]),
        ("impact", ["--head-speed=-90", "--loft", "12", "--head-mass", "200"]),
        ("impact", ["--head-speed", "inf", "--loft", "12", "--head-mass", "200"]),
        ("impact", [*IMPACT, "--restitution", "1.4"]),
        ("impact", [*IMPACT, "--toe", "10 mm"]),
        ("impact", [*IMPACT, "--high", "10 mm"]),
        ("impact", [*IMPACT, "--high", "10 mm", "--moi-vertical", "0"]),
        ("contact", ["--loft", "0"]),
        ("contact", ["--loft", "15 mm"]),
        ("contact", ["--loft", "15", "--ball-raised", "2 in", "--attack=-20"]),
        ("contact", ["--loft", "15", "--ball-raised", "9 in"]),
    ],
)
def test_what_makes_no_sense_is_refused_in_one_sentence(name: str, words: list[str]) -> None:
    with pytest.raises((Problem, UnitError)) as caught:
        asked(name, words)
    said = str(caught.value)
    assert 10 < len(said) < 200
    assert "\n" not in said
