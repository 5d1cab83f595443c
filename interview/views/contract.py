"""What `recommend --json` promises to those who read it, as strict models.

Nothing that decides or prints imports this room: it is for readers (`Recommendation.model_validate_json`)
and for the tests, which hold every sample session to it. Units stand in the key or in a `unit` field.
"""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict

Word = str | float | bool | list[str] | dict[str, float] | None
"""A fact as printed: a number in its unit, a word, several, shares in per cent, or nothing."""
Kind = Literal["fairway", "hybrid"]
Topic = Literal["body", "bench", "bay", "rules_of_golf", "claim", "bag", "fit", "evidence"]


class Strict(BaseModel):
    """Refuses keys that were not promised, numbers written as text, NaN and infinity."""

    model_config = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)


class Source(Strict):
    """Where a sentence comes from."""

    kind: Literal["published", "rules_of_golf", "common_practice", "memory", "assumption"]
    cite: str | None


class Because(Strict):
    """One line of a ledger: points of a choice, or an adjustment of an amount in the decision's unit."""

    rule: str
    points: float | None = None
    adjust: float | None = None
    text: str
    facts: dict[str, Word]
    source: Source
    contested: bool


class Change(Strict):
    """The nearest value of one fact that changes a decision."""

    fact: str
    from_: Word
    to: Word
    unit: str | None
    pick: str

    model_config = ConfigDict(alias_generator=lambda name: name.rstrip("_"))


class Decision(Strict):
    """One decision with its ledger: `start` plus all `adjust` is `pick`; all `points` add up to `score`."""

    decision: str
    pick: Word
    unit: str | None
    start: float | None
    score: float | None
    settled: bool
    because: list[Because]
    runner_up: str | None
    would_change: list[Change]


class Pairing(Strict):
    """The pick, the next best and what lies between them, in points."""

    pick: str
    runner_up: str | None
    margin: float | None
    sure: float | None
    steady: bool | None


class Shaft(Strict):
    """A shaft as it is cut; null where one of his own clubs is not known in parts."""

    id: str | None
    mass_g: float | None
    flex: str | None
    tip_in: float | None
    tip_trim_in: float | None
    butt_trim_in: float | None


class Grip(Strict):
    """A grip; null where it is not known."""

    mass_g: float | None
    size: str | None


class Carry(Strict):
    """Carry over all strikes, carry struck clean, and the band between the flight laws."""

    expected: float
    centred: float
    low: float
    high: float


class Club(Strict):
    """One of the two clubs as it would be built, or as he owns it."""

    role: Literal["longer", "shorter"]
    kind: Kind
    label: str
    loft_deg: float
    head: str | None
    owned: str | None
    length_in: float
    face_height_mm: float | None
    lie_deg: float | None
    face_angle_deg: float | None
    bore_in: float | None
    shaft: Shaft | None
    grip: Grip | None
    swing_weight: str | None
    target_swing_weight: str | None
    total_g: float | None
    balance_point_in: float | None
    inertia_kg_cm2: float | None
    head_mass_g: float | None
    added_g: float | None
    ports: dict[str, float] | None
    carry_yd: Carry
    apex_yd: float
    apex_ft: float
    descent_deg: float
    usable_share: float


class Gaps(Strict):
    """Steps of clean carries; null where an end is unknown."""

    driver_to_longer: float | None
    longer_to_shorter: float | None
    shorter_to_iron: float | None


class Fact(Strict):
    """A fact as it stands."""

    value: Word
    unit: str | None
    how: Literal["measured", "said", "estimated", "derived", "assumed", "shots"]
    spread: float | None
    open: bool


class Assumption(Strict):
    """A house value that the run leaned on."""

    id: str
    value: Word
    range: list[float] | list[str]
    unit: str | None
    part: str | None
    text: str
    source: Source
    changes_pick: bool | None


class RuledOut(Strict):
    """A candidate that cannot be, and why."""

    candidate: str
    rule: str
    text: str


class Caution(Strict):
    """Something to mind."""

    topic: Topic
    text: str
    rule: str


class Price(Strict):
    """What an override costs."""

    points: float
    carry_yd: float
    swing_weight_points: float


class Override(Strict):
    """A decision that a person took."""

    decision: str
    engine: str
    fitter: str
    reason: str
    price: Price
    stale: bool


class Recommendation(Strict):
    """The whole object for one session."""

    schema_: Literal[1]
    session: str
    rules_digest: str
    settled: bool
    pairing: Pairing | None
    clubs: list[Club]
    gaps_yd: Gaps
    decisions: list[Decision]
    facts: dict[str, Fact]
    assumptions: list[Assumption]
    ruled_out: list[RuledOut]
    cautions: list[Caution]
    prove_it: list[str]
    overrides: list[Override]

    model_config = ConfigDict(alias_generator=lambda name: name.rstrip("_"))
