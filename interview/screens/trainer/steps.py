"""The walk through the trace: one rule at a time, forward and back, with the running ledgers above it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType
from textual.reactive import reactive

from interview.screens.kit.orders import bindings
from interview.screens.trainer.orders import COMMON, STEPS
from interview.screens.trainer.page import LessonScreen
from interview.views.trainer.said import said
from interview.views.trainer.steps import bars_rows, step_heading, step_rows
from interview.views.trainer.walked import step_view
from rules.lessons.steps import whole_walk

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk
    from rules.lessons.case import Case


class StepsScreen(LessonScreen[None]):
    """Shows one step of the walk; arrows go on and back."""

    ORDERS = STEPS
    HELP = "steps.help"
    AUTO_FOCUS = "#detail"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*STEPS, *COMMON), priority=True)

    at: reactive[int] = reactive(0, init=False)
    """Which step is shown, from 0, over all decisions."""

    def __init__(self, desk: TeachingDesk, case: Case, decision: str) -> None:
        super().__init__(desk)
        self.case = case
        self.walk = whole_walk(case, desk.units)
        self.decisions = tuple(dict.fromkeys(step.decision for step in self.walk.steps))
        """Decisions that there is something to walk through, in order."""
        if decision in self.decisions:
            self.walk = self.walk.to(self._first(decision))
        self.set_reactive(StepsScreen.at, self.walk.at)

    def _first(self, decision: str) -> int:
        """Return the place of the first step of a decision."""
        return next(at for at, step in enumerate(self.walk.steps) if step.decision == decision)

    def show_all(self) -> None:
        """Show the step."""
        view = step_view(self.case, self.walk, self.desk.units)
        self.show("heading", lambda width, glyphs: step_heading(view, width, glyphs))
        self.show("list", lambda width, glyphs: bars_rows(view, width, glyphs))
        self.show("detail", lambda width, glyphs: step_rows(view, width, glyphs))
        self.pane("list").refresh(layout=True)
        self.pane("detail").scroll_to(y=0, animate=False)
        place = self.decisions.index(self.walk.step.decision) + 1
        self.tell(said("steps.which", at=place, of=len(self.decisions)))

    def watch_at(self) -> None:
        """Show another step."""
        self.walk = self.walk.to(self.at)
        self.show_all()

    def action_step(self, by: int) -> None:
        """Go so many steps on."""
        self.at = self.walk.to(self.at + by).at

    def action_end(self, last: int) -> None:
        """Go to the first step, or to the last."""
        self.at = len(self.walk.steps) - 1 if last else 0

    def action_decision(self, by: int) -> None:
        """Go to the first step of the next decision, or of the one before."""
        here = self.decisions.index(self.walk.step.decision)
        self.at = self._first(self.decisions[max(0, min(len(self.decisions) - 1, here + by))])

    def action_edit(self) -> None:
        """Try the rule of this step changed."""
        from interview.screens.trainer.edit import EditScreen

        rule = self.walk.step.rule
        if rule is None:
            self.tell(said("steps.no_rule"), alert=True)
        else:
            self.app.push_screen(EditScreen(self.desk, self.case, rule.id))
