"""Padding is worse than absence: each entry, taken out or swung, changes what some sample golfer hears.

`rules/inquiry/moved.toml` names one sample for each rule, assumption and question that moves one, for
`turfpair rules show`; here every name in it is held to what the road does. An entry moves a golfer when a
pick, an amount, or points or margin (by a fifth of a point or more) of one of his decisions change: a rule
by going, an assumption at an end of its range, a question by "I don't know". Cautions and advice count as
told or not told. `tests/golden.py` tells how the table is written anew.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace

import pytest

from rules.engine import Amount, Candidate, Choice
from rules.engine.views import known
from rules.facts.answers import UNKNOWN
from rules.facts.subject import Subject
from rules.fitting import House, Outcome, fit
from rules.inquiry.moved import TABLE, moved
from tests import golden

_MATERIAL = 200
"""Thousandths of a point."""
UNSOLD = {"deep-sleeve-is-advised-against", "sleeved-tip-warns"}
"""The demo shop stocks no thin-tipped hybrid shaft, which its own check calls a fault: asked below."""
OF_TRIALS = {
    "head-speed-scatter", "head-speed-reading", "ball-speed-scatter", "ball-speed-error", "launch-scatter",
    "launch-error", "spin-scatter", "spin-error", "restitution-spread", "eye-for-height", "trial-level",
    "trial-power", "trial-carry-matters", "trial-usable-matters", "trial-side-matters",
    "trial-scatter-matters",
}  # fmt: skip
"""What a trial calls a difference, and how much its balls may say: they move verdicts, seldom a pick."""
SAID_BY_ALL = {
    "usual-hand", "usual-pain", "usual-driver-length", "usual-miss", "usual-curve",
    "usual-longest-iron-loft", "usual-local-length-limit", "usual-wrist-to-floor",
}  # fmt: skip
"""What stands in for answers that every sample gives, or that do nothing while nobody gives them."""
SMALL = {"adult-parts-height", "raise-sand"}
"""Whose whole range is worth less than a fifth of a point to every sample."""

Signature = dict[str, tuple[object, int, int]]
Moves = Callable[[str, str], bool]
"""Whether an entry moves a sample."""


def _of(decision: Choice | Amount) -> tuple[object, int, int]:
    if isinstance(decision, Amount):
        return decision.pick, 0, 0
    pick = decision.pick
    return (pick.candidate.id, pick.points, decision.margin or 0) if pick else (None, 0, 0)


def _signature(outcome: Outcome) -> Signature:
    assert outcome.pairing is not None
    found = {"pairing": _of(outcome.pairing)}
    for club in outcome.clubs:
        found |= {f"{club.role}.{id}": _of(made) for id, made in club.rung.decisions.items()}
        if club.direction:
            found[f"{club.role}.ports"] = _of(club.direction)
    return found


def _told(outcome: Outcome) -> set[str]:
    return {notice.rule.id for notice in outcome.notices}


def _differ(one: Outcome, other: Outcome) -> bool:
    before, after = _signature(one), _signature(other)
    if before.keys() != after.keys():
        return True
    return any(
        a[0] != b[0] or abs(a[1] - b[1]) >= _MATERIAL or abs(a[2] - b[2]) >= _MATERIAL
        for a, b in ((before[id], after[id]) for id in before)
    )


def _weight(outcome: Outcome, rule: str) -> int:
    """Return the most that a rule gives in a sample's own ledgers: what shows it best is tried first."""
    ledgers = [outcome.pairing, *(d for club in outcome.clubs for d in club.rung.decisions.values())]
    ledgers += [club.direction for club in outcome.clubs]
    lines = [
        line
        for made in ledgers
        if made is not None
        for line in (made.lines if isinstance(made, Amount) else made.pick.lines if made.pick else ())
    ]
    given = (abs(line.points or line.adjust) for line in lines if line.rule and line.rule.id == rule)
    return max(given, default=0)


def _check(ids: Iterable[str], still: set[str], samples: Mapping[str, Outcome], moves: Moves) -> None:
    """Hold the table to the road, or write its rows for these ids anew."""
    __tracebackhide__ = True
    ids = list(ids)
    if golden.WRITE:
        _write(ids, samples, moves)
    if faults := [*_faults(ids, still, moves)]:
        pytest.fail("\n".join((*faults, f"the table is written anew with: {golden.again()}")), pytrace=False)


def _write(ids: Iterable[str], samples: Mapping[str, Outcome], moves: Moves) -> None:
    """Write the rows of some ids anew: one that still holds stays, and one that is lost is looked for."""
    rows = dict(moved())
    for id in ids:
        if id not in rows or not moves(id, rows[id]):
            order = sorted(samples, key=lambda who, id=id: -_weight(samples[who], id))  # type: ignore[misc]
            rows[id] = next((who for who in order if moves(id, who)), "")
    base = next(iter(samples.values())).house.base
    there = base.rules.keys() | base.assumptions.keys() | base.facts.keys()
    lines = (f'{id} = "{who}"' for id, who in sorted(rows.items()) if who and id in there)
    start = TABLE.read_text(encoding="utf-8").split("\n\n")[0]
    TABLE.write_text(start + "\n\n" + "\n".join(lines) + "\n", encoding="utf-8")
    moved.cache_clear()


def _faults(ids: list[str], still: set[str], moves: Moves) -> Iterator[str]:
    """Say of each entry what the table does not have right of it."""
    for id in ids:
        who = moved().get(id)
        if who is None and id not in still:
            yield (
                f"no sample is known to be moved by '{id}', by {_MATERIAL / 1000:g} points or more: write the"
                " table anew; when that finds none, let a sample answer what it reads, or take it out"
            )
        elif who is not None and id in still:
            yield f"'{id}' moves the sample '{who}': take it out of this test's list of those that move none"
        elif who is not None and not moves(id, who):
            yield f"'{who}' is no longer moved by '{id}', by {_MATERIAL / 1000:g} points or more"


def test_every_rule_moves_the_sample_that_is_named(
    house: House, sample_subjects: Mapping[str, Subject], sample_outcomes: Mapping[str, Outcome]
) -> None:
    def moves(id: str, who: str) -> bool:
        if house.base.rules[id].effect.kind in ("caution", "advise"):
            return id in _told(sample_outcomes[who])
        without = replace(house, base=house.base.without(id))
        return _differ(sample_outcomes[who], fit(without, sample_subjects[who]))

    _check(house.base.rules, UNSOLD, sample_outcomes, moves)


def test_assumptions_move_the_samples_that_are_named(
    house: House, sample_subjects: Mapping[str, Subject], sample_outcomes: Mapping[str, Outcome]
) -> None:
    def moves(id: str, who: str) -> bool:
        one = house.base.assumptions[id]
        ends = [end for end in (one.range or one.values) if end != one.value]
        return any(swung(id, who, end) for end in ends)

    def swung(id: str, who: str, end: float | str) -> bool:
        other = fit(house.with_base(house.base.with_assumptions({id: end})), sample_subjects[who])
        return _differ(sample_outcomes[who], other) or _told(sample_outcomes[who]) != _told(other)

    still = OF_TRIALS | SAID_BY_ALL | SMALL
    _check(house.base.assumptions, still, sample_outcomes, moves)


def test_every_question_moves_the_sample_that_is_named(
    house: House, sample_subjects: Mapping[str, Subject], sample_outcomes: Mapping[str, Outcome]
) -> None:
    def moves(id: str, who: str) -> bool:
        subject = sample_subjects[who]
        if id not in subject.answers:
            return False
        other = fit(house, replace(subject, answers={**subject.answers, id: UNKNOWN}))
        return _differ(sample_outcomes[who], other) or _told(sample_outcomes[who]) != _told(other)

    questions = [id for id, fact in house.base.facts.items() if fact.ask]
    _check(questions, set(), sample_outcomes, moves)


def test_the_table_names_entries_and_samples_that_there_are(
    house: House, sample_subjects: Mapping[str, Subject]
) -> None:
    base = house.base
    assert moved().keys() <= {*base.rules, *base.assumptions, *base.facts}
    assert set(moved().values()) <= sample_subjects.keys()


@pytest.mark.parametrize(
    ("fit_word", "points"), [("straight_fit", 0), ("thin_sleeve", -1000), ("deep_sleeve", -8000)]
)
def test_a_thin_tip_in_a_thick_bore_stands_far_behind(house: House, fit_word: str, points: int) -> None:
    # Case of the trade A11, common practice: 0.335 in 0.370 is advised against; 0.335 in 0.350 is shimmed.
    shaft = Candidate("shaft", {"tip_fit": known(fit_word)})
    choice = house.base.choose("shaft", {}, [shaft])
    assert choice.pick is not None
    assert choice.pick.points == points


def test_a_thick_tip_is_ruled_out_of_a_thin_bore(house: House) -> None:
    choice = house.base.choose("shaft", {}, [Candidate("shaft", {"tip_fit": known("no_fit")})])
    assert choice.pick is None
    assert [line.rule.id for line in choice.standings[0].ruled_out if line.rule] == ["tip-that-does-not-fit"]


def test_a_sleeved_tip_is_warned_of_at_the_bench(house: House) -> None:
    told = {n.rule.id: n for n in house.base.notices("bench", {"bench_tip_fit": known("deep_sleeve")})}
    assert "full-depth" in told["sleeved-tip-warns"].text()
    assert "wall" in told["opening-a-bore"].text()
