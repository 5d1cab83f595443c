"""What a newer wish of a trainee has overtaken is worked out for nobody."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from types import SimpleNamespace
from typing import Any

import pytest

from interview.screens.trainer import change, chart, exercise, flip
from interview.screens.trainer.desk import TeachingDesk
from rules.fitting import House
from rules.lessons.case import Case
from rules.lessons.exercises import KINDS

Begun = tuple[Any, Callable[[], object]]
"""A screen, and work that it does away from the keys."""


def _change(desk: TeachingDesk, case: Case) -> Begun:
    screen = change.ChangeScreen(desk, case)
    return screen, lambda: screen._work("handicap", None)


def _chart(desk: TeachingDesk, case: Case) -> Begun:
    screen = chart.ChartScreen(desk)
    return screen, lambda: screen._work("tempo")


def _guess(desk: TeachingDesk, case: Case) -> Begun:
    screen = flip.FlipScreen(desk, case, "handicap")
    return screen, lambda: screen._work("handicap", "none")


def _fact(desk: TeachingDesk, case: Case) -> Begun:
    screen = flip.FlipScreen(desk, case, "")
    return screen, lambda: screen._find(1)


def _exercise(desk: TeachingDesk, case: Case) -> Begun:
    screen = exercise.ExerciseScreen(desk)
    return screen, lambda: screen._make("", KINDS[0], 1)


@pytest.mark.parametrize(
    ("module", "begin"),
    [(change, _change), (chart, _chart), (flip, _guess), (flip, _fact), (exercise, _exercise)],
)
def test_what_was_overtaken_is_worked_out_for_nobody(
    module: Any, begin: Any, house: House, cases: tuple[Case, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    screen, work = begin(TeachingDesk.of(cases[:1], house, None), cases[0])
    for overtaken in (True, False):
        told: list[object] = []
        monkeypatch.setattr(screen, "post_message", told.append)
        monkeypatch.setattr(module, "get_current_worker", partial(SimpleNamespace, is_cancelled=overtaken))
        work()
        assert bool(told) != overtaken
