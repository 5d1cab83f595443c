"""Tries a changed copy of the rules away from the keys: check, one golfer, all past cases; newest wins."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, cast

from textual.message import Message
from textual.worker import get_current_worker

from interview.views.trainer.edit import EditView, Effect
from interview.views.trainer.edited import effect_view, here_lines
from rules.inquiry.roads import Superseded
from rules.lessons.overlay import check, effect_everywhere, effect_here
from rules.problems import Problem

if TYPE_CHECKING:
    from textual.screen import Screen
    from textual.worker import Worker

    from interview.screens.trainer.desk import TeachingDesk
    from rules.fitting import House
    from rules.lessons.case import Case
    from rules.lessons.overlay import Overlay


class Found(Message):
    """Something was found out of a changed copy; what is None was not."""

    def __init__(
        self, number: int, *, problems: tuple[str, ...] | None = None,
        here: tuple[tuple[str, str, str], ...] | None = None, everywhere: Effect | None = None,
    ) -> None:  # fmt: skip
        super().__init__()
        self.number = number
        self.problems = problems
        self.here = here
        self.everywhere = everywhere

    def into(self, view: EditView) -> EditView:
        """Return a view with what was found filled in."""
        if self.problems is not None:
            view = replace(view, problems=self.problems)
        if self.here is not None:
            view = replace(view, here=self.here)
        return view if self.everywhere is None else replace(view, everywhere=self.everywhere)


class Trying:
    """Tries copies of the rules for a screen; of several only the newest is told of."""

    desk: TeachingDesk
    case: Case
    tried: int = 0
    """Number of the copy that was tried last."""

    def try_out(self, overlay: Overlay) -> None:
        """Find out what a copy does; whatever is tried already is overtaken."""
        self.tried += 1
        work = partial(self._try, self.tried, overlay, self.case)
        cast("Screen[Any]", self).run_worker(work, thread=True, exclusive=True, group="try")

    def _try(self, number: int, overlay: Overlay, case: Case) -> None:
        """Check a copy and try it; away from the keys."""
        worker = get_current_worker()
        with self.desk.one_at_a_time:
            try:
                self._steps(number, overlay, case, worker)
            except Superseded:
                return
            except Problem as problem:
                self._tell(worker, Found(number, problems=(f"{problem}.",)))

    def _steps(self, number: int, overlay: Overlay, case: Case, worker: Worker[None]) -> None:
        """Tell what is found step by step; raises Superseded when something newer is tried."""
        if overlay.empty:
            self._tell(worker, Found(number, problems=(), here=(), everywhere=Effect()))
            return
        checked = check(overlay)
        self._tell(worker, Found(number, problems=checked.problems))
        if checked.house is None:
            return
        found = effect_here(case, checked.house)
        self._tell(worker, Found(number, here=here_lines(found, self.desk.units)))
        self._everywhere(number, checked.house, worker)

    def _everywhere(self, number: int, house: House, worker: Worker[None]) -> None:
        """Replay all past cases, and tell how far that has got."""
        cases = self.desk.cases

        def tell(done: int, of: int) -> None:
            self._tell(worker, Found(number, everywhere=Effect(done, of)))

        tally = effect_everywhere(cases, house, tell)
        effect = effect_view(tally, {case.id: case for case in cases}, self.desk.units)
        self._tell(worker, Found(number, everywhere=effect))

    def _tell(self, worker: Worker[None], found: Found) -> None:
        """Tell what was found; raises Superseded when nobody wants to know any more."""
        if worker.is_cancelled:
            raise Superseded
        cast("Screen[Any]", self).post_message(found)
