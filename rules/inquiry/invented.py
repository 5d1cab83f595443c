"""Invented golfers by number, the same each time: to try changed rules on before real cases have piled up.

No person stands behind them. Handicap and speed go together as common practice has it, and what a golfer
says follows from the two; how much of it he says at all differs from one to the next.
"""

from __future__ import annotations

from random import Random
from typing import Any, TypeVar

Word = TypeVar("Word")


def invented(number: int) -> dict[str, Any]:
    """Return the session of one invented golfer as plain data; any whole number from 0 makes one."""
    dice = Random(f"golfer {number}")
    handicap = round(min(40.0, max(-3.0, dice.gauss(17, 9))))
    speed = min(120.0, max(58.0, dice.gauss(101 - 0.75 * handicap, 8)))
    talk = dice.betavariate(2, 1)
    said = {**_game(dice, handicap, speed), **_ground(dice), **_feelings(dice), **_swing(dice, handicap)}
    session: dict[str, Any] = {
        "schema": 1,
        "id": f"invented-{number:05d}",
        "note": "An invented golfer.",
        "answers": {id: value for id, value in said.items() if dice.random() < talk},
    }
    if dice.random() < 0.35:
        session["owned"] = [_wood(dice, speed)]
        if dice.random() < 0.4:
            session["shots"] = [_shot(dice, handicap) for _ in range(dice.randint(3, 12))]
    return session


def _drawn(dice: Random, weights: dict[Word, float]) -> Word:
    """Draw a word by its weight."""
    return dice.choices(list(weights), list(weights.values()))[0]


def _game(dice: Random, handicap: int, speed: float) -> dict[str, Any]:
    """Draw who plays and how fast; the speed is told by one route, sometimes as a claim."""
    route = _drawn(dice, {"driver_speed": 5, "driver_carry": 2, "seven_iron_carry": 2, "fairway_speed": 1})
    told = {
        "driver_speed": {"value": f"{speed:.0f} mph", "how": _drawn(dice, {"measured": 3, "said": 1})},
        "driver_carry": f"{2.35 * speed - 12 + dice.gauss(0, 10):.0f} yd",
        "seven_iron_carry": f"{1.6 * speed - 8 + dice.gauss(0, 6):.0f} yd",
        "fairway_speed": f"{0.955 * speed:.0f} mph",
    }
    return {
        "hand": _drawn(dice, {"right": 9, "left": 1}),
        "handicap": handicap,
        "pain": _drawn(dice, {"no": 19, "yes": 1}),
        route: told[route],
        "age_band": _drawn(dice, {"adult": 6, "senior": 3, "junior": 1}),
        "longest_iron_loft": f"{dice.choice((21, 24, 27, 30))} deg",
        "driver_loft": f"{dice.choice((9, 10.5, 10.5, 12))} deg",
        "clubs_in_bag": dice.randint(10, 14),
        "clubs_leaving": dice.randint(0, 3),
    }


def _ground(dice: Random) -> dict[str, Any]:
    """Draw where the ball lies and what the air is like."""
    lies = ("tight_fairway", "fairway", "rough", "heavy_rough", "sand", "tee")
    return {
        "lies": {lie: dice.randint(1, most) for lie, most in zip(lies, (60, 60, 40, 8, 6, 30), strict=True)},
        "turf": _drawn(dice, {"firm": 1, "average": 2, "soft": 1}),
        "wind": _drawn(dice, {"calm": 2, "breezy": 2, "windy": 1}),
        "temperature": f"{dice.randint(45, 92)} degF",
        "altitude": f"{dice.choice((0, 0, 200, 900, 4500))} ft",
        "purpose": {"par5_second": dice.randint(1, 50), "long_approach": dice.randint(1, 50), "tee": 15},
    }


def _feelings(dice: Random) -> dict[str, Any]:
    """Draw what a golfer feels standing over the ball."""
    return {
        "confidence_fairway": dice.randint(1, 5),
        "confidence_hybrid": dice.randint(1, 5),
        "deep_face": _drawn(dice, {"worries": 1, "neutral": 3, "likes": 1}),
        "type_preference": _drawn(dice, {"none": 3, "fairway": 1, "hybrid": 1}),
        "hits_five_wood": _drawn(dice, {"well": 2, "badly": 1, "never_tried": 1}),
        "head_feel": _drawn(dice, {"right": 3, "light": 1, "heavy": 1}),
    }


def _swing(dice: Random, handicap: int) -> dict[str, Any]:
    """Draw how a golfer strikes and misses; the better he is, the more he is centred."""
    good = max(0.2, 3 - handicap / 12)
    contact = {"centred": good, "thin": 1.5, "fat": 1.0, "toe": 1.0, "heel": 1.0, "scattered": 1.0}
    first, second = _drawn(dice, contact), _drawn(dice, contact)
    told = {first} if {first, second} == {"centred", "scattered"} else {first, second}
    return {
        "contact": sorted(told),
        "miss": _drawn(dice, {"straight": 1, "left": 2, "right": 3, "both": 2}),
        "curve": _drawn(dice, {"hook": 1, "draw": 2, "straight": 2, "fade": 3, "slice": 2}),
        "turf_mark": _drawn(dice, {"none": 1, "brush": 3, "bruise": 2, "divot": 1}),
        "flight": _drawn(dice, {"low": 1, "medium": 2, "high": 1}),
        "tempo": _drawn(dice, {"smooth": 1, "medium": 2, "abrupt": 1}),
        "airborne_of_six": min(6, max(0, round(dice.gauss(5.5 - handicap / 14, 1.2)))),
        "wrist_to_floor": f"{dice.gauss(34.5, 1.3):.1f} in",
        "hand_length": f"{dice.gauss(7.3, 0.4):.2f} in",
    }


def _wood(dice: Random, speed: float) -> dict[str, Any]:
    """Draw a fairway wood that the golfer owns already."""
    loft = dice.choice((13.5, 15, 15, 16.5, 18))
    club: dict[str, Any] = {"name": "his wood", "kind": "fairway", "loft": f"{loft} deg"}
    club["length"] = f"{dice.choice((42.5, 43, 43.25, 43.5))} in"
    if dice.random() < 0.5:
        club["carry"] = f"{2.1 * speed + dice.gauss(0, 10):.0f} yd"
    club["liked"] = _drawn(dice, {"yes": 1, "so_so": 1, "no": 2})
    club["can_add"] = f"{dice.randint(0, 14)} g"
    return club


def _shot(dice: Random, handicap: int) -> dict[str, Any]:
    """Draw one ball hit with that wood."""
    wide = 5 + handicap / 4
    return {
        "club": "his wood",
        "toe_mm": round(dice.gauss(0, wide), 1),
        "high_mm": round(dice.gauss(-1, wide / 2), 1),
        "outcome": _drawn(dice, {"up": 6 - handicap / 10, "thin": 1, "fat": 1, "topped": 0.4}),
        "surface": "turf",
    }
