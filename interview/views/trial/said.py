"""How a trial is put into words: phrases in a voice, quantities as that voice reads them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import degrees, distance, millimetres, spelled, trimmed
from interview.wording.words import Words, words
from rules.evidence.summary import Condition
from rules.units import difference_words, unit

if TYPE_CHECKING:
    from interview.session import Voice
    from rules.evidence.intervals import Figure
    from rules.units import System

_LEVEL = 0.0005
"""Marks nearer than this to the middle are in it, m."""
_ROUNDED = 45.0
"""Distances under this (m) are not rounded to five, or a side of four would be nought."""
_AIMED = 0.5
"""Balls that lean less than this (m) are on the line."""
_SPOTS = {"strike_mean_toe": ("toe", "heel", "centre"), "strike_mean_high": ("above", "below", "on")}
"""Words for figures that are places on a face."""


@dataclass(frozen=True, slots=True)
class Told:
    """A page, and the voice and units it is written in."""

    page: Page
    voice: Voice
    system: System
    wording: Words

    @classmethod
    def on(cls, page: Page, voice: Voice, system: System) -> Told:
        """Begin a page in a voice."""
        return cls(page, voice, system, words())

    @property
    def customer(self) -> bool:
        """Whether the words are for the golfer."""
        return self.voice == "customer"

    def phrase(self, key: str, **values: Any) -> str:
        """Return a phrase of the trial in this voice; for the golfer units are spelled out."""
        text = self.wording.say(f"trial.{key}", self.voice, **values)
        return spelled(text) if self.customer else text

    def far(self, metres: float) -> str:
        """Write a distance on the course; the golfer's is rounded as people do."""
        return distance(metres, self.system, about=self.customer and abs(metres) > _ROUNDED)

    def share(self, value: float) -> str:
        """Write a share as whole per cents, without the sign."""
        return f"{round(100 * value)}"

    def between(self, figure: Figure | None) -> str:
        """Write an interval in brackets; nothing where there is none, or for the golfer."""
        if figure is None or self.customer or not math.isfinite(figure.high):
            return ""
        return self.phrase("between", low=self.far(figure.low), high=self.far(figure.high))

    def between_marks(self, figure: Figure | None) -> str:
        """Write an interval of a scatter in brackets."""
        if figure is None or self.customer or not math.isfinite(figure.high):
            return ""
        return self.phrase("between", low=millimetres(figure.low), high=millimetres(figure.high))

    def place(self, toe: float, high: float) -> str:
        """Say where on a face a mark lies."""
        ways = ((toe, "toward the toe", "toward the heel"), (high, "high", "low"))
        parts = [
            f"{millimetres(round(abs(far), 3))} {more if far > 0 else less}"
            for far, more, less in ways
            if abs(far) >= _LEVEL
        ]
        return ", ".join(parts) if parts else self.phrase("middle")

    def lean(self, side: float) -> str:
        """Say to which side balls lean, taken together."""
        if abs(side) < _AIMED:
            return self.phrase("straight")
        return f"{self.far(abs(side))} {'right' if side > 0 else 'left'}"

    def ground(self, condition: Condition) -> str:
        """Say what balls were hit from."""
        ground = self.phrase(f"ground.{condition.surface}")
        return self.phrase("ground.indoors", ground=ground) if condition.indoors else ground

    def loft(self, angle: float) -> str:
        """Write a loft."""
        return degrees(angle)

    def figure(self, fact: str, value: float, symbol: str) -> str:
        """Write a figure of the golfer; a place on the face in words."""
        if fact not in _SPOTS:
            return self.amount(value, symbol)
        more, less, nought = _SPOTS[fact]
        if abs(value) < _LEVEL:
            return self.phrase(f"spot.{nought}")
        return self.phrase(f"spot.{more if value > 0 else less}", size=self.amount(abs(value), symbol))

    def amount(self, value: float, symbol: str) -> str:
        """Write an amount in its unit: a figure without a direction, or a spread."""
        if symbol == "%":
            return f"{self.share(value)} %"
        if symbol == "deg":
            return f"{trimmed(unit('deg').from_si(value), 1)} deg"
        if symbol == "mm":
            return f"{trimmed(unit('mm').from_si(value), 1)} mm"
        return difference_words(value, symbol, self.system)
