"""Decisions a person took against the engine: applied, priced, and marked when they are stale."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.engine.ledger import Amount
from rules.facts.answers import match_word
from rules.facts.subject import Override
from rules.ladder.pairs import Pair, pairs
from rules.ladder.stocked import Barred, places, rung
from rules.problems import Problem
from rules.units import UnitError, parse, unit, words
from rules.workbench import finish

if TYPE_CHECKING:
    from rules.engine.ledger import Choice, Standing
    from rules.facts.subject import Subject
    from rules.golf.outcome import Flier
    from rules.ladder.decide import Place
    from rules.ladder.judge import Judge
    from rules.ladder.rung import Rung

_PAIR = re.compile(r"(?:fairway|hybrid|own)-[a-z0-9.-]+\+(?:fairway|hybrid|own)-[a-z0-9.-]+")
"""How pairs are called, whether or not this one can be had just now."""


class OverrideProblem(Problem):
    """An override that names no decision, or a value that the decision cannot take."""

    decision = ""
    """The decision it stands under in the session; empty until that is known."""


class Unfollowed(OverrideProblem):
    """An override that once could be followed and, with the answers as they are now, cannot."""


@dataclass(frozen=True, slots=True)
class Overridden:
    """One override: what the engine would have, what the fitter has, and what that costs."""

    decision: str
    engine: str
    fitter: str
    reason: str
    points: float
    """Points of the pairing given up (negative: given up)."""
    carry: float
    """Expected carry of the two clubs together gained or lost, m."""
    balance: float
    """Change of the club's swing weight reading, points."""
    stale: bool
    """The engine now decides the same by itself, or the override can no longer be followed."""
    followed: bool = True
    """False where the answers moved on and left nothing for the override to change."""


def overridden(
    judge: Judge,
    subject: Subject,
    met: Mapping[str, Pair],
    picked: Pair | None,
    pairing: Choice | None,
    flier: Flier | None,
) -> tuple[Pair | None, tuple[Overridden, ...]]:
    """Apply a session's overrides to the engine's pick, in a fixed order, and price each.

    Raises OverrideProblem for a decision or a value that cannot be read.
    """
    if not subject.overrides or picked is None or pairing is None:
        return picked, ()
    made: list[Overridden] = []
    if "pairing" in subject.overrides:
        wanted = subject.overrides["pairing"]
        try:
            with _under("pairing"):
                picked, one = _other_pair(met, picked, pairing, wanted)
        except Unfollowed:
            one = _left("pairing", picked.id, wanted)
        made.append(one)
    for decision in sorted(set(subject.overrides) - {"pairing"}):
        role, _, part = decision.partition(".")
        try:
            with _under(decision):
                _check(judge, decision, role, part)
                picked, one = _other_part(judge, picked, role, part, subject.overrides[decision], flier)
        except Unfollowed:
            rung_now = picked.longer if role == "longer" else picked.shorter
            before = rung_now.decisions.get(part)
            one = _left(decision, _said(before) if before else "", subject.overrides[decision])
        made.append(one)
    return picked, tuple(made)


@contextmanager
def _under(decision: str) -> Iterator[None]:
    """Note under which decision of the session the override stands that cannot be read."""
    try:
        yield
    except OverrideProblem as problem:
        problem.decision = decision
        raise


def _check(judge: Judge, decision: str, role: str, part: str) -> None:
    """Refuse an override of what is no decision on a club, or is none of the ladder's."""
    if role not in ("longer", "shorter") or part not in judge.base.decisions or part == "pairing":
        raise OverrideProblem(
            f"the override '{decision}' names no decision; write one such as 'longer.length'"
        )
    if part == "ports":
        raise OverrideProblem(
            f"the override '{decision}' is decided at the bench; put the pieces where you want them"
        )


def _left(decision: str, engine: str, override: Override) -> Overridden:
    """Return an override that the answers have left behind: kept in the session, and not acted on."""
    return Overridden(
        decision, engine, override.value, override.reason, 0.0, 0.0, 0.0, stale=True, followed=False
    )


def find_pair(met: Mapping[str, Pair], wanted: str) -> Pair:
    """Return the pair of an id, or of labels such as `5-wood+4-hybrid` where that names one pair only."""
    if wanted in met:
        return met[wanted]
    named = [p for p in met.values() if f"{p.longer.label}+{p.shorter.label}" == wanted]
    if len(named) == 1:
        return named[0]
    if named:
        ids = ", ".join(sorted(p.id for p in named)[:6])
        raise OverrideProblem(f"'{wanted}' names {len(named)} pairs; say which by its id: {ids}")
    if _PAIR.fullmatch(wanted):
        raise Unfollowed(f"the pair '{wanted[:60]}' is not to be had any more")
    some = ", ".join(sorted(met)[:4])
    raise OverrideProblem(f"no pair is called '{wanted[:60]}'; pairs are called like {some}")


def _other_pair(
    met: Mapping[str, Pair], picked: Pair, pairing: Choice, override: Override
) -> tuple[Pair, Overridden]:
    """Put the fitter's pair in the engine's place."""
    other = find_pair(met, override.value)
    standings = {standing.candidate.id: standing.points for standing in pairing.standings}
    cost = (standings.get(other.id, 0) - standings.get(picked.id, 0)) / 1000
    carry = _together(other) - _together(picked)
    one = Overridden(
        "pairing", picked.id, other.id, override.reason, cost, carry, 0.0, stale=other.id == picked.id
    )
    return other, one


def _together(pair: Pair) -> float:
    """Return the expected carries of both clubs, m."""
    return pair.longer.flown.expected + pair.shorter.flown.expected


def _other_part(
    judge: Judge, picked: Pair, role: str, part: str, override: Override, flier: Flier | None
) -> tuple[Pair, Overridden]:
    """Decide one rung of the pair again with one decision pinned, and fly it again."""
    old = picked.longer if role == "longer" else picked.shorter
    before = old.decisions.get(part)
    if before is None or old.owned is not None:
        raise Unfollowed(f"the override '{role}.{part}' has nothing to change: that club is his own as it is")
    if override.value in _on_shelf(judge, part) - {one.candidate.id for one in _standings(before)}:
        raise Unfollowed(f"the override '{role}.{part}' = {override.value} does not fit this club any more")
    pin = _pin(role, part, before, override)
    new = rung(judge, _pinned(_place(judge, old), old, part, pin), flier)
    if isinstance(new, Barred):
        raise Unfollowed(f"the override '{role}.{part}' cannot be built: {new.text}")
    clubs = [finish(judge.base, judge.shelf, judge.golfer, role, one) for one in (old, new)]
    readings = [club.reading.points if club.reading else 0.0 for club in clubs]
    both = (new, picked.shorter) if role == "longer" else (picked.longer, new)
    pair = pairs(judge, both)[0]
    cost = _score(judge, pair) - _score(judge, picked)
    engine, fitter = _said(before), override.value
    one = Overridden(
        f"{role}.{part}", engine, fitter, override.reason, cost, new.flown.expected - old.flown.expected,
        readings[1] - readings[0], stale=_same(before, pin),
    )  # fmt: skip
    return pair, one


def _on_shelf(judge: Judge, part: str) -> set[str]:
    """Return the ids of every part of a sort that the shop has, whether or not it fits this club."""
    shelf = judge.shelf
    parts = {
        "head": {one.id for one in shelf.heads},
        "shaft": {one.id for one in shelf.shafts},
        "grip": {one.id for one in shelf.grips},
    }
    return parts.get(part, set())


def _standings(before: Choice | Amount) -> tuple[Standing, ...]:
    """Return the candidates of a choice; an amount has none."""
    return () if isinstance(before, Amount) else before.standings


def _score(judge: Judge, pair: Pair) -> float:
    """Return a pair's points by itself."""
    standing = judge.base.choose("pairing", judge.golfer.views, [pair.candidate]).standings[0]
    return standing.points / 1000


def _pin(role: str, part: str, before: Choice | Amount, override: Override) -> object:
    """Read an override's value as what the decision takes."""
    if isinstance(before, Amount):
        shown = unit(before.decision.unit)
        low, high = (shown.to_si(limit / 1000) for limit in before.decision.limits)
        try:
            value = parse(override.value, shown)
        except UnitError as error:
            raise OverrideProblem(f"the override '{role}.{part}': {error}") from None
        if not low <= value <= high:
            ends = " to ".join(words(end, before.decision.unit) for end in (low, high))
            raise OverrideProblem(
                f"the override '{role}.{part}' = {override.value[:40]} is not within the rules' {ends}"
            )
        return value
    names = tuple(standing.candidate.id for standing in before.standings)
    found = override.value if override.value in names else match_word(override.value, names)
    if found is None:
        raise OverrideProblem(
            f"the override '{role}.{part}': '{override.value[:40]}' is not one of {', '.join(names)}"
        )
    return found


def _place(judge: Judge, old: Rung) -> Place:
    """Return the place on the ladder that a rung fills."""
    return next(place for place in places(judge) if place.id == old.id)


def _pinned(place: Place, old: Rung, part: str, pin: object) -> Place:
    """Return a place with one more decision pinned, and those pinned before it kept."""
    return place.with_pins({**old.pins, part: pin})


def _said(before: Choice | Amount) -> str:
    """Return what the engine decided, in words."""
    if isinstance(before, Amount):
        return words(before.pick_si, before.decision.unit)
    return before.pick.candidate.id if before.pick else ""


def _same(before: Choice | Amount, pin: object) -> bool:
    """Say whether the engine decides the same by itself."""
    if isinstance(before, Amount):
        return abs(before.pick_si - float(pin)) < 1e-9  # type: ignore[arg-type]
    return before.pick is not None and before.pick.candidate.id == pin
