"""From a miss to a direction, and the honest size of it."""

from __future__ import annotations

import pytest

from rules.bench.direction import MISSES, Flight, Hand, direction_for, effect_words, shape, spin_change
from rules.bench.ports import Place
from rules.units import UNITS

RPM = UNITS["rpm"].factor
MM = 0.001
TENTH = 0.1 * UNITS["in"].factor


def test_left_and_right_turn_with_the_hand_and_shapes_do_not() -> None:
    assert shape("right", "right") == shape("left", "left") == "slice"
    assert shape("left", "right") == shape("right", "left") == "hook"
    for miss in MISSES:
        assert shape(miss, "right") == shape(miss, "left")


def test_mass_goes_to_the_heel_for_a_slice_and_to_the_toe_for_a_hook() -> None:
    assert direction_for("slice", "right").toeward < 0 < direction_for("hook", "left").toeward
    assert direction_for("push", "right").toeward < 0 < direction_for("pull", "right").toeward
    assert direction_for("straight", "right") == Place()


def test_who_flies_it_low_gets_it_back_and_who_flies_it_high_gets_it_low_and_forward() -> None:
    low, high = direction_for("straight", "right", "low"), direction_for("straight", "right", "high")
    assert low.backward > 0
    assert low.upward >= 0
    assert high.backward < 0
    assert high.upward < 0


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("flight", ["low", "medium", "high"])
def test_sideways_counts_twice_as_much_as_height_for_every_miss(hand: Hand, flight: Flight) -> None:
    """Which way is common practice; two to one is a house value."""
    upward = {"low": 0.0, "medium": 0.0, "high": -0.5}[flight]
    backward = {"low": 0.5, "medium": 0.0, "high": -0.5}[flight]
    other = "left" if hand == "right" else "right"
    words = {
        -1.0: ("slice", "push", "fade", hand),
        1.0: ("hook", "pull", "draw", other),
        0.0: ("straight", "both", "none"),
    }
    for sideways, misses in words.items():
        for miss in misses:
            assert direction_for(miss, hand, flight) == Place(sideways, upward, backward)


def test_published_spin_figures_come_back_out() -> None:
    lower = spin_change(Place(upward=-TENTH))
    assert [end / RPM for end in lower] == pytest.approx([-400, -350])
    forward = spin_change(Place(backward=-TENTH))
    assert [end / RPM for end in forward] == pytest.approx([-160, -160])


def test_the_words_name_the_way_and_call_it_small() -> None:
    said = effect_words(Place(-1.3 * MM, -0.6 * MM, 0.2 * MM))
    assert "1.3 mm toward the heel, 0.6 mm down, 0.2 mm back" in said
    assert "small effect" in said
    assert "rather than a cure" in said
    assert effect_words(Place(1 * MM, 0, 0)).startswith("The head's centre of mass moves 1 mm toward the toe")


def test_no_shift_is_said_to_be_none() -> None:
    assert effect_words(Place()) == "The head's centre of mass stays where it is."
