"""The outcome as text: every sample in every voice reads cleanly at every width."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from interview.session import load
from interview.session.record import VOICES
from interview.views.outcome import OutcomeView, outcome_view
from interview.views.outcome_text import text, text_of
from interview.views.outcome_text.quantities import in_ten, listed, rounded, signed, spelled
from interview.views.study import Study
from rules.fitting import House, Outcome, fit

SAMPLES = sorted((Path(__file__).parents[2] / "sample_sessions").glob("*.toml"))
FITTER: dict[str, Any] = {
    "driver_speed": {"value": "92 mph", "how": "measured"},
    "handicap": 16,
    "longest_iron_loft": "27 deg",
    "hand": "right",
    "pain": "no",
}
JARGON = re.compile(
    r"swing ?weight|\bMOI\b|inertia|centre of mass|dispersion|\bapex\b|\bCG\b|hosel|\bbore\b|\bpoints?\b"
    r"|\bports?\b|\btrim|\btip\b|\brung\b|ledger|smash|\b(?:deg|yd|mph|ft)\b|_",
    re.IGNORECASE,
)


@pytest.fixture(scope="module")
def views(house: House) -> dict[str, OutcomeView]:
    return {file.stem: outcome_view(fit(house, load(file, house.base.facts).subject)) for file in SAMPLES}


def sentences(page: str) -> list[str]:
    """Put wrapped paragraphs together again, one to an entry."""
    joined = re.sub(r"\n {3,}(?=\S)", " ", page)
    return [line.strip() for line in joined.splitlines() if line.strip()]


@pytest.mark.parametrize("voice", VOICES)
@pytest.mark.parametrize("width", [50, 80, 100])
def test_no_line_is_wider_than_asked(views: dict[str, OutcomeView], voice: Any, width: int) -> None:
    for name, view in views.items():
        page = text_of(view, voice, width)
        assert max(map(len, page.splitlines())) <= width, name
        assert not any(line != line.rstrip() for line in page.splitlines())


@pytest.mark.parametrize("voice", VOICES)
def test_every_brace_is_filled_and_nothing_steers_a_terminal(
    views: dict[str, OutcomeView], voice: Any
) -> None:
    for name, view in views.items():
        page = text_of(view, voice)
        assert not re.search(r"[{}]|\bNone\b|\bnan\b|\binf\b", page), name
        assert page.isprintable() or all(c.isprintable() or c == "\n" for c in page)
        assert "\n\n\n" not in page


ROWS = {"head", "shaft", "grip", "mass", "balance", "carry", "height"}


@pytest.mark.parametrize("voice", ["fitter", "customer"])
def test_nothing_is_said_twice(views: dict[str, OutcomeView], voice: Any) -> None:
    for name, view in views.items():
        # Two clubs may well be weighted or cut alike; rows of a club's own block are figures, not talk.
        said = [s for s in sentences(text_of(view, voice)) if len(s) > 60 and s.split()[0] not in ROWS]
        assert len(said) == len(set(said)), name


def test_a_golfer_reads_no_jargon(views: dict[str, OutcomeView]) -> None:
    for name, view in views.items():
        found = JARGON.search(text_of(view, "customer"))
        assert found is None, (name, found)


def test_the_pair_comes_first_and_what_can_hurt_before_it(views: dict[str, OutcomeView]) -> None:
    for name, view in views.items():
        opening = text_of(view, "customer").split("\n\n")[0]
        if name == "pain-stops":
            assert opening.startswith("Stop here")
        else:
            assert opening.startswith("Your two clubs: ")
            assert all(club.label in opening for club in view.clubs)


def test_pain_ends_the_hitting(views: dict[str, OutcomeView]) -> None:
    for voice in VOICES:
        page = text_of(views["pain-stops"], voice)
        assert page.startswith("Stop here")
        assert "Hit six balls" not in page
        assert "Still" not in page.split("\n\n")[1]


def test_the_fitter_reads_every_rule_that_spoke(views: dict[str, OutcomeView]) -> None:
    for view in views.values():
        page = " ".join(text_of(view, "fitter").split())
        for decision in view.decisions.values():
            for line in decision.because:
                if line.spoken and line.weight:
                    assert " ".join(rounded(line.text).split()) in page, line.rule


def test_the_trainer_reads_lessons_sources_and_both_schools(views: dict[str, OutcomeView]) -> None:
    view = views["digger-scattered"]
    page = " ".join(text_of(view, "trainer").split())
    contested = 0
    for line in view.decisions["pairing"].because:
        if line.weight:
            assert line.teaches in page
            assert line.source.words in page
            if line.contested is not None:
                contested += 1
                assert line.contested.says in page
                assert line.contested.leans in page
    assert contested
    assert all(one.text in page for one in view.leans if one.group == "physics")


def test_no_landing_angle_is_given_and_the_fault_is_said_once(views: dict[str, OutcomeView]) -> None:
    for view in views.values():
        page = text_of(view, "fitter")
        assert page.count("too flat") == 1
        assert "descent" not in page.lower()


def test_local_codes_and_licensed_practice_are_always_named(views: dict[str, OutcomeView]) -> None:
    for name, view in views.items():
        for voice in VOICES:
            if name != "pain-stops" or voice != "customer":
                assert "Local codes and licensed practice" in " ".join(text_of(view, voice).split())


def test_a_club_he_owns_is_named_as_plain_text(fitted: Callable[..., Outcome]) -> None:
    owned = [{
        "name": "[red]his[/] \x1b[31m4-wood\x1b]0;title\x07 {loft}", "kind": "fairway", "liked": "yes",
        "loft": {"value": "16.5 deg", "how": "measured"}, "length": "42 in",
    }]  # fmt: skip
    outcome = fitted({**FITTER, "handicap": 9, "driver_speed": "98 mph"}, owned=owned)
    assert any(club.rung.owned for club in outcome.clubs)
    page = text(outcome, "fitter")
    assert '"[red]his[/] 4-wood {loft}"' in page
    assert "\x1b" not in page
    assert "\x07" not in page


def test_metric_speaks_metres_and_centimetres(fitted: Callable[..., Outcome]) -> None:
    """The trainer's lessons are sentences of the trade and keep the trade's units."""
    outcome = fitted(FITTER)
    for voice in VOICES[:2]:
        page = text(outcome, voice, "metric").partition("ASSUMED")[0]
        assert re.search(r"\d cm\b", page)
        assert re.search(r"\d m(?:etres)?\b", page)
        assert not re.search(r"\d (?:yd|yards|feet|ft)\b", page), voice


def test_no_pair_says_why(house: House, subject: Callable[..., Any]) -> None:
    bare = House(house.base, replace(house.shelf, shafts=()))
    outcome = fit(bare, subject(FITTER))
    fitter, customer = text(outcome, "fitter"), text(outcome, "customer")
    assert fitter.startswith("No pair of clubs can be made for this golfer from this shelf.")
    assert "fairway-17" in fitter
    assert "fairway-17" not in customer
    assert customer.count("Nothing in stock will do for the shaft") == 1


def test_an_override_shows_its_price(fitted: Callable[..., Outcome]) -> None:
    made = {"longer.length": {"value": "43.5 in", "reason": "he insists"}}
    page = text(fitted(FITTER, overrides=made), "fitter")
    assert "TAKEN BY HAND" in page
    assert "he insists" in page
    assert "Price: " in page


def test_sure_is_told_where_it_is_known(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(FITTER)
    assert "Sure:" not in text(outcome)
    assert "Sure: the pair stays in 93 % of draws" in text(outcome, study=Study(sure=0.93))
    assert "93 % of the time" in " ".join(text(outcome, "customer", study=Study(sure=0.93)).split())


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("17 deg of loft, 1 in less", "17 degrees of loft, 1 inch less"),
        ("1/2 in off 42 1/4 in", "1/2 inch off 42 1/4 inches"),
        ("about 59.4 % carry 0.2 % less at 92 mph", "about 59 % carry 0.2 % less at 92 miles an hour"),
        ("65 degF and 9.3 g", "65 degrees Fahrenheit and 9.3 grams"),
        ("4 in the bag; 3 in all", "4 in the bag; 3 in all"),
    ],
)
def test_units_are_spelled_for_people(before: str, after: str) -> None:
    assert spelled(before) == after


def test_numbers_are_a_persons() -> None:
    assert [signed(x) for x in (0.5, -0.361, 0.001, -0.001)] == ["+0.50", "-0.36", "0.00", "0.00"]
    assert in_ten(0.02) == "hardly any of your balls"
    assert in_ten(0.62) == "about 6 in 10 of your balls"
    assert in_ten(0.97) == "nearly all of your balls"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a"]) == "a"
    assert listed([]) == ""
