"""The ladder of distances: driver, the two clubs, the longest iron, and the steps between them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from rules.fitting import Outcome


class GapsView(NamedTuple):
    """Carries of centred strikes from the top of the bag down, m; None where an end is unknown."""

    driver: float
    """Flown at the golfer's head speed, a usual one where nobody knows it."""
    longer: float
    shorter: float
    iron: float | None
    """The longest iron really used."""
    iron_told: bool
    """Whether the golfer told the iron's carry; else it was flown from its loft."""

    @property
    def driver_to_longer(self) -> float:
        """Return the step below the driver, m."""
        return self.driver - self.longer

    @property
    def longer_to_shorter(self) -> float:
        """Return the step between the two, m."""
        return self.longer - self.shorter

    @property
    def shorter_to_iron(self) -> float | None:
        """Return the step above the longest iron, m."""
        return None if self.iron is None else self.shorter - self.iron


def gaps_view(outcome: Outcome) -> GapsView | None:
    """Return the ladder of an outcome; None without a pair."""
    pair, golfer = outcome.picked, outcome.golfer
    if pair is None:
        return None
    iron = golfer.iron
    return GapsView(
        driver=golfer.driver.carry,
        longer=pair.longer.flown.centred,
        shorter=pair.shorter.flown.centred,
        iron=None if iron is None else iron.number,
        iron_told=iron is not None and iron.how in ("measured", "said", "estimated"),
    )
