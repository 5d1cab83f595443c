"""The end of an outcome in words: what was assumed, what to mind and how to prove it, or none of that."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from interview.views.outcome import OutcomeView, outcome_view
from interview.views.outcome_text import text_of
from rules.fitting import Outcome

HEADINGS = ("TAKEN BY HAND", "WHAT WE TOOK FOR GRANTED", "CAUTIONS", "PLEASE MIND", "PROVE IT")
UNKNOWN = {id: {"unknown": True} for id in ("wind", "turf", "driver_loft", "handicap")}


@pytest.fixture
def view(fitted: Callable[..., Outcome]) -> OutcomeView:
    return outcome_view(fitted({"driver_speed": "92 mph", **UNKNOWN}))


def test_what_there_is_nothing_to_say_of_has_no_heading(view: OutcomeView) -> None:
    bare = view._replace(leans=(), cautions=(), proofs=(), overrides=())
    for voice in ("fitter", "customer", "trainer"):
        page = text_of(bare, voice)
        assert not [one for one in HEADINGS if one in page]
    assert "PROVE IT" in text_of(view)
    assert "HOW TO MAKE SURE" in text_of(view, "customer")


def test_a_golfer_is_told_apart_what_was_not_said_and_which_number_was_missing(view: OutcomeView) -> None:
    answers = tuple(one for one in view.leans if one.group == "answer" and not one.open)
    said = tuple(one for one in answers if one.text.startswith("Unless "))
    numbers = tuple(one for one in answers if not one.text.startswith("Unless "))

    def told(leans: tuple[object, ...]) -> str:
        return " ".join(text_of(view._replace(leans=leans), "customer").split())  # type: ignore[arg-type]

    assert said
    assert "You did not tell us otherwise" in told(said)
    assert "Where a number was missing" not in told(said)
    assert "Where a number was missing we took a usual one: driver loft" in told(numbers)
    assert "You did not tell us otherwise" not in told(numbers)
    assert "WHAT WE TOOK FOR GRANTED" not in told(())


def test_a_golfer_is_not_told_what_is_for_the_trade(view: OutcomeView) -> None:
    assumed = next(one for one in view.leans if one.group == "answer" and one.text.startswith("Unless"))
    text = "Unless told otherwise, swinging does not hurt; the question is always asked."
    told = text_of(view._replace(leans=(assumed._replace(text=text, open=False),)), "customer")
    assert "so we took it that swinging does not hurt. " in told.replace("\n", " ")


def test_what_is_known_of_everything_stands_in_for_nothing(view: OutcomeView) -> None:
    known = {id: fact._replace(how="said") for id, fact in view.facts.items()}
    page = " ".join(text_of(view._replace(facts=known)).split())
    assert "Not said or not known" not in page
    assert "nothing stands in" not in page
    assert "Not said or not known" in " ".join(text_of(view).split())


def test_the_trainer_reads_what_else_an_assumption_could_be(view: OutcomeView) -> None:
    one = next(one for one in view.leans if one.range is not None and isinstance(one.value, float))
    page = " ".join(text_of(view._replace(leans=(one._replace(group="rules"),)), "trainer").split())
    assert " to " in page.partition("Taken: ")[2].partition(").")[0]
    only = one._replace(group="rules", range=None)
    assert "Taken: " in " ".join(text_of(view._replace(leans=(only,)), "trainer").split())
    nothing = one._replace(group="rules", value=None, range=None)
    assert "Taken: " not in " ".join(text_of(view._replace(leans=(nothing,)), "trainer").split())
