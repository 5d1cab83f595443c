"""Golfers whose clubs go to the bench, fitted once; and a shelf of one's own that a test may empty."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import pytest

from rules.facts.reading import read_subject
from rules.facts.subject import Reading
from rules.fitting import House, Outcome, fit
from rules.shelf import Shelf
from rules.units import parse
from rules.workbench import Club

TWO_WOODS: Mapping[str, Any] = {
    "hand": "right",
    "handicap": 18,
    "driver_speed": {"value": "88 mph", "how": "measured"},
    "lies": {"tight_fairway": 50, "fairway": 25, "rough": 15, "tee": 10},
    "contact": ["thin", "low_face"],
    "miss": "right",
    "curve": "slice",
    "confidence_fairway": 4,
    "confidence_hybrid": 2,
    "turf_mark": "brush",
    "airborne_of_six": 3,
    "hits_five_wood": "well",
    "longest_iron_loft": "27 deg",
    "clubs_in_bag": 13,
    "clubs_leaving": 2,
}
"""A slicer with two fairway woods, each with mass to go into its head."""
VERY_SLOW: Mapping[str, Any] = {
    "hand": "right",
    "handicap": 5,
    "head_feel": "heavy",
    "contact": ["centred"],
    "driver_speed": {"value": "48 mph", "how": "measured"},
    "tempo": "smooth",
    "confidence_fairway": 5,
    "confidence_hybrid": 3,
    "airborne_of_six": 2,
}
"""A golfer whose target is lighter than the heads on the shelf."""
LIKES_HIS_OWN: Mapping[str, Any] = {
    "name": "his 4-wood",
    "kind": "fairway",
    "loft": {"value": "16.5 deg", "how": "measured"},
    "length": "43 in",
    "swing_weight": "D1",
    "total": "328 g",
    "liked": "yes",
    "can_add": "16 g",
}


@pytest.fixture(scope="session")
def two_woods() -> Mapping[str, Any]:
    """The answers of a slicer with two fairway woods."""
    return TWO_WOODS


@pytest.fixture(scope="session")
def his_own() -> Mapping[str, Any]:
    """A club that a golfer owns and likes, with room in its head."""
    return LIKES_HIS_OWN


@pytest.fixture(scope="session")
def run(house: House) -> Callable[..., Outcome]:
    """Run the road for answers and other parts of a session, on a shelf of one's own if one is given."""

    def made(answers: Mapping[str, Any], shelf: Shelf | None = None, **parts: Any) -> Outcome:
        home = house if shelf is None else House(house.base, shelf)
        return fit(home, read_subject(house.base.facts, {"answers": dict(answers), **parts}))

    return made


@pytest.fixture(scope="session")
def woods(run: Callable[..., Outcome]) -> Outcome:
    """The slicer with two new woods."""
    return run(TWO_WOODS)


@pytest.fixture(scope="session")
def slow(run: Callable[..., Outcome]) -> Outcome:
    """The golfer for whom a club comes out too heavy: he wants less head than the shop has."""
    return run(VERY_SLOW, overrides={"longer.balance": {"value": "C3"}})


@pytest.fixture(scope="session")
def wood(woods: Outcome) -> Club:
    """The longer of the two woods."""
    return woods.clubs[0]


@pytest.fixture(scope="session")
def read_of() -> Callable[..., Reading]:
    """Make the readings of a club built with so much more mass in its head, and perhaps another length."""

    def made(club: Club, heavier: str = "0 g", longer: str = "0 in") -> Reading:
        build = club.build
        assert build is not None
        head = replace(build.head, mass=build.head.mass + parse(heavier, "g"))
        real = replace(build, head=head, length=build.length + parse(longer, "in")).reading
        return Reading(
            total=real.total,
            balance_point=real.balance_point,
            length=build.length + parse(longer, "in"),
        )

    return made
