"""A lesson in plain lines, part by part: what moved, what did not, and what there is none of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest

from interview.session import load
from interview.views.lessons.lines import (
    change_lines,
    chart_lines_plain,
    edit_lines,
    effect_lines,
    fact_lines,
    flip_lines,
    here_lines_plain,
    influence_lines,
    progress_lines,
    step_lines,
)
from interview.views.pictures import FULL, plain
from interview.views.trainer.edit import (
    EditView,
    Effect,
    edit_heading,
    effect_rows,
    entries_rows,
    fields_rows,
)
from interview.views.trainer.edited import effect_view, here_lines
from rules.fitting import House
from rules.inquiry.replay import Case as Replayed
from rules.inquiry.replay import Tally
from rules.inquiry.whatif import compared
from rules.lessons.case import Case, open_case

SAMPLE = Path(__file__).parents[2] / "sample_sessions" / "hates-hybrids.toml"


def said(lines: Iterable[str]) -> str:
    return " ".join(" ".join(lines).split())


def some(**parts: Any) -> Any:
    """A view that is nothing but what is named."""
    return cast(Any, SimpleNamespace(**parts))


@pytest.fixture
def case(house: House) -> Case:
    return open_case(house, "demo", load(SAMPLE, house.base.facts).subject, "")


def test_a_step_names_the_other_school_where_there_is_one() -> None:
    usual = {"at": 1, "count": 2, "decision": "pair", "text": "T.", "read": (), "bars": (), "teaches": ""}
    alone = said(step_lines(some(**usual, other="", leans="ours", rule="", source="")))
    both = said(step_lines(some(**usual, other="Not so.", leans="ours", rule="gap", source="A book")))
    assert "Not so." in both
    assert "A book" in both
    assert "ours" not in alone


def test_a_change_that_moves_nothing_says_so_and_one_that_moves_says_what_goes() -> None:
    usual: dict[str, Any] = {"question": "Tempo", "was": "open", "now": "slow", "pair": None}
    usual |= {"facts": (), "points": (), "gained": ()}
    none = said(change_lines(some(**usual, flipped=False, decisions=(), lost=())))
    shift = some(title="Length", before="42 in", after="41 in")
    moved = said(change_lines(some(**usual, flipped=False, decisions=(shift,), lost=("Rest.",))))
    assert "42 in" not in none
    assert "42 in" in moved
    assert "Rest." in moved
    assert len(none) != len(moved)


def test_a_map_and_a_class_with_nothing_in_them_say_so() -> None:
    read, unread = (
        some(title="Tempo", rules=2, decisions=("pair",)),
        some(title="Hand", rules=0, decisions=()),
    )
    chart = said(chart_lines_plain((read, unread)))
    assert "Tempo" in chart
    assert "Hand" in chart
    empty = said(fact_lines(some(title="Hand", text="Which.", follows=(), groups=())))
    reader = some(rule="gap", does="gives", through="speed")
    groups = (("pair", (reader,)),)
    full = said(fact_lines(some(title="Hand", text="Which.", follows=("speed",), groups=groups)))
    assert "gap" in full
    assert "gap" not in empty
    still = some(title="one", flips=False, moved="")
    flips = some(title="two", flips=True, moved="")
    parts = some(title="three", flips=False, moved="length")
    told = said(influence_lines(some(summary=("Sum.",), cases=(still, flips, parts))))
    assert "one" not in told
    assert "two" in told
    assert "three" in told
    new = said(progress_lines("Blue Cap", (), {}))
    whole = some(kind="", attempts=3, average=0.5, due=1, best=1.0, latest=0.25)
    gaps = some(kind="gap", attempts=3, average=0.5, due=0, best=1.0, latest=0.25)
    known = said(progress_lines("Blue Cap", (whole, gaps), {"gap": "Gaps"}))
    assert "Gaps" in known
    assert new != known
    guess = some(guesses=(("12", "", ""),), told=(), marks=None)
    assert said(flip_lines(guess)) == "12"
    assert said(flip_lines(some(guesses=(), told=("True.",), marks=3))).startswith("True.")


def test_an_edit_that_moves_nothing_says_so_in_lines_and_on_the_screen() -> None:
    row = ("Length", "42 in", "41 in")
    assert "42 in" in said(here_lines_plain((row,)))
    assert said(here_lines_plain(())) != ""
    assert "42 in" in said(effect_lines(Effect(2, 2, (row,))))
    assert "42 in" not in said(effect_lines(Effect(2, 2, ())))
    entry = some(text="A rule.", id="gap", about="pair", changed=True)
    field = some(path="points", about="gives", text="2", changed=True, fact="")
    off = said(edit_lines(some(entry=entry, off=True, fields=(field,))))
    assert "A rule." in off
    assert said(edit_lines(some(entry=None, off=False, fields=()))) == ""
    assert plain(entries_rows((), 60, FULL)).strip()
    assert "gap" in plain(entries_rows((entry,), 60, FULL))
    assert plain(fields_rows(EditView(), 60, FULL)) != plain(fields_rows(EditView(entry, (field,)), 60, FULL))
    assert "gap" in plain(edit_heading(EditView(entry), 60))
    moved, still = (EditView(entry, changes=1, golfer="Demo", here=here) for here in ((row,), ()))
    assert "42 in" in plain(effect_rows(moved, 60, FULL))
    assert "42 in" not in plain(effect_rows(still, 60, FULL))
    assert plain(effect_rows(still, 60, FULL)) != plain(effect_rows(EditView(entry), 60, FULL))


def test_what_an_edit_does_is_the_pair_or_its_parts(house: House, case: Case) -> None:
    outcome = case.outcome
    assert outcome.picked is not None
    nothing = house.with_shelf(replace(house.shelf, shafts=()))
    none = open_case(nothing, "demo", case.subject, "").outcome
    (line,) = here_lines(compared(outcome, none, ()), "imperial")
    assert line[1] != line[2]
    assert here_lines(compared(outcome, outcome, ()), "imperial") == ()
    length, alike = ("longer.length", 42_000, 41_000), ("shorter.length", 41_000, 41_000)
    both = tuple(some(decision=id, before=was, after=now) for id, was, now in (length, alike))
    parts = here_lines(replace(compared(outcome, outcome, ()), decisions=both), "imperial")
    assert [ends for _, *ends in parts] == [["42 in", "41 in"]]
    tally = Tally()
    tally.add(Replayed("demo", outcome.picked.id, None))
    tally.add(Replayed("other", "a", "b"))
    tally.add(Replayed("demo", "a", "a", {"longer.length": (1.0, 1.1), "shorter.length": (1.0, 1.1)}))
    found = effect_view(tally, {"demo": case}, "imperial").moved
    assert found is not None
    assert len(found) == 2, "a case that is not at hand is only counted"
    assert found[0][1] != found[0][2]
    assert found[1][2].lower().count("length") == 2
