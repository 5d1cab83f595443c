"""Decides an amount: a start, adjustments, limits and a rounding step, each a line."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import cast

from rules.engine.evaluate import Outcome, Run
from rules.engine.language import Assumption, Decision, Fact
from rules.engine.ledger import Amount
from rules.engine.lines import Evaluated, Line
from rules.engine.text import LIMIT_HIGH, LIMIT_LOW, ROUNDING, amount_words, start_words, step_words
from rules.engine.views import View
from rules.problems import Problem
from rules.units import System, unit


class NoStart(Problem):
    """An amount whose starting fact nobody knows and nothing stands in for."""

    def __init__(self, decision: Decision) -> None:
        self.decision = decision
        super().__init__(
            f"the {decision.title} cannot be decided: its start, '{decision.start_fact}', is not known"
        )


def limited(decision: Decision, value: int) -> int:
    """Hold a value between the limits."""
    low, high = decision.limits
    return min(high, max(low, value))


def rounded(decision: Decision, value: int) -> int:
    """Round to the nearest step, halves upward, staying between the limits where a step lies there."""
    step = decision.step
    low, high = decision.limits
    nearest = (2 * value + step) // (2 * step) * step
    if nearest > high:
        nearest = high // step * step
    if nearest < low:
        nearest = -(-low // step) * step
    return nearest if nearest <= high else value


def final(decision: Decision, value: int) -> int:
    """Return a raw sum held between the limits and rounded."""
    return rounded(decision, limited(decision, value))


def final_si(decision: Decision, value: int) -> float:
    """Return a raw sum held between the limits and rounded, SI."""
    return unit(decision.unit).to_si(final(decision, value) / 1000)


class Start:
    """Where an amount starts, on its best value and over all that could be."""

    def __init__(
        self, decision: Decision, views: Mapping[str, View],
        facts: Mapping[str, Fact], assumptions: Mapping[str, Assumption],
    ) -> None:  # fmt: skip
        self.fact = facts[decision.start_fact] if decision.start_fact else None
        self.assumption = assumptions[decision.start_assumption] if decision.start_assumption else None
        view = views.get(decision.start_fact) if decision.start_fact else None
        si = cast("float | None", view.best if view else self.assumption.value if self.assumption else None)
        if si is None:
            raise NoStart(decision)
        self.si = si
        self.value = thousandths(decision, si)
        self.low = self.high = self.value
        if view is not None and view.status == "open":
            ends = view.could_be if view.could_be is not None else cast(Fact, self.fact).range
            low, high = cast("tuple[float, float]", ends)
            self.low, self.high = thousandths(decision, low), thousandths(decision, high)


def thousandths(decision: Decision, si: float) -> int:
    """Turn an SI value into whole thousandths of the decision's unit."""
    return round(unit(decision.unit).from_si(si) * 1000)


def decide(
    decision: Decision, run: Run, views: Mapping[str, View],
    facts: Mapping[str, Fact], assumptions: Mapping[str, Assumption],
) -> Amount:  # fmt: skip
    """Decide an amount; its lines and bounds are worked out when someone asks."""
    start = Start(decision, views, facts, assumptions)
    outcome = run.candidate({})
    at = Evaluated({}, outcome)
    pick = final(decision, start.value + outcome.points)
    lines, bounds = partial(_lines, decision, start, at), partial(_bounds, decision, start, outcome)
    return Amount(decision, at, start.value, pick, lines, bounds)


def _bounds(decision: Decision, start: Start, outcome: Outcome) -> tuple[int, int]:
    """Return what the amount could still become, least and most."""
    low, high = outcome.bounds
    return final(decision, start.low + int(low)), final(decision, start.high + int(high))


def _lines(decision: Decision, start: Start, at: Evaluated) -> tuple[Line, ...]:
    """Return start, rules (weightiest first), limit and rounding, each a line."""
    begin = Line("start", None, at, say=partial(start_words, start.fact, start.assumption, start.si))
    moved = [Line("rule", rule, at, adjust=at.result(rule)) for rule in at.spoke()]
    lines = [begin, *sorted(moved, key=lambda line: -abs(line.adjust))]
    raw = start.value + at.outcome.points
    held = limited(decision, raw)
    if held != raw:
        wording = LIMIT_HIGH if held < raw else LIMIT_LOW
        lines.append(Line("limit", None, at, adjust=held - raw, say=partial(_limit, decision, held, wording)))
    even = rounded(decision, held)
    if even != held:
        lines.append(Line("rounding", None, at, adjust=even - held, say=partial(_rounding, decision, even)))
    return tuple(lines)


def _limit(decision: Decision, held: int, wording: str, system: System) -> str:
    """Say that an amount is held at a limit."""
    return wording.format(value=amount_words(decision, held, system))


def _rounding(decision: Decision, even: int, system: System) -> str:
    """Say to what an amount is rounded."""
    return ROUNDING.format(value=amount_words(decision, even, system), step=step_words(decision))
