"""What a decision taken by hand costs, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rules.units import difference_words

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.overrides import Overridden
    from rules.units import System


def price_words(one: Overridden, system: System) -> str:
    """Return what an override costs: points of the pairing, carry of both clubs, swing weight."""
    parts = [f"{_moved(one.points)} points" if abs(one.points) >= 0.005 else "no points"]
    if abs(one.carry) > 0.05:
        parts.append(f"{_signed(difference_words(one.carry, 'yd', system))} of expected carry")
    if abs(one.balance) >= 0.05:
        parts.append(f"{one.balance:+.1f} points of swing weight")
    return ", ".join(parts)


def _moved(points: float) -> str:
    return f"{points:+.2f}"


def _signed(text: str) -> str:
    return text if text.startswith("-") else f"+{text}"


def price_of(outcome: Outcome, decision: str, system: System) -> tuple[str, bool]:
    """Return what an outcome says of one override, and whether it can be taken."""
    one = next((one for one in outcome.overridden if one.decision == decision), None)
    if one is None:
        return "There is no pair, so there is nothing to decide.", False
    if one.stale:
        return "The rules decide the same by themselves.", True
    return f"Costs: {price_words(one, system)}.", True
