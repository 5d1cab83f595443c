"""Every sample session, with its outcome and its trace, as it was last looked at and found good.

A change of rule, assumption or physics that moves a sample shows here, line by line. Look at each
difference; when all are meant, write the files anew and commit them with the change (`tests/golden.py`).
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from rules.engine import Amount, Choice, Line
from rules.facts.reading import read_subject
from rules.fitting import House, Outcome, fit
from rules.units import UNITS
from rules.workbench.club import Club
from tests import golden

GOLDEN = Path(__file__).parent / "golden"
SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))
_PARTS = ("answers", "owned", "trial_clubs", "shots", "readings", "overrides")


def in_unit(value: float, unit: str, digits: int = 2) -> float:
    """Return an SI value in a unit, rounded so that a platform's last digits do not show."""
    return round(UNITS[unit].from_si(value), digits) + 0.0


def spoken(lines: tuple[Line, ...]) -> dict[str, float]:
    """Return what each line gave, points or unit of the decision, by rule or by kind of line."""
    return {line.rule.id if line.rule else line.kind: (line.points or line.adjust) / 1000 for line in lines}


def decided(made: Choice | Amount) -> dict[str, Any]:
    """Return a decision: its pick and what spoke for it, and for a choice the runner-up and the margin."""
    if isinstance(made, Amount):
        return {"start": made.start / 1000, "pick": made.pick / 1000, "lines": spoken(made.lines)}
    pick, second = made.pick, made.runner_up
    return {
        "pick": pick.candidate.id if pick else None,
        "runner_up": second.candidate.id if second else None,
        "margin": (made.margin or 0) / 1000 if second else None,
        "lines": spoken(pick.lines) if pick else {},
    }


def built(club: Club) -> dict[str, Any]:
    """Return one club: what it is, how it flies, and each of its decisions."""
    spec, flown = club.rung.spec, club.rung.flown
    decisions = {id: decided(made) for id, made in club.rung.decisions.items()}
    if club.direction:
        decisions["ports"] = decided(club.direction)
    return {
        "id": club.rung.id,
        "label": club.rung.label,
        "loft_deg": in_unit(spec.loft, "deg"),
        "length_in": in_unit(spec.length, "in"),
        "carry_yd": in_unit(flown.centred, "yd", 0),
        "expected_yd": in_unit(flown.expected, "yd", 0),
        "apex_ft": in_unit(flown.apex, "ft", 0),
        "usable_share": round(flown.usable, 2),
        "ports_g": {name: in_unit(g, "g") for name, g in club.plan.plan.items()} if club.plan else {},
        "decisions": decisions,
    }


def told(outcome: Outcome) -> dict[str, Any]:
    """Return an outcome with its trace, as plain data."""
    return {
        "settled": outcome.settled,
        "pairing": decided(outcome.pairing) if outcome.pairing else None,
        "clubs": {club.role: built(club) for club in outcome.clubs},
        "notices": {n.rule.id: n.topic for n in outcome.notices},
    }


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_ends_as_it_was_found_good(house: House, path: Path) -> None:
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    subject = read_subject(house.base.facts, {k: v for k, v in data.items() if k in _PARTS})
    page = json.dumps(told(fit(house, subject)), indent=1) + "\n"
    golden.held(GOLDEN / f"{path.stem}.json", page)


def test_each_sample_teaches_something_of_its_own() -> None:
    samples = [tomllib.loads(path.read_text(encoding="utf-8")) for path in SAMPLES]
    assert len(samples) >= 16
    assert [data["id"] for data in samples] == [path.stem for path in SAMPLES]
    assert len({data["note"] for data in samples}) == len(samples)
    assert all(len(data["note"]) > 40 for data in samples)


def test_no_golden_outcome_is_left_of_a_sample_that_went() -> None:
    assert {path.stem for path in GOLDEN.glob("*.json")} == {path.stem for path in SAMPLES}
