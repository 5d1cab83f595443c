"""One of his own clubs whose head is one of the catalogue's: flown with that head's own measures."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from interview.views.outcome_text import text
from rules.facts.reading import read_subject
from rules.facts.subject import Reading
from rules.fitting import House, Outcome, fit
from rules.ladder.judge import Judge
from rules.ladder.rung import Rung
from rules.workbench import apart
from rules.workbench.altered import alteration
from rules.workbench.delivered import as_flown, delivered
from rules.workbench.shared import bill

ANSWERS: dict[str, Any] = {
    "handicap": 15,
    "driver_speed": "92 mph",
    "lies": {"tight_fairway": 60, "rough": 40},
}


def run(house: House, **club: str) -> Outcome:
    """A golfer with one wood of his own, of which something is said."""
    own = {"name": "his wood", "kind": "fairway", **club}
    return fit(house, read_subject(house.base.facts, {"answers": ANSWERS, "owned": [own]}))


def own(outcome: Outcome, state: str = "as_it_is") -> Rung:
    return next(rung for rung in outcome.rungs if rung.state == state)


def test_a_catalogued_head_flies_with_its_own_measures(house: House) -> None:
    head = next(one for one in house.shelf.heads if one.kind == "fairway" and one.face_height < 0.032)
    known, other = own(run(house, head=head.id, length="42 in")), own(run(house, length="42 in"))
    assert known.spec.head == head
    assert known.spec.loft == head.loft
    assert known.spec.impact_mass == head.mass
    assert other.spec.head is None
    assert known.flown != other.flown


def test_what_was_told_goes_before_the_catalogue(house: House) -> None:
    head = next(one for one in house.shelf.heads if one.kind == "fairway")
    rung = own(run(house, head=head.id, loft="16.25 deg", can_add="2 g"))
    assert rung.spec.loft == pytest.approx(0.28362, abs=1e-5)  # 16.25 deg
    assert rung.spec.impact_mass == pytest.approx(head.mass + head.capacity - 0.002)


@pytest.mark.parametrize("id", ["no-such-head", "hybrid"])
def test_a_name_that_is_no_such_head_of_the_kind_stays_a_name(house: House, id: str) -> None:
    hybrid = next(one.id for one in house.shelf.heads if one.kind == "hybrid")
    rung = own(run(house, head=hybrid if id == "hybrid" else id, length="42 in"))
    assert rung.spec.head is None
    assert rung.flown == own(run(house, length="42 in")).flown


def test_a_known_head_is_shortened_by_its_own_mass(house: House) -> None:
    head = max((one for one in house.shelf.heads if one.kind == "fairway"), key=lambda one: one.mass)
    outcome = run(house, head=head.id, length="44 in", can_add="0 g", liked="yes")
    work = alteration(own(outcome, "altered"))
    assert work is not None
    assert work.head_known
    assert work.head_mass == pytest.approx(head.mass + head.capacity)


def test_his_own_head_is_not_the_last_one_of_the_shelf(house: House) -> None:
    """A new club may take the last head in the drawer although he owns one like it."""
    head = next(one for one in house.shelf.heads if one.kind == "fairway" and one.hand == "right")
    only = replace(house.shelf, heads=(replace(head, count=1),), stamp=str)
    home = house.with_shelf(only)
    subject = read_subject(house.base.facts, {"answers": ANSWERS, "owned": [
        {"name": "his wood", "kind": "fairway", "loft": "23 deg", "length": "41 in", "head": head.id}
    ]})  # fmt: skip
    outcome = fit(home, subject)
    assert outcome.picked is not None
    heads = [one.spec.head for one in (outcome.picked.longer, outcome.picked.shorter)]
    assert [one and one.id for one in heads] == [head.id, head.id]
    assert [bill(club) is None for club in outcome.clubs].count(True) == 1
    assert apart(Judge(home, outcome.golfer), outcome.picked) is outcome.picked


def test_a_club_built_here_flies_the_same_when_he_owns_it(house: House) -> None:
    """Demo to delivered and back up the road: as built, then as owned, one and the same flight."""
    first = fit(house, read_subject(house.base.facts, {"answers": ANSWERS}))
    club = first.clubs[0]
    assert club.build is not None
    reading = Reading(loft=club.rung.spec.loft, face=0.0, length=club.build.length)
    back = replace(first.subject, owned=(delivered(club, reading),))
    rung = own(fit(house, back))
    flown = as_flown(house.base, first.golfer, club, reading)
    assert rung.spec.head == club.rung.spec.head
    assert rung.flown.centred == pytest.approx(flown.centred, rel=0.002)
    assert rung.flown.expected == pytest.approx(flown.expected, rel=0.002)


def test_the_fitter_reads_what_is_catalogued(house: House) -> None:
    head = next(one for one in house.shelf.heads if one.kind == "fairway" and one.hand == "right")
    answers = {**ANSWERS, "hits_five_wood": "well"}
    own = {"name": "his wood", "kind": "fairway", "head": head.id, "length": "42 in", "liked": "yes"}
    outcome = fit(house, read_subject(house.base.facts, {
        "answers": answers, "owned": [own],
        "overrides": {"pairing": {"value": next(id for id in _pairs(house, answers, own) if "own-" in id)}},
    }))  # fmt: skip
    page = text(outcome, "fitter")
    assert f"{head.label}: face" in page
    assert "as catalogued" in page


def _pairs(house: House, answers: dict[str, Any], own: dict[str, str]) -> list[str]:
    outcome = fit(house, read_subject(house.base.facts, {"answers": answers, "owned": [own]}))
    return list(outcome.pairs)
