"""Where the golfer strikes the face: his own marks, weighed against what his answers suggest.

No published table of strike scatter by handicap was found; the house values are assumptions with
ranges, and the golfer's own marks replace them as far as their number says.

A mark is read from face centre; the pattern counts from where geometry says the ball is met. The one is
turned into the other by the face height of the club: the shop's measure, or else a usual one, which
adds its own doubt to the height of the marks. Turf of a trial is taken to be usual fairway, a mat to be as
tight as tight fairway.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rules.facts.known import Known, assumed, waiting
from rules.facts.weighed import Weighed, combined
from rules.golf.contact import height_up_face
from rules.golf.delivery import Estimate
from rules.golf.strike import Doubt, Mark, StrikePattern, by_handicap, learn, mark_on
from rules.units import parse

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.facts.subject import Shot
    from rules.facts.tried import Tried

_FEWEST_MARKS = 4
"""Fewer marks than this leave the answers in charge of what the rules are told."""
_DOUBT = Doubt(mean_toe=0.006, mean_high=0.003, scatter=0.35, correlation=0.5)
"""How far the answers may be from this golfer (assumption): what his own marks are weighed against."""
_FACE_DOUBT = parse("1.5 mm", "m")
"""How far the middle of an unmeasured face may be from that of a usual one (assumption)."""
_LIMITS = (parse("-45 mm", "m"), parse("45 mm", "m"))
"""What a mark may be off where the ball should be met; beyond it the reading is at its edge."""


@dataclass(frozen=True, slots=True)
class Strike:
    """The strike pattern, as numbers for the flights and as facts for the rules."""

    pattern: StrikePattern
    facts: Mapping[str, Known]
    weighed: tuple[Weighed, ...] = ()
    """Belief and marks side by side; empty without marks."""


def strike(
    base: RuleBase, asked: Mapping[str, Known], skill: Known, attack: float, tried: Sequence[Tried]
) -> Strike:
    """Return the strike pattern from the golfer's own marks off the ground, weighed against his answers.

    `attack` (rad) is the blow at which the marks were made. The facts wait on the questions of contact and
    handicap as long as these are open: marks outweigh an answer, they do not answer.
    """
    prior = _prior(base, asked["contact"].words, skill.number)
    marked = [(club, shot) for club in tried for shot in club.off_ground if _marked(shot)]
    marks = [_mark(base, club, shot, attack) for club, shot in marked]
    doubt = _FACE_DOUBT * sum(not club.face_known for club, _ in marked) / max(1, len(marked))
    weighed = _weighed(marks, prior, doubt) if marks else ()
    pattern = _pattern(marks, prior, weighed)
    waits = waiting((asked["contact"], skill))
    spreads = _spreads(prior) if not marks else {one.fact: one.after.spread for one in weighed}
    how = "shots" if marks else "derived"
    facts = {
        id: Known(value, how, spreads[id], waits)  # type: ignore[arg-type]
        for id, value in _numbers(pattern).items()
    }
    facts["strike_from"] = Known("marks" if len(marks) >= _FEWEST_MARKS else "answers")
    return Strike(pattern, facts, weighed)


def _marked(shot: Shot) -> bool:
    return shot.toe is not None and shot.high is not None


def _mark(base: RuleBase, club: Tried, shot: Shot, attack: float) -> Mark:
    """Turn a mark read from face centre into one that counts from where the ball should be met."""
    assert shot.toe is not None
    assert shot.high is not None
    raised = assumed(base, "raise-tight" if shot.surface == "mat" else "raise-fairway")
    high = mark_on(shot.high, club.face, height_up_face(club.loft, raised, attack))
    low, top = _LIMITS
    return min(top, max(low, shot.toe)), min(top, max(low, high))


def _numbers(pattern: StrikePattern) -> dict[str, float]:
    """Return a pattern's figures by the facts that they are."""
    return {
        "strike_mean_toe": pattern.mean_toe,
        "strike_mean_high": pattern.mean_high,
        "strike_sd_toe": pattern.sd_toe,
        "strike_sd_high": pattern.sd_high,
    }


def _spreads(prior: StrikePattern) -> dict[str, float]:
    """Return how far the answers may be from this golfer, by fact."""
    return {
        "strike_mean_toe": _DOUBT.mean_toe,
        "strike_mean_high": _DOUBT.mean_high,
        "strike_sd_toe": _DOUBT.scatter * prior.sd_toe,
        "strike_sd_high": _DOUBT.scatter * prior.sd_high,
    }


def _weighed(marks: Sequence[Mark], prior: StrikePattern, face_doubt: float) -> tuple[Weighed, ...]:
    """Return belief and marks side by side, figure by figure, as `learn` weighs them."""
    learnt, spreads = _numbers(learn(marks, prior, _DOUBT)), _spreads(prior)
    n = len(marks)
    found = []
    for axis, side in ((0, "toe"), (1, "high")):
        values = [mark[axis] for mark in marks]
        mean, sd = f"strike_mean_{side}", f"strike_sd_{side}"
        before = Estimate(_numbers(prior)[mean], spreads[mean])
        # The middle of an unmeasured face is off for all marks alike: no number of them averages it out.
        own = math.hypot(learnt[sd] / math.sqrt(n), face_doubt if side == "high" else 0.0)
        seen = Estimate(math.fsum(values) / n, own)
        found.append(Weighed(mean, before, seen, combined(before, seen), n))
        found.append(_scatter(sd, values, Estimate(_numbers(prior)[sd], spreads[sd]), learnt[sd]))
    return tuple(found)


def _scatter(fact: str, values: Sequence[float], before: Estimate, after: float) -> Weighed:
    """Return the scatter of some marks beside the scatter believed; spreads are those of its logarithm."""
    n = len(values)
    if n < 2:
        return Weighed(fact, before, None, before, n)
    mean = math.fsum(values) / n
    seen = math.sqrt(math.fsum((value - mean) ** 2 for value in values) / (n - 1))
    relative = 1.0 / math.sqrt(_DOUBT.scatter**-2 + 2 * (n - 1))
    return Weighed(
        fact, before, Estimate(seen, seen / math.sqrt(2 * (n - 1))), Estimate(after, relative * after), n
    )


def _pattern(marks: Sequence[Mark], prior: StrikePattern, weighed: Sequence[Weighed]) -> StrikePattern:
    """Return the pattern that the marks leave: learnt, its mean height as far as the face is known."""
    if not marks:
        return prior
    high = next(one.after.value for one in weighed if one.fact == "strike_mean_high")
    return replace(learn(marks, prior, _DOUBT), mean_high=high)


def _prior(base: RuleBase, contact: frozenset[str], skill: float) -> StrikePattern:
    """Return the pattern that handicap and contact answers suggest; scatter straight from scratch to 36."""
    anchors = ((0.0, assumed(base, "sd-toe-skilled")), (36.0, assumed(base, "sd-toe-novice")))
    sd = by_handicap(skill, anchors)
    if "scattered" in contact:
        sd *= assumed(base, "scattered-factor")
    elif "centred" in contact and not contact & {"thin", "fat", "toe", "heel"}:
        sd *= assumed(base, "centred-factor")
    high = assumed(base, "high-shift") if "high_face" in contact else 0.0
    if contact & {"thin", "low_face"}:
        high += assumed(base, "thin-low-shift")
    side = (("toe" in contact) - ("heel" in contact)) * assumed(base, "toe-shift")
    return StrikePattern(side, high, sd, sd * assumed(base, "sd-high-share"))
