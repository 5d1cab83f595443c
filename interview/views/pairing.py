"""The pairing: what was picked, every rival's standing, and what could not be had at all."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from rules.ladder.pair_facts import types_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from rules.engine.ledger import Choice, Standing
    from rules.fitting import Outcome
    from rules.ladder.pairs import Pair
    from rules.units import System


class RivalView(NamedTuple):
    """One pair and how it stands."""

    id: str
    label: str
    """The two clubs in the trade's words, such as 5-wood and 4-hybrid."""
    points: int
    """Thousandths."""
    ruled_out: bool
    types: str
    """two_fairway_woods, wood_and_hybrid, two_hybrids or hybrid_above_wood."""
    lofts: tuple[float, float]
    """Of the longer and the shorter club, rad."""


class RuledOut(NamedTuple):
    """Something that cannot be had: which, by what rule, and why."""

    candidate: str
    rule: str
    text: str


class PairingView(NamedTuple):
    """The pair that stands, and how it stands against the others."""

    pick: str
    runner_up: str | None
    margin: int | None
    """Points to the best other pair, thousandths; negative where the fitter took a lesser one."""
    settled: bool
    rivals: tuple[RivalView, ...]
    """Every pair, best first, the pick among them."""

    def rival(self, id: str) -> RivalView | None:
        """Return a pair by its id."""
        return next((one for one in self.rivals if one.id == id), None)


def choice_as_it_stands(outcome: Outcome) -> Choice | None:
    """Return the choice among pairs, with the pair that the fitter changed in the place of the engine's.

    A decision overridden inside a pair changes its facts; its ledger is then read again by the same rules.
    """
    picked, choice = outcome.picked, outcome.pairing
    if picked is None or choice is None or outcome.pairs.get(picked.id) is picked:
        return choice
    met: Mapping[str, Pair] = {**outcome.pairs, picked.id: picked}
    return outcome.house.base.choose(
        "pairing", outcome.golfer.views, [pair.candidate for pair in met.values()]
    )


def pairing_view(outcome: Outcome, choice: Choice | None) -> PairingView | None:
    """Return the view of the pairing; None where no pair is possible."""
    picked = outcome.picked
    if picked is None or choice is None:
        return None
    mine = choice.standing(picked.id)
    others = [s for s in choice.standings if s.candidate.id != picked.id and not s.is_ruled_out]
    best = others[0] if others else None
    return PairingView(
        pick=picked.id,
        runner_up=best.candidate.id if best else None,
        margin=mine.points - best.points if mine and best else None,
        settled=choice.settled,
        rivals=tuple(_rival(outcome, standing) for standing in choice.standings),
    )


def _rival(outcome: Outcome, standing: Standing) -> RivalView:
    """Return one pair's standing."""
    pair = outcome.pairs[standing.candidate.id]
    types = types_of(pair.longer.kind, pair.shorter.kind)
    label = f"{pair.longer.label} and {pair.shorter.label}"
    lofts = (pair.longer.spec.loft, pair.shorter.spec.loft)
    return RivalView(pair.id, label, standing.points, standing.is_ruled_out, types, lofts)


def ruled_out(outcome: Outcome, system: System) -> tuple[RuledOut, ...]:
    """Return the pairs that a rule forbids and the places that cannot be filled, each with its reason."""
    choice = outcome.pairing
    found = [RuledOut(barred.id, barred.rule, barred.text) for barred in outcome.barred]
    for standing in choice.standings if choice else ():
        found += [
            RuledOut(standing.candidate.id, line.rule.id, line.text(system))
            for line in standing.ruled_out
            if line.rule is not None
        ]
    return tuple(found)
