"""Rungs from the bag: the golfer's own clubs, as they are and as they could be altered."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from rules.bench.build import SETBACK
from rules.bench.shorten import shorten
from rules.facts.known import Known
from rules.ladder.deciding import thousandths
from rules.ladder.rung import Ledgers, Once, Rung, Spec, State, trade_name
from rules.ladder.start import usual_length
from rules.units import System, parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import OwnedClub
    from rules.golf.outcome import Flier
    from rules.ladder.judge import Judge
    from rules.shelf import Shelf
    from rules.shelf.parts import Head

_INCH = parse("1 in", "m")
_DEGREE = parse("1 deg", "rad")
_SOLD_LONGER = 0.5 * _INCH
"""How much longer than our starting length clubs are sold (common practice)."""
_SOLD_BALANCE = 1.0
"""Swing weight of a club of which none was read, points from D0 (common practice: D0 to D2)."""
_USUAL_LOFT = {"fairway": 15.5 * _DEGREE, "hybrid": 21 * _DEGREE}
USUAL_SHAFT = parse("65 g", "kg")
"""Cut shaft of a club that was never weighed in parts, kg (common practice)."""
USUAL_MASS = {"fairway": 0.212, "hybrid": 0.230}
"""Head of such a club by kind, kg (common practice)."""
_WORTH_CUTTING = 0.5 * _INCH
"""Less than this is not worth the work of an alteration (common practice: half-inch steps)."""


def bagged(judge: Judge, club: OwnedClub, flier: Flier | None = None) -> list[Rung]:
    """Return one of his own clubs as it is and, where the rules would build it shorter, as altered.

    The altered club is shortened to what the rules ask for and reweighted as far as its head can take
    mass. A head of the catalogue, named by its id, is flown with its own measures; of any other nothing
    is known, so a usual head stands in and says so.
    """
    as_is = _spec(judge.base, club, own_head(judge.shelf, club))
    facts = _facts(judge, club, as_is, 0.0, "as_it_is")
    asked = {**facts, "usual_length": Known(usual_length(judge.base, club.kind, as_is.loft))}
    wanted, _ = judge.amount("length", judge.views(asked))
    over = thousandths(judge, "length", as_is.length) - thousandths(judge, "length", wanted)
    overlong = max(0.0, over / 1000 * _INCH)
    trace = Once(partial(_ledgers, judge, asked, facts, as_is))
    made = [_rung(judge, club, as_is, trace, flier, overlong=overlong)]
    cut = as_is.length - wanted
    if cut >= _WORTH_CUTTING - 1e-9:
        after = _altered(club, as_is, cut)
        facts = _facts(judge, club, as_is, cut, "altered")
        trace = Once(partial(_ledgers, judge, asked, facts, after, altered=True))
        made.append(_rung(judge, club, after, trace, flier, cut=cut))
    return made


def own_head(shelf: Shelf, club: OwnedClub) -> Head | None:
    """Return the catalogue's head that a club has, if its `head` names one of its kind; else None."""
    if club.head is None:
        return None
    return next((head for head in shelf.heads if head.id == club.head and head.kind == club.kind), None)


def own_mass(club: OwnedClub, head: Head | None) -> float:
    """Return the mass behind the ball of an owned club, kg: a usual head's where the catalogue has none.

    Of a known head what its ports hold is its capacity less what it can still take; as empty while
    nobody said.
    """
    if head is None:
        return USUAL_MASS[club.kind]
    return head.mass + (0.0 if club.can_add is None else max(0.0, head.capacity - club.can_add))


def _loft(club: OwnedClub, head: Head | None) -> float:
    """Return the loft of an owned club, rad: as told, else its head's, else a usual one."""
    if club.loft is not None:
        return float(club.loft.value)  # type: ignore[arg-type]
    return _USUAL_LOFT[club.kind] if head is None else head.loft


def _spec(base: RuleBase, club: OwnedClub, head: Head | None) -> Spec:
    """Return what is known of an owned club; what was not said is what such clubs are sold with."""
    loft = _loft(club, head)
    length = club.length or usual_length(base, club.kind, loft) + _SOLD_LONGER
    balance = _SOLD_BALANCE if club.swing_weight is None else club.swing_weight
    lie, face_angle, face_height = (head.lie, head.face_angle, head.face_height) if head else (0.0, 0.0, None)
    return Spec(
        loft, length, balance, lie, face_angle, head, None, None, 0.0, face_height, own_mass(club, head)
    )


def _altered(club: OwnedClub, spec: Spec, cut: float) -> Spec:
    """Return an owned club shortened and reweighted within what its head can take.

    The exact sum of the bench, for a shaft of usual mass; what the head cannot take is lost balance.
    """
    work = shorten(spec.length, spec.length - cut, spec.impact_mass, USUAL_SHAFT, setback=SETBACK)
    back = min(work.restore, club.can_add or 0.0)
    balance = spec.balance + work.points_change + back / work.mass_per_point
    return replace(spec, length=spec.length - cut, balance=balance, impact_mass=spec.impact_mass + back)


def _facts(judge: Judge, club: OwnedClub, spec: Spec, cut: float, state: State) -> dict[str, Known]:
    """Return what is known of an owned club before its rung is flown; `spec` is the club as it is."""
    low, high = judge.base.facts["cut"].range
    return {
        "kind": Known(club.kind),
        "loft": Known(spec.loft),
        "owned": Known(state),
        "owned_liked": Known(club.liked or "so_so"),
        "cut": Known(min(high, max(low, cut))),
        "usual_length": Known(spec.length),
    }


def _kept(_: System) -> str:
    """Say why an amount of an owned club is not what the rules would build."""
    return "His own club, as it is or as its head allows."


def slug(name: str) -> str:
    """Return a club's name as part of an id: lower case, words joined by hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:40] or "club"


def _ledgers(
    judge: Judge, asked: Mapping[str, Known], facts: Mapping[str, Known], spec: Spec, *, altered: bool = False
) -> Ledgers:
    """Return the trace of an owned club: how the rules would build it, and what was left as it is.

    `asked` are the facts on which its length is asked for, `facts` those of the club as it then is.
    """
    clerk, base = judge.clerk, judge.base
    length = base.amount("length", {**clerk.seen, **clerk.views(asked)})
    seen = {**clerk.seen, **clerk.views(facts)}
    balance = base.amount("balance", seen).pinned(spec.balance, _kept)
    held = length if altered else length.pinned(spec.length, _kept)
    return Ledgers({"length": held, "balance": balance}, seen)


def _rung(
    judge: Judge, club: OwnedClub, spec: Spec, trace: Once[Ledgers], flier: Flier | None,
    *, cut: float = 0.0, overlong: float = 0.0,
) -> Rung:  # fmt: skip
    """Return one rung of an owned club."""
    state: State = "altered" if cut else "as_it_is"
    ending = f"-at-{spec.length / _INCH:g}-in" if cut else ""
    label = f"{trade_name(club.kind, spec.loft / _DEGREE)}, owned"
    return Rung(
        f"own-{slug(club.name)}{ending}", club.kind, state, label, spec,
        judge.flown(club.kind, spec, flier), trace, {}, club, cut, overlong,
    )  # fmt: skip
