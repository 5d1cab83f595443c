"""The one road: answers, facts, rungs, pairs, pick, bench. Nothing else decides anything.

answers -> facts -> rungs -> pairs -> pick -> bench -> sheets
   ^                                            |
   +--------------- trial shots ----------------+
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rules.facts.golfer import FOR_CAUTIONS, Golfer, golfer
from rules.house import House, load_house
from rules.ladder.bagged import bagged
from rules.ladder.judge import Judge
from rules.ladder.pairs import Pair, order, pairs
from rules.ladder.race import Race
from rules.ladder.rung import Rung
from rules.ladder.stocked import Barred, no_heads, places, rung
from rules.overrides import Overridden, overridden
from rules.questions import Questions, questions
from rules.workbench import Club, apart, finish_both
from rules.workbench.club import towards

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.ledger import Choice, Notice
    from rules.facts.subject import Subject
    from rules.golf.outcome import Flier

__all__ = ["Brief", "House", "Outcome", "brief", "fit", "load_house"]


_NO_TWO = Barred("pair", "no-two-clubs", "The shop and the bag hold no two clubs that make a pair.")
"""Said where every place may be filled and still no pair comes of it."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """Everything that one run of the road found, and the traces that explain it."""

    house: House
    subject: Subject
    golfer: Golfer
    rungs: tuple[Rung, ...]
    """Every rung that could be filled, from strong to weak."""
    barred: tuple[Barred, ...]
    """Places that could not be filled, and why; where no two clubs meet at all, that too."""
    pairs: Mapping[str, Pair]
    pairing: Choice | None
    """The choice among pairs; None when there is no pair to choose from."""
    picked: Pair | None
    """The engine's pair, or the fitter's where he overrode it."""
    clubs: tuple[Club, ...]
    """The longer and the shorter club as finished; empty when no pair is possible."""
    notices: tuple[Notice, ...]
    """Cautions and advice, most general first."""
    questions: Questions
    overridden: tuple[Overridden, ...]
    settled: bool
    """No unanswered question matters any more; it says nothing of how good the answers are."""


def fit(house: House, subject: Subject, flier: Flier | None = None) -> Outcome:
    """Run the road once for one golfer.

    A `flier` (a surface over the first law) stands in for flights where thousands of roads are run.
    """
    player = golfer(house.base, subject, house.shelf)
    judge = Judge(house, player)
    filled, barred = rungs(judge, subject, flier)
    met = {pair.id: pair for pair in pairs(judge, filled)}
    pairing = _paired(judge, filled, met)
    engine_pick = met[pairing.pick.candidate.id] if pairing and pairing.pick else None
    picked, changes = overridden(judge, subject, met, engine_pick, pairing, flier)
    picked = picked and apart(judge, picked, flier)
    clubs = _bench(house, player, picked)
    asked = questions(house.base, player, subject, pairing, picked)
    return Outcome(
        house=house,
        subject=subject,
        golfer=player,
        rungs=tuple(order(filled)),
        barred=barred if met else (*barred, _NO_TWO),
        pairs=met,
        pairing=pairing,
        picked=picked,
        clubs=clubs,
        notices=_notices(house, player, picked, clubs),
        questions=asked,
        overridden=changes,
        settled=not asked.worth_asking,
    )


@dataclass(frozen=True, slots=True)
class Brief:
    """What a road comes to, without the traces: for runs by the thousand."""

    golfer: Golfer
    points: Mapping[str, int | None]
    """Of each pair by its id, thousandths; None where it is ruled out. Counted when somebody asks."""
    picked: Pair | None
    """The engine's pair; overrides are left aside."""
    ports: tuple[str | None, str | None]
    """Which side of the longer and of the shorter head takes the mass; None for a club of his own."""


def brief(
    house: House, subject: Subject, sky: Callable[[float], Flier] | None = None,
    shift: Mapping[str, float] | None = None,
) -> Brief:  # fmt: skip
    """Run the road once on best values alone: the same decisions as `fit`, at a fraction of its cost.

    Overrides are left aside: it tells what the rules would pick. `sky` gives a flier for an air density;
    `shift` moves derived facts of swing and strike.
    """
    judge = judged(house, subject, shift)
    return briefly(judge, subject, sky(judge.golfer.density) if sky else None)


def judged(house: House, subject: Subject, shift: Mapping[str, float] | None = None) -> Judge:
    """Return who decides for a golfer on best values; `shift` as in `brief`."""
    base = house.base
    all_facts = house.once(("caution facts decide",), lambda: (_cautions_decide(base),))[0]
    return Judge(house, golfer(base, subject, house.shelf, shift=shift, cautions=all_facts))


def briefly(judge: Judge, subject: Subject, flier: Flier | None) -> Brief:
    """Run the rest of a brief road."""
    race = Race(judge, rungs(judge, subject, flier)[0])
    place = race.first()
    picked = None if place is None else apart(judge, pairs(judge, race.two(place))[0], flier)
    ports = (towards(judge, picked.longer), towards(judge, picked.shorter)) if picked else (None, None)
    return Brief(judge.golfer, race, picked, ports)


def _paired(judge: Judge, filled: Sequence[Rung], met: Mapping[str, Pair]) -> Choice | None:
    """Choose among pairs on best values; ledgers and bounds are evaluated when somebody asks."""
    if not met:
        return None
    race = Race(judge, filled)
    points = [race.count(place) for place in range(len(race))]
    candidates = [pair.candidate for pair in met.values()]
    return judge.base.counted("pairing", judge.golfer.views, candidates, points)


def _cautions_decide(base: RuleBase) -> bool:
    """Say whether a rule on a decision reads a fact that the house's own rules keep for cautions."""
    return any(rule.decision is not None and rule.reads & FOR_CAUTIONS for rule in base.rules.values())


def rungs(judge: Judge, subject: Subject, flier: Flier | None) -> tuple[list[Rung], tuple[Barred, ...]]:
    """Fill and fly every place on the ladder: from the shelf, and from the bag."""
    tried = [rung(judge, place, flier) for place in places(judge)]
    own = [one for club in subject.owned for one in bagged(judge, club, flier)]
    filled = [one for one in tried if isinstance(one, Rung)] + own
    return filled, no_heads(judge) + tuple(one for one in tried if isinstance(one, Barred))


def _bench(house: House, player: Golfer, picked: Pair | None) -> tuple[Club, ...]:
    """Finish the two clubs of a pair."""
    if picked is None:
        return ()
    return finish_both(house.base, house.shelf, player, picked.longer, picked.shorter)


def _notices(
    house: House, player: Golfer, picked: Pair | None, clubs: tuple[Club, ...]
) -> tuple[Notice, ...]:
    """Collect cautions and advice of every scope; what is said of both clubs is said once."""
    base = house.base
    found = list(base.notices("golfer", player.views))
    if picked is not None:
        for one in (picked.longer, picked.shorter):
            found += base.notices("rung", one.views)
        seen = {**player.views, **picked.views}
        found += base.notices("pair", seen)
        for club in clubs:
            found += base.notices("bench", {**club.rung.views, **seen, **club.views})
    return tuple({(notice.rule.id, notice.text()): notice for notice in found}.values())
