"""Six balls with each club, in an order that is fair; a plain state machine for whoever logs them.

Clubs are hit in blocks of three, current club first, and every second round runs backwards (A B, B A; A B C,
C B A). Over a pair of rounds each club's balls lie, on average, equally early and late, so that warming up,
tiring and a rising wind favour nobody; the price is that the last club of a round is hit twice running.
Whose ball is next follows from the balls alone: a ball that was hit out of turn, a session taken up the next
day or a ball taken back all lead to the right next one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

from rules.problems import Problem
from rules.units import unit

if TYPE_CHECKING:
    from rules.facts.subject import Shot, Subject

BALLS = 6
"""Balls with each club: four of six is the pass mark (common practice)."""
BLOCK = 3
"""Balls in a row with one club: enough to settle, too few to groove it."""
PASS = 4
"""Balls of six that must get up."""
MOST_CLUBS = 6
"""Clubs of one trial; more tire any golfer before they tell anything."""

Outcome = Literal["topped", "thin", "fat", "up"]
Surface = Literal["turf", "mat", "tee"]

KEYS: Mapping[str, Outcome] = {
    "1": "topped", "2": "thin", "3": "fat", "4": "up", "t": "topped", "h": "thin", "f": "fat", "u": "up",
}  # fmt: skip
"""One key a ball: digits in the order in which balls get better, or a letter of the word."""


class ProtocolProblem(Problem):
    """A trial that cannot be run so."""


@dataclass(frozen=True, slots=True)
class Ball:
    """What became of one ball: one key, and whatever else somebody saw. SI."""

    outcome: Outcome
    side: float | None = None
    """m right of the line."""
    toe: float | None = None
    """m toward the toe from face centre."""
    high: float | None = None
    """m up the face from its centre."""
    carry: float | None = None


@dataclass(frozen=True, slots=True)
class Turn:
    """Whose ball is next."""

    club: str
    ball: int
    """Counted from 1, of this club's."""
    of: int
    block: int
    """Counted from 1, over all clubs."""
    left_in_block: int
    """Balls of this block still to hit, this one among them."""
    new_block: bool
    """Whether the club changes hands before this ball."""


@dataclass(frozen=True, slots=True)
class Protocol:
    """A trial in progress: which clubs, and every ball so far. Each event gives another."""

    clubs: tuple[str, ...]
    """Current club first, then the candidates."""
    balls: tuple[tuple[str, Ball], ...] = ()
    """Club and ball, in the order in which they were hit."""
    each: int = BALLS
    """Balls to be hit with each club."""
    surface: Surface = "turf"
    indoors: bool = False

    def __post_init__(self) -> None:
        """Refuse a trial without clubs, with one twice, or with too many; ProtocolProblem says which."""
        if not 1 <= len(self.clubs) <= MOST_CLUBS:
            raise ProtocolProblem(f"a trial takes from 1 to {MOST_CLUBS} clubs, not {len(self.clubs)}")
        if len(set(self.clubs)) < len(self.clubs):
            raise ProtocolProblem("a club can be hit in a trial only once; name each of them once")
        if self.each < 1:
            raise ProtocolProblem("at least one ball must be hit with each club")

    @property
    def order(self) -> tuple[str, ...]:
        """Return the club of every ball of the plan, first to last."""
        return tuple(club for club, size in self._blocks() for _ in range(size))

    def _blocks(self) -> Iterator[tuple[str, int]]:
        """Yield every block of the plan: its club and its balls."""
        done = 0
        while done < self.each:
            size = min(BLOCK, self.each - done)
            backwards = (done // BLOCK) % 2 == 1
            for club in reversed(self.clubs) if backwards else self.clubs:
                yield club, size
            done += size

    @property
    def counts(self) -> Mapping[str, int]:
        """Return the balls hit so far with each club of the plan."""
        hit = Counter(club for club, _ in self.balls)
        return {club: hit[club] for club in self.clubs}

    @property
    def next(self) -> Turn | None:
        """Return whose ball is next; None when every club has had its balls."""
        before = dict.fromkeys(self.clubs, 0)
        counts = self.counts
        for number, (club, size) in enumerate(self._blocks(), 1):
            hit = counts[club] - before[club]
            before[club] += size
            if hit < size:
                done = max(0, hit)
                same = bool(self.balls) and self.balls[-1][0] == club
                return Turn(club, counts[club] + 1, self.each, number, size - done, not same)
        return None

    @property
    def finished(self) -> bool:
        """Whether every club has had its balls."""
        return self.next is None

    def tally(self, club: str) -> Mapping[Outcome, int]:
        """Return what became of a club's balls."""
        seen = Counter(ball.outcome for name, ball in self.balls if name == club)
        return {"topped": seen["topped"], "thin": seen["thin"], "fat": seen["fat"], "up": seen["up"]}

    def passed(self, club: str) -> bool | None:
        """Return whether four of six got up with a club; None while that is still open."""
        seen = self.tally(club)
        up, failed = seen["up"], sum(seen.values()) - seen["up"]
        need = PASS * self.each / BALLS
        if up >= need:
            return True
        return False if self.each - failed < need else None

    def struck(self, ball: Ball, club: str | None = None) -> Protocol:
        """Note a ball with the club whose turn it is, or with another of the trial.

        ProtocolProblem when nobody's turn is left, or the club is not of this trial.
        """
        turn = self.next
        name = club if club is not None else turn.club if turn else None
        if name is None:
            raise ProtocolProblem("every club has had its balls; ask for more before noting another")
        if name not in self.clubs:
            raise ProtocolProblem(f"'{name[:40]}' is not one of the clubs of this trial")
        return replace(self, balls=(*self.balls, (name, ball)))

    def undone(self) -> Protocol:
        """Take the last ball back; without balls nothing changes."""
        return replace(self, balls=self.balls[:-1])

    def extended(self, more: int = BALLS) -> Protocol:
        """Ask for more balls with each club, a pair of blocks unless told otherwise."""
        return replace(self, each=self.each + max(0, more))

    def with_club(self, club: str) -> Protocol:
        """Take another candidate in; its balls come up where the plan has them."""
        return replace(self, clubs=(*self.clubs, club))

    def on(self, surface: Surface, *, indoors: bool = False) -> Protocol:
        """Say what balls are hit from, from here on."""
        return replace(self, surface=surface, indoors=indoors)

    def row(self, club: str, ball: Ball) -> dict[str, Any]:
        """Return a ball as the session file holds it under [[shots]]."""
        row: dict[str, Any] = {"club": club, "outcome": ball.outcome, "surface": self.surface}
        for key, value, symbol in (
            ("toe_mm", ball.toe, "mm"), ("high_mm", ball.high, "mm"), ("side_yd", ball.side, "yd"),
        ):  # fmt: skip
            if value is not None:
                row[key] = _short(value, symbol)
        if ball.carry is not None:
            row["carry"] = f"{_short(ball.carry, 'yd'):g} yd"
        return {**row, "indoors": True} if self.indoors else row

    def last_row(self) -> dict[str, Any]:
        """Return the last ball as the session file holds it; ProtocolProblem when there is none."""
        if not self.balls:
            raise ProtocolProblem("no ball has been noted yet")
        return self.row(*self.balls[-1])


def _short(value: float, symbol: str) -> float:
    """Return a value in a unit, to a hundredth: finer than anybody reads it."""
    return round(unit(symbol).from_si(value), 2)


def resumed(subject: Subject, clubs: Sequence[str], each: int = BALLS) -> Protocol:
    """Take a trial up from the balls of a session: those with an outcome, hit with the clubs named.

    The ground of the last of them is taken on. ProtocolProblem for clubs that cannot make a trial.
    """
    kept = [shot for shot in subject.shots if shot.club in clubs and shot.outcome is not None]
    balls = tuple((shot.club, _ball(shot)) for shot in kept)
    most = max(Counter(club for club, _ in balls).values(), default=0)
    whole = each * max(1, -(-most // each))
    last = kept[-1] if kept else None
    surface: Surface = last.surface if last and last.surface else "turf"
    return Protocol(tuple(clubs), balls, whole, surface, bool(last and last.indoors))


def _ball(shot: Shot) -> Ball:
    assert shot.outcome is not None
    return Ball(shot.outcome, shot.side, shot.toe, shot.high, shot.carry)
