"""One ball as people note it: a key or a word, then whatever else was seen, in any order.

`u`, `4`, `up 171`, `thin, 151 yd, 9 right, 8 heel, 4 low`: a bare number is the carry in yards, marks are in
millimetres from the centre of the face, and what is not said of a mark is its middle.
"""

from __future__ import annotations

import re

from rules.evidence.protocol import KEYS, Ball, Outcome, ProtocolProblem
from rules.units import UnitError, parse

_WORDS: dict[str, Outcome] = {
    **KEYS, "top": "topped", "topped": "topped", "thin": "thin", "thinned": "thin", "fat": "fat",
    "heavy": "fat", "up": "up", "good": "up", "ok": "up",
}  # fmt: skip
_HEAD = re.compile(r"([a-z]+|\d)(?=$|[\s,;])")
_NUMBER = r"(\d+(?:[.,]\d+)?)\s*"
_SIDE = re.compile(_NUMBER + r"(yd|yards?|m|metres?|meters?)?\s*(left|right|l|r)\b")
_MARK = re.compile(_NUMBER + r"(?:mm)?\s*(toe|heel|high|low)\b")
_CARRY = re.compile(_NUMBER + r"(yd|yards?|m|metres?|meters?)?(?=$|[\s,;])")
_MIDDLE = ("toe", "high")
_NOWHERE = {"straight": ("side",), "centred": _MIDDLE, "centre": _MIDDLE, "middle": _MIDDLE}
_MIDDLED = re.compile(rf"\b(?:{'|'.join(_NOWHERE)})\b")
_LEAST_UP = parse("30 yd", "m")
_SIGN = {"left": -1, "l": -1, "right": 1, "r": 1, "toe": 1, "heel": -1, "high": 1, "low": -1}
_LONGEST = 120


class BallProblem(ProtocolProblem):
    """A ball that cannot be read: what was typed, and what is wanted."""

    def __init__(self, text: str, wanted: str) -> None:
        self.text = text[:40]
        super().__init__(f"'{self.text}' cannot be read: {wanted}")


def outcome_of(text: str) -> Outcome | None:
    """Return the outcome that a key or a word stands for; None for anything else."""
    return _WORDS.get(text.strip().lower())


def read_ball(text: str) -> Ball:
    """Read one ball; BallProblem says in one sentence what is wanted."""
    line = text.strip().lower()
    if len(line) > _LONGEST:
        raise BallProblem(text, "one ball is a short line")
    head = _HEAD.match(line)
    outcome = outcome_of(head[1]) if head else None
    if head is None or outcome is None:
        raise BallProblem(text, "begin with 1 topped, 2 thin, 3 fat or 4 up")
    try:
        seen, rest = _seen(line[head.end() :])
    except UnitError as error:
        raise BallProblem(text, str(error)) from None
    if rest.strip(" ,;"):
        raise BallProblem(text, "after the key come carry, '5 right', '6 toe' and '4 low', in any order")
    values = dict(seen)
    if len(values) < len(seen):
        raise BallProblem(text, "the same thing is said twice")
    if outcome == "up" and values.get("carry", _LEAST_UP) < _LEAST_UP:
        raise BallProblem(
            text, "no ball that got up carries so little; write '5 left' or '5 right' for a side"
        )
    if ("toe" in values) != ("high" in values):
        values = {"toe": 0.0, "high": 0.0, **values}
    return Ball(outcome, **values)


def _seen(rest: str) -> tuple[list[tuple[str, float]], str]:
    """Read what follows the key, as names and SI values; return it and what could not be read."""
    found: list[tuple[str, float]] = []

    def side(match: re.Match[str]) -> str:
        found.append(("side", _SIGN[match[3]] * _metres(match[1], match[2])))
        return " "

    def mark(match: re.Match[str]) -> str:
        name = "toe" if match[2] in ("toe", "heel") else "high"
        found.append((name, _SIGN[match[2]] * parse(f"{match[1]} mm", "m")))
        return " "

    def carry(match: re.Match[str]) -> str:
        found.append(("carry", _metres(match[1], match[2])))
        return " "

    def nowhere(match: re.Match[str]) -> str:
        found.extend((name, 0.0) for name in _NOWHERE[match[0]])
        return " "

    for pattern, act in ((_SIDE, side), (_MARK, mark), (_MIDDLED, nowhere), (_CARRY, carry)):
        rest = pattern.sub(act, rest)
    return found, rest


def _metres(number: str, name: str | None) -> float:
    """Read a distance on the course; a bare number is in yards."""
    metric = (name or "yd").startswith("m")
    return parse(f"{number} {'m' if metric else 'yd'}", "m")
