"""Small pictures beside the choices of a question: turf marks, places on the face, lies, bends, heights.

Each is a few lines of equal width in full signs. Pictures of a side are drawn for a right-hander and
mirrored for a left-hander, as the words are.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

Drawing = tuple[str, ...]

_TURF: Mapping[str, Drawing] = {
    "none": ('"""""""""', "─────────", "         "),
    "brush": ('"", ,, ""', "─────────", "         "),
    "bruise": ('""     ""', "──▂▂▂▂▂──", "         "),
    "divot": ('""  ▗▖ ""', "──╮   ╭──", "  ╰───╯  "),
}
"""The ground from the side, after the club has gone through."""
_CONTACT: Mapping[str, Drawing] = {
    "centred": ("░░░░░░░╱", "░░░●░░░ ", "░░░░░░░ "),
    "thin": ("        ", "○╶─ ─ ─▸", "────────"),
    "fat": ("     ○  ", '""  """"', "──╲╱────"),
    "toe": ("░░░░░░░╱", "●░░░░░░ ", "░░░░░░░ "),
    "heel": ("░░░░░░░╱", "░░░░░░● ", "░░░░░░░ "),
    "low_face": ("░░░░░░░╱", "░░░░░░░ ", "░░░●░░░ "),
    "high_face": ("░░░●░░░╱", "░░░░░░░ ", "░░░░░░░ "),
    "scattered": ("░●░░░░░╱", "░░░░●░● ", "░░●░░░░ "),
}
"""The face as the ball sees it, with the shaft at its right; where it is met. `thin` and `fat` show the
ball and the ground from the side."""
_LIES: Mapping[str, Drawing] = {
    "tight_fairway": ("         ", "    ○    ", "─────────"),
    "fairway": ("    ○    ", '"""""""""', "─────────"),
    "rough": ("         ", "││││○││││", "─────────"),
    "heavy_rough": ("│││││││││", "││││○││││", "─────────"),
    "sand": ("    ○    ", "·.·.·.·.·", ".·.·.·.·."),
    "tee": ("    ○    ", "    ┬    ", "────┴────"),
}
"""The ball from the side, on what it lies on."""
_CURVE: Mapping[str, Drawing] = {
    "hook": ("●─╮  ", "  │  ", "  ○  "),
    "draw": (" ●╮  ", "  │  ", "  ○  "),
    "straight": ("  ●  ", "  │  ", "  ○  "),
    "fade": ("  ╭● ", "  │  ", "  ○  "),
    "slice": ("  ╭─●", "  │  ", "  ○  "),
}
"""The flight from behind the ball, for a right-hander."""
_MISS: Mapping[str, Drawing] = {
    "straight": ("  ●  ", "  │  ", "  ○  "),
    "left": ("●    ", " ╲   ", "  ○  "),
    "right": ("    ●", "   ╱ ", "  ○  "),
    "both": ("●   ●", " ╲ ╱ ", "  ○  "),
}
"""Where the ball ends up, seen from behind it; sides are the golfer's own."""
_FLIGHT: Mapping[str, Drawing] = {
    "low": ("           ", "           ", "○╶───────╴ "),
    "medium": ("           ", "  ╭─────╮  ", "○╶╯     ╰╴ "),
    "high": ("   ╭───╮   ", "  ╭╯   ╰╮  ", "○╶╯     ╰╴ "),
}
_TYPES: Mapping[str, Drawing] = {
    "fairway": ("        ╱", "▗█████▙╱ ", "▝▀▀▀▀▀▘  "),
    "hybrid": ("        ╱", "   ▗██▙╱ ", "   ▝▀▀▘  "),
}
"""The two heads from the front: a wood's is wider."""
_DRAWN: Mapping[str, Mapping[str, Drawing]] = {
    "turf_mark": _TURF, "contact": _CONTACT, "lies": _LIES, "curve": _CURVE, "miss": _MISS, "flight": _FLIGHT,
    "type_preference": _TYPES,
}  # fmt: skip
_MIRRORED = {"hook": "slice", "draw": "fade", "fade": "draw", "slice": "hook"}
_FLIP = str.maketrans("╱╲", "╲╱")


def drawing(question: str, choice: str, hand: Literal["right", "left"] = "right") -> Drawing:
    """Return the picture of a choice; empty where words alone do better."""
    if question == "curve" and hand == "left":
        choice = _MIRRORED.get(choice, choice)
    lines = _DRAWN.get(question, {}).get(choice, ())
    if question in ("contact", "type_preference") and hand == "left" and choice not in ("thin", "fat"):
        return tuple(line[::-1].translate(_FLIP) for line in lines)
    return lines


def balls(up: int, of: int) -> Drawing:
    """Return so many balls in the air and the others on the ground."""
    return ("○ " * up + "  " * (of - up), "  " * up + "○ " * (of - up), "─" * (2 * of))


_SEVEN = str.maketrans("─│╭╮╰╯╱╲░●○▂▄▗▖▘▝▐▌█▙▀┬┴╶╴·═║╔╗╚╝▸✓━", "-|,.`'/\\:Oo_-,.'`[]#:-T-  .=#####>+=")


def seven(text: str) -> str:
    """Return a drawing's line in signs of seven bits, cell for cell."""
    return text.translate(_SEVEN)
