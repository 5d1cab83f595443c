"""Left and right turned into shape for the golfer's own hand, before any rule reads them."""

from __future__ import annotations

from rules.facts.known import Known, waiting


def shape(hand: Known, miss: Known, curve: Known) -> Known:
    """Return the shape of the miss: slice_side, hook_side, both or straight.

    `curve` is named for the golfer's own hand (a slice bends away from him) and rules when it was
    said; otherwise the side is turned by the hand: a right-hander's right is his slice side.
    """
    parts = (hand, miss, curve)
    if curve.how != "assumed" and curve.word in ("hook", "slice"):
        return Known("hook_side" if curve.word == "hook" else "slice_side", waits=curve.waits)
    if miss.how != "assumed" and miss.word in ("left", "right"):
        away = "right" if hand.word == "right" else "left"
        return Known("slice_side" if miss.word == away else "hook_side", waits=waiting(parts))
    return Known("both" if miss.word == "both" else "straight", waits=waiting(parts))
