"""Every decision of an outcome with its ledger: the pairing, and eight for each of the two clubs.

A ledger adds up: the points of a pick are its score, and start and adjustments of an amount are its pick.
Where no rule had to speak a line of nought says why, so that nothing is ever without a reason.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from interview.views.lines import LineView, of_amount, of_choice, said
from rules.engine.ledger import Amount, Choice
from rules.units import words

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.ledger import Standing
    from rules.fitting import Outcome
    from rules.shelf.parts import Grip, Head, Shaft
    from rules.units import System
    from rules.workbench import Club

PARTS = ("head", "length", "balance", "shaft", "tip", "grip", "lie", "ports")
"""What is decided of each club, in order."""
ROLES = ("longer", "shorter")
"""The two clubs."""

_ONLY = "It is the only one on the shelf that will do here."
_UNOPPOSED = "Nothing speaks against it, and between equals the order of the shelf decides."
_OWN = "It is the golfer's own club, and this stays as it is."
_OWN_MASS = "It is the golfer's own club; where its head can take mass is seen at the bench."
_NO_PAIR = "No pair is possible, so this was not decided."
_BY_HAND = "Taken by the fitter: {reason}"
AS_NOTED = "cut as the shaft's own note says"
SIDES = {"even": "spread evenly", "heel": "to the heel side", "toe": "to the toe side"}


class DecisionView(NamedTuple):
    """One decision: what was picked, and the ledger behind it."""

    id: str
    """pairing, or longer or shorter with the part decided, such as longer.length."""
    title: str
    kind: str
    """choice or amount."""
    because: tuple[LineView, ...]
    pick: str | int | None = None
    """Id of the candidate picked, or the amount in whole thousandths of its unit."""
    words: str = ""
    """The pick as a person would say it."""
    unit: str | None = None
    """Of an amount."""
    start: int | None = None
    """Of an amount, thousandths."""
    score: int | None = None
    """Of a choice: the points of the pick, thousandths."""
    settled: bool = True
    runner_up: str | None = None
    margin: int | None = None
    """Points to the runner-up, thousandths."""
    overruled: bool = False
    """Whether a person took it."""

    @property
    def part(self) -> str:
        """Return the part decided, without the club."""
        return self.id.rpartition(".")[2]

    @property
    def role(self) -> str:
        """Return the club it belongs to; empty for the pairing."""
        return self.id.rpartition(".")[0]


def decisions(outcome: Outcome, pairing: Choice | None, system: System) -> tuple[DecisionView, ...]:
    """Return every decision of an outcome, always all of them; `pairing` is the choice as overridden."""
    return (_pairing(outcome, pairing, system), *_parts(outcome, system))


def _pairing(outcome: Outcome, pairing: Choice | None, system: System) -> DecisionView:
    """Return the decision on the pair."""
    base, picked = outcome.house.base, outcome.picked
    title = base.decisions["pairing"].title
    if pairing is None or picked is None:
        return DecisionView("pairing", title, "choice", (said("no-pair", _NO_PAIR),))
    return _choice("pairing", title, pairing, picked.id, picked.id, _reason(outcome, "pairing"), system)


def _parts(outcome: Outcome, system: System) -> Iterator[DecisionView]:
    """Yield the decisions of the two clubs."""
    clubs = {club.role: club for club in outcome.clubs}
    for role in ROLES:
        for part in PARTS:
            yield _part(outcome, role, part, clubs.get(role), system)


def _part(outcome: Outcome, role: str, part: str, club: Club | None, system: System) -> DecisionView:
    """Return one decision of one club."""
    base, id = outcome.house.base, f"{role}.{part}"
    declared = base.decisions[part]
    if club is None:
        return DecisionView(id, declared.title, declared.kind, (said("no-pair", _NO_PAIR),))
    found = club.direction if part == "ports" else club.rung.decisions.get(part)
    if isinstance(found, Amount):
        return _amount(id, found, base, _reason(outcome, id), system)
    if isinstance(found, Choice):
        picked = _picked_part(club, part, found)
        label = _label(club, part, picked, system)
        return _choice(id, declared.title, found, picked, label, _reason(outcome, id), system)
    text = _OWN_MASS if part == "ports" and club.rung.state == "altered" else _OWN
    return DecisionView(id, declared.title, declared.kind, (said("own-club", text),))


def _reason(outcome: Outcome, id: str) -> str | None:
    """Return the fitter's reason where he took a decision against the engine; None where he did not."""
    for one in outcome.overridden:
        if one.decision == id:
            return one.reason or "no reason was given."
    return None


def _picked_part(club: Club, part: str, choice: Choice) -> str | None:
    """Return the candidate that the club is made with: the engine's, or the one that was pinned."""
    pinned = club.rung.pins.get(part)
    if isinstance(pinned, str) and choice.standing(pinned) is not None:
        return pinned
    return choice.pick.candidate.id if choice.pick else None


def _label(club: Club, part: str, picked: str | None, system: System) -> str:
    """Return what a person calls a candidate."""
    spec = club.rung.spec
    parts: dict[str, Head | Shaft | Grip | None]
    parts = {"head": spec.head, "shaft": spec.shaft, "grip": spec.grip}
    found = parts.get(part)
    if found is not None:
        return found.label
    if part == "tip":
        extra = spec.tip_extra
        return f"{words(extra, 'in', system)} more than its note" if extra else AS_NOTED
    return SIDES.get(picked or "", (picked or "").replace("-", " "))


def _choice(
    id: str, title: str, choice: Choice, picked: str | None, label: str, reason: str | None, system: System
) -> DecisionView:
    """Return the view of a choice, read out for the candidate that stands."""
    standing = choice.standing(picked) if picked is not None else None
    rival = _best_other(choice, picked)
    margin = standing.points - rival.points if standing is not None and rival is not None else None
    return DecisionView(
        id=id,
        title=title,
        kind="choice",
        because=_choice_lines(choice, standing, reason, system),
        pick=picked,
        words=label,
        score=standing.points if standing is not None else None,
        settled=choice.settled or reason is not None,
        runner_up=rival.candidate.id if rival is not None else None,
        margin=margin,
        overruled=reason is not None,
    )


def _best_other(choice: Choice, picked: str | None) -> Standing | None:
    """Return the best candidate that was not picked and not ruled out."""
    others = (s for s in choice.standings if s.candidate.id != picked and not s.is_ruled_out)
    return next(others, None)


def _choice_lines(
    choice: Choice, standing: Standing | None, reason: str | None, system: System
) -> tuple[LineView, ...]:
    """Return the ledger of the candidate that stands; never empty."""
    lines = [of_choice(line, system) for line in standing.lines] if standing is not None else []
    if reason is not None:
        lines.insert(0, said("override", _BY_HAND.format(reason=reason)))
    if not lines:
        lines.append(
            said("only-one", _ONLY) if len(choice.standings) == 1 else said("no-objection", _UNOPPOSED)
        )
    return tuple(lines)


def _amount(id: str, amount: Amount, base: RuleBase, reason: str | None, system: System) -> DecisionView:
    """Return the view of an amount."""
    declared = amount.decision
    lines = [of_amount(line, base, declared, system) for line in amount.lines]
    if reason is not None:
        by_hand = _BY_HAND.format(reason=reason)
        lines = [one._replace(text=by_hand) if one.rule == "pinned" else one for one in lines]
    return DecisionView(
        id=id,
        title=declared.title,
        kind="amount",
        because=tuple(lines),
        pick=amount.pick,
        words=words(amount.pick_si, declared.unit, system),
        unit=declared.unit,
        start=amount.start,
        settled=amount.settled or reason is not None,
        overruled=reason is not None,
    )
