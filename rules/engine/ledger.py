"""What an evaluation leaves behind: standings, choices, amounts and notices."""

from __future__ import annotations

from collections.abc import Callable

from rules.engine.evaluate import Later, Outcome
from rules.engine.language import Decision, Rule
from rules.engine.lines import Evaluated, Line, Silent
from rules.engine.settle import settled
from rules.engine.trace import Traced
from rules.engine.views import Candidate, View
from rules.units import System, unit


class Standing:
    """One candidate's standing in a choice."""

    __slots__ = ("_outcome", "candidate", "is_ruled_out", "place", "points")

    def __init__(self, candidate: Candidate, place: int, outcome: Outcome | Later) -> None:
        self.candidate = candidate
        """The candidate, with its own facts."""
        self.place = place
        """Its place in the static order."""
        self.points = outcome.points
        """Sum of the lines, thousandths."""
        self.is_ruled_out = outcome.is_ruled_out
        self._outcome = outcome

    @property
    def outcome(self) -> Outcome:
        """Its evaluation, with all that could be."""
        if isinstance(self._outcome, Later):
            self._outcome = self._outcome.traced(self.candidate)
        return self._outcome

    @property
    def low(self) -> float:
        """Least points over all that open questions permit; -inf where it may be ruled out."""
        return self.outcome.bounds[0]

    @property
    def high(self) -> float:
        """Greatest points over all that open questions permit; -inf where it is sure to be ruled out."""
        return self.outcome.bounds[1]

    @property
    def _evaluated(self) -> Evaluated:
        return Evaluated(self.candidate.views, self.outcome)

    @property
    def lines(self) -> tuple[Line, ...]:
        """The rules that spoke for or against, weightiest first; they add up to `points`."""
        at = self._evaluated
        found = [Line("rule", rule, at, points=at.result(rule)) for rule in at.spoke(ruling_out=False)]
        return tuple(sorted(found, key=lambda line: -abs(line.points)))

    @property
    def ruled_out(self) -> tuple[Line, ...]:
        """The rules that ruled it out; empty when none did."""
        if not self.is_ruled_out:
            return ()
        at = self._evaluated
        return tuple(Line("rule", rule, at) for rule in at.spoke(ruling_out=True))

    @property
    def silent(self) -> tuple[Silent, ...]:
        """The rules that did not speak, each with its conditions."""
        return self._evaluated.silent()

    def view(self, fact: str) -> View:
        """Return a fact as this candidate's evaluation read it."""
        return self._evaluated.look(fact)

    def __repr__(self) -> str:
        out = ", ruled out" if self.is_ruled_out else ""
        return f"Standing({self.candidate.id!r}, {self.points / 1000:g}{out})"


def _rank(standing: Standing) -> tuple[bool, int, int]:
    """Order standings: ruled out last, more points first, then the static order."""
    return standing.is_ruled_out, -standing.points, standing.place


class Choice:
    """A choice decided: every candidate's standing, best first, those ruled out last."""

    __slots__ = ("_settled", "decision", "standings")

    def __init__(self, decision: Decision, standings: list[Standing]) -> None:
        self.decision = decision
        self.standings = tuple(sorted(standings, key=_rank))
        self._settled: bool | None = None

    @property
    def pick(self) -> Standing | None:
        """The best candidate; None when there is none, or all are ruled out."""
        first = self.standings[0] if self.standings else None
        return None if first is None or first.is_ruled_out else first

    @property
    def runner_up(self) -> Standing | None:
        """The second best; None when there is none that is not ruled out."""
        second = self.standings[1] if len(self.standings) > 1 else None
        return None if second is None or second.is_ruled_out else second

    @property
    def margin(self) -> int | None:
        """Points between pick and runner-up, thousandths; None without a runner-up."""
        pick, second = self.pick, self.runner_up
        return None if pick is None or second is None else pick.points - second.points

    @property
    def settled(self) -> bool:
        """Whether no answer to any open question can change the pick: a proof."""
        if self._settled is None:
            self._settled = settled((s.outcome, s.place) for s in self.standings)
        return self._settled

    def standing(self, id: str) -> Standing | None:
        """Return the standing of a candidate by its id."""
        return next((s for s in self.standings if s.candidate.id == id), None)


class Amount:
    """An amount decided: start, adjustments, limit and rounding, which add up to the pick."""

    __slots__ = (
        "_bounds",
        "_evaluated",
        "_find_bounds",
        "_lines",
        "_make_lines",
        "decision",
        "pick",
        "start",
    )

    def __init__(
        self, decision: Decision, evaluated: Evaluated, start: int, pick: int,
        lines: Callable[[], tuple[Line, ...]], bounds: Callable[[], tuple[int, int]],
    ) -> None:  # fmt: skip
        self.decision = decision
        self.start = start
        """Where it starts, thousandths of the unit."""
        self.pick = pick
        """What was decided, thousandths of the unit."""
        self._evaluated, self._make_lines, self._find_bounds = evaluated, lines, bounds
        self._lines: tuple[Line, ...] | None = None
        self._bounds: tuple[int, int] | None = None

    @property
    def lines(self) -> tuple[Line, ...]:
        """Start, rules (weightiest first), limit, rounding; `start` and every `adjust` add up to `pick`."""
        if self._lines is None:
            self._lines = self._make_lines()
        return self._lines

    @property
    def low(self) -> int:
        """The least that it could still become, thousandths of the unit."""
        return self._both()[0]

    @property
    def high(self) -> int:
        """The most that it could still become, thousandths of the unit."""
        return self._both()[1]

    def _both(self) -> tuple[int, int]:
        """Return the least and the most."""
        if self._bounds is None:
            self._bounds = self._find_bounds()
        return self._bounds

    @property
    def outcome(self) -> Outcome:
        """Its evaluation."""
        return self._evaluated.outcome

    @property
    def pick_si(self) -> float:
        """What was decided, SI."""
        return unit(self.decision.unit).to_si(self.pick / 1000)

    def pinned(self, si: float, say: Callable[[System], str]) -> Amount:
        """Return the amount held at a value (SI) that a person set; the last line of its ledger says so."""
        wanted = round(unit(self.decision.unit).from_si(si) * 1000)
        line = Line("pinned", None, self._evaluated, adjust=wanted - self.pick, say=say)
        lines = (*self.lines, line)
        return Amount(
            self.decision, self._evaluated, self.start, wanted, lambda: lines, lambda: (wanted, wanted)
        )

    @property
    def settled(self) -> bool:
        """Whether no answer can move it by more than the decision's materiality."""
        return max(self.high - self.pick, self.pick - self.low) <= self.decision.materiality

    @property
    def silent(self) -> tuple[Silent, ...]:
        """The rules that did not speak, each with its conditions."""
        return self._evaluated.silent()

    def view(self, fact: str) -> View:
        """Return a fact as this evaluation read it."""
        return self._evaluated.look(fact)


class Notice:
    """A caution or advice whose condition holds."""

    __slots__ = ("_line", "rule")

    def __init__(self, rule: Rule, evaluated: Evaluated) -> None:
        self.rule = rule
        self._line = Line("rule", rule, evaluated)

    @property
    def kind(self) -> str:
        """`caution` or `advise`."""
        return self.rule.effect.kind

    @property
    def topic(self) -> str:
        """What it is about."""
        return self.rule.effect.topic

    @property
    def facts(self) -> dict[str, View]:
        """The facts that it read or names."""
        return self._line.facts

    @property
    def conditions(self) -> Traced | None:
        """Its conditions as they stood."""
        return self._line.conditions

    def text(self, system: System = "imperial") -> str:
        """Say it, with the values filled in."""
        return self._line.text(system)
