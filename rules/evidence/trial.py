"""A whole trial: clubs summed up and compared, belief beside balls, the pick before and after."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from itertools import pairwise
from typing import TYPE_CHECKING, Literal, cast

from rules.evidence.change import Change, change
from rules.evidence.comparing import Comparison, Rules, compared
from rules.evidence.expected import Expected, expected
from rules.evidence.summary import ClubBalls, summed_up
from rules.facts.known import assumed
from rules.facts.tried import tried_clubs
from rules.fitting import fit
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.facts.subject import Subject
    from rules.facts.tried import Tried
    from rules.facts.weighed import Weighed
    from rules.fitting import House
    from rules.golf.delivery import Delivery

Remark = Literal[
    "one_after_the_other", "ground_unsaid", "face_assumed", "carry_missing", "misfit", "loft_unsaid"
]
"""What a reader of a trial must know: clubs hit one after the other; nobody said off what; marks on a face
that was not measured; misses without a carry; readings that contradict one another; a club without loft."""
_MISFIT = 2.5
"""Left unexplained beyond this, in spreads, readings contradict one another or the club."""


class NoSuchClub(Problem):
    """A club to compare with that no ball was hit with."""

    def __init__(self, name: str, known: tuple[str, ...]) -> None:
        close = get_close_matches(name, known, 1)
        hint = f"; did you mean '{close[0]}'?" if close else f"; balls were hit with {', '.join(known)}"
        super().__init__(f"no ball was hit with a club called '{name[:40]}'{hint}")


@dataclass(frozen=True, slots=True)
class Trial:
    """A trial and what it says."""

    clubs: tuple[ClubBalls, ...]
    """The one that the others are held against first, then in the order in which they were first hit."""
    comparisons: tuple[Comparison, ...]
    beliefs: tuple[Weighed, ...]
    """What the interview believed and what the balls say, figure by figure."""
    expected: Mapping[str, Expected]
    """By club, what the interview expected of it."""
    deliveries: Mapping[str, Delivery]
    """By club, what its launches come from."""
    change: Change
    """The recommendation from the answers alone, and with the balls."""
    remarks: tuple[tuple[Remark, str], ...]
    """What must be known to read it, with the clubs it concerns."""
    rules: Rules
    """What was called a difference."""


def trial(house: House, subject: Subject, against: str | None = None) -> Trial:
    """Return what the balls of a session say, and what they change.

    Clubs are held against `against`, else against the golfer's own first club that was hit, else against
    the one that was hit first. Without balls there are no clubs and nothing changes. NoSuchClub.
    """
    bare = fit(house, replace(subject, shots=()))
    full = fit(house, subject) if subject.shots else bare
    base, balls = house.base, full.golfer.balls
    tried = {club.name: club for club in tried_clubs(base, subject, house.shelf)}
    clubs = [tried[name] for name in _order(subject, against)]
    rules, kept = Rules.of(base), assumed(base, "mishit-carry")
    hopes = {club.name: expected(house, bare.golfer, club) for club in clubs}
    return Trial(
        clubs=tuple(summed_up(club, kept) for club in clubs),
        comparisons=compared(rules, clubs[0], clubs[1:]) if clubs else (),
        beliefs=balls.weighed,
        expected={name: hope for name, hope in hopes.items() if hope is not None},
        deliveries=balls.learned.deliveries,
        change=change(bare, full),
        remarks=tuple(_remarks(subject, clubs, balls.learned.deliveries)),
        rules=rules,
    )


def _order(subject: Subject, against: str | None) -> tuple[str, ...]:
    """Return the clubs that were hit, the one that others are held against first."""
    hit = tuple(dict.fromkeys(shot.club for shot in subject.shots))
    if not hit:
        return ()
    own = next((club.name for club in subject.owned if club.name in hit), hit[0])
    first = own if against is None else against
    if first not in hit:
        raise NoSuchClub(first, hit)
    return (first, *(name for name in hit if name != first))


def _remarks(
    subject: Subject, clubs: Sequence[Tried], deliveries: Mapping[str, Delivery]
) -> Iterator[tuple[Remark, str]]:
    """Yield what must be known to read a trial."""
    turns = 1 + sum(a.club != b.club for a, b in pairwise(subject.shots))
    if len(clubs) > 1 and turns == len(clubs):
        yield "one_after_the_other", ", ".join(club.name for club in clubs)
    for club in clubs:
        said = {
            "ground_unsaid": any(shot.surface is None for shot in club.shots),
            "face_assumed": not club.face_known and any(s.high is not None for s in club.off_ground),
            "carry_missing": _misses_without_carry(club),
            "misfit": club.name in deliveries and deliveries[club.name].misfit > _MISFIT,
            "loft_unsaid": not club.loft_told,
        }
        for remark, true in said.items():
            if true:
                yield cast(Remark, remark), club.name


def _misses_without_carry(club: Tried) -> bool:
    """Say whether balls that failed lack a carry where others have one, so that the mean flatters."""
    some = any(shot.carry is not None for shot in club.shots)
    return some and any(s.carry is None and s.outcome not in ("up", None) for s in club.shots)
