"""What a finished club's readings can be wrong by, each worded once."""

from __future__ import annotations

from rules.problems import Problem
from rules.units import swing_weight_name


class ReadingProblem(Problem):
    """A reading that no such club gives; nothing was changed by it."""


class ImpossibleReading(ReadingProblem):
    """Readings that put the club farther from its sum than any slip at the bench could."""

    def __init__(self, role: str, what: str, read: str, planned: str) -> None:
        self.role, self.what = role, what
        super().__init__(
            f"the {role} club's {what} reads {read} where its parts add up to {planned}; "
            "no such club was built here, so read it again"
        )


class ReadingsDisagree(ReadingProblem):
    """A swing weight that is not what total and balance point of the same club make."""

    def __init__(self, role: str, scale: float, sums: float) -> None:
        self.role, self.scale, self.sums = role, scale, sums
        super().__init__(
            f"the {role} club's swing weight reads {swing_weight_name(scale)}, but its total and balance "
            f"point make {swing_weight_name(sums)}; read all three again"
        )


class NothingKnown(ReadingProblem):
    """Readings of a club of whose parts nothing is known, so that there is no plan to hold them against."""

    def __init__(self, role: str) -> None:
        self.role = role
        super().__init__(
            f"the {role} club is his own and its parts are not known, so there is no plan to hold its "
            "readings against; enter them with the club under [[owned]]"
        )
