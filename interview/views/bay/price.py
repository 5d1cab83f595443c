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
    verb = "gives up" if one.points < 0 else "gains"
    parts = [f"{verb} {abs(one.points):.2f} points" if abs(one.points) >= 0.005 else "no points either way"]
    if abs(one.carry) >= 0.5:
        far = difference_words(abs(one.carry), "yd", system)
        parts.append(f"{far} {'less' if one.carry < 0 else 'more'} of expected carry")
    if abs(one.balance) >= 0.05:
        parts.append(f"reads {abs(one.balance):.1f} points {'lighter' if one.balance < 0 else 'heavier'}")
    return ", ".join(parts)


def price_of(outcome: Outcome, decision: str, system: System) -> tuple[str, bool]:
    """Return what an outcome says of one override, and whether it can be taken."""
    one = next((one for one in outcome.overridden if one.decision == decision), None)
    if one is None:
        return "There is no pair, so there is nothing to decide.", False
    if not one.followed:
        return "That cannot be followed with the answers as they are.", False
    if one.stale:
        return "The rules decide the same by themselves.", True
    return f"Its price: {price_words(one, system)}.", True
