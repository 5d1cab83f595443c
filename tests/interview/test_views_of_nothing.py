"""What the views say where nothing was decided, drawn, built or asked: a word, never a gap."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import SimpleNamespace

from interview.sheets.pictures.ladder import ladder
from interview.views.bay.drawn import ladder_view
from interview.views.build.lengths import length_prices
from interview.views.build.lies import face_prices
from interview.views.inquiry.asked import explained
from interview.views.inquiry.explain_json import _study
from interview.views.inquiry.fill import filled
from interview.views.inquiry.words import Words
from interview.views.outcome import outcome_view
from interview.views.outcome_text.page import Page
from interview.views.pictures import FULL, plain
from interview.views.pictures.beam import beam_rows
from interview.views.pictures.ink import Ink, Row, clipped, target_at
from interview.views.pictures.ledger import contrast_rows, near_rows
from interview.views.pictures.standing import firm_line
from interview.views.study import Study as Filled
from interview.views.trial.live import pick_line
from interview.views.trial.pick import verdict
from interview.views.trial.said import Told
from rules.evidence.change import change, reasons
from rules.fitting import Outcome
from rules.inquiry.blame import blamed
from rules.inquiry.study import Study
from tests.screens.bay_views import BEAM, CONTRAST, STANDING

ANSWERS = {"driver_speed": "92 mph", "handicap": 15}


def test_a_study_of_nothing_and_one_that_has_only_begun_leave_their_fields_empty(
    nothing: Outcome, fitted: Callable[..., Outcome]
) -> None:
    assert filled(nothing, None) == Filled()
    there = fitted(ANSWERS)
    of = explained(there, "pairing", None, None, "imperial")
    assert set(_study(of).values()) == {None}
    begun = of._replace(study=Study("a", None, None))
    told = _study(begun)
    assert [told[key] for key in ("enough", "overtake", "sure", "steady")] == [None] * 4
    assert told["would_change"] == []


def test_the_balls_of_a_golfer_without_a_pair_are_told_all_the_same(
    nothing: Outcome, fitted: Callable[..., Outcome]
) -> None:
    there, told = fitted(ANSWERS), Told.on(Page(80), "fitter", "imperial")
    said = [verdict(change(*two), told) for two in ((nothing, nothing), (there, nothing), (nothing, there))]
    assert len(set(said)) == 3
    assert all(said)
    assert pick_line(nothing, there, told) == said[2]
    assert pick_line(there, there, told) not in said
    assert reasons(change(nothing, there)) == ()
    assert change(nothing, there).moved[0].before is None
    assert blamed(nothing, there, "pairing") == blamed(there, nothing, "longer.length") == ()


def test_a_build_that_is_none_has_no_prices(nothing: Outcome) -> None:
    for role in ("longer", "shorter"):
        assert length_prices(nothing, role) is None
        assert face_prices(nothing, role) is None
    assert outcome_view(nothing, "imperial").clubs == ()


def test_what_is_not_known_is_called_that(fitted: Callable[..., Outcome]) -> None:
    outcome = fitted(ANSWERS)
    trade, golfer = Words(outcome, "imperial"), Words(outcome, "imperial", customer=True)
    assert trade.value("handicap", None) == "not known"
    assert trade.pair("") == "no pair"
    assert "a club of the golfer's own" in trade.pair("his-old-one+fairway-18")
    assert "a club of your own" in golfer.pair("his-old-one+fairway-18")
    assert "%" in trade.value("lies", {"tee": 0.25, "fairway": 0.75})


def test_a_picture_of_nothing_says_why() -> None:
    blank = replace(BEAM, unknown="No build was found for it.")
    assert plain(beam_rows(blank, 60, FULL)).splitlines() == [BEAM.name, "No build was found for it."]
    light = plain(beam_rows(replace(BEAM, inertia=None), 90, FULL))
    assert "inertia" in plain(beam_rows(BEAM, 90, FULL))
    assert "inertia" not in light
    out = plain(contrast_rows(replace(CONTRAST, out="no fit for the hand"), 70, FULL))
    assert "Ruled out: no fit for the hand" in out
    assert "Ruled out" not in plain(contrast_rows(CONTRAST, 70, FULL))
    assert plain(near_rows((), 70, FULL)) == "Every rule of this decision spoke."
    assert firm_line(replace(STANDING, nothing="No pair is possible."), FULL) == ""
    assert firm_line(STANDING, FULL)


def test_text_of_wide_letters_is_clipped_to_its_cells_and_a_click_beside_a_row_is_the_row_s() -> None:
    assert clipped("½¾½", 3) == "½¾½"
    assert clipped("°°°°", 3, "") == "°°°"
    assert clipped("木木木", 5, "") == "木木"
    one = Row((Ink("ab", target="piece"), Ink("cd")), "row")
    assert [target_at(one, cell) for cell in (0, 2, 9)] == ["piece", "row", "row"]


def test_no_ladder_is_drawn_without_distances(nothing: Outcome) -> None:
    assert ladder(SimpleNamespace(gaps=None)) is None  # type: ignore[arg-type]
    assert ladder_view(nothing, "imperial").rungs == ()
