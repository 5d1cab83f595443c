"""A case in plain view, and what a trainee predicts of it: each decision, and the facts that drive it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import BindingType

from interview.screens.kit.faces import capital
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.kit.prompt import PromptScreen
from interview.screens.trainer.orders import COMMON, PREDICT
from interview.screens.trainer.page import LessonScreen
from interview.screens.trainer.picking import DONE, FactsScreen, OptionsScreen
from interview.views.pictures.ink import Ink, between
from interview.views.trainer.answers import case_sheet, sheet_rows
from interview.views.trainer.names import decision_title, picked_name
from interview.views.trainer.predict import predict_rows
from interview.views.trainer.predicted import amount_hint, facts_of, options_of, predict_view
from interview.views.trainer.said import said
from rules.lessons.predict import MOST_REASONS, Prediction, asked, predicted
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.pictures import Glyphs, Picture
    from rules.lessons.case import Case


class PredictScreen(LessonScreen[None]):
    """Takes predictions. It shows nothing that follows from the answers."""

    ORDERS = PREDICT
    HELP = "predict.help"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*PREDICT, *COMMON))

    def __init__(self, desk: TeachingDesk, case: Case, decision: str = "") -> None:
        super().__init__(desk)
        self.case = case
        self._first = decision
        self._sheet = case_sheet(case, desk.units)

    def on_mount(self) -> None:
        """Show everything, with the cursor on the decision that was asked for."""
        self.show_all()
        if self._first:
            self.pane("list").chosen = self._first

    def show_all(self) -> None:
        """Show what is predicted, beside what was said."""
        view = predict_view(self.case, self.desk.of_case(self.case), self.desk.units)

        def top(width: int, glyphs: Glyphs) -> Picture:
            count = said("predict.count", done=view.done, of=len(view.lines))
            left = (Ink(f" {said('predict.heading')}: ", "head"), Ink(view.title, "strong"))
            return (between(left, (Ink(f"{count} ", "dim"),), width),)

        self.show("heading", top)
        self.show("list", lambda width, glyphs: predict_rows(view, width, glyphs))
        self.show("detail", lambda width, glyphs: sheet_rows(self._sheet, width))

    @property
    def chosen(self) -> str:
        """Return the decision that the cursor is on."""
        return self.pane("list").chosen

    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Pane.Chosen) -> None:
        """Predict the decision that was chosen."""
        event.stop()
        self.action_pick()

    # What is predicted

    def action_pick(self) -> None:
        """Pick from the candidates, or type an amount; then name the facts."""
        decision = self.chosen
        if not decision:
            return
        one, units = self.desk.of_case(self.case).get(decision), self.desk.units
        title = capital(decision_title(self.case.base, decision))
        if asked(self.case, decision).kind == "amount":
            text = picked_name(self.case, decision, one.value, units) if one else ""
            hint = amount_hint(self.case, decision, units)
            screen = PromptScreen(title, hint, text, partial(self._reading, decision))
            self.app.push_screen(screen, partial(self._typed, decision))
        else:
            options = options_of(self.case, decision, one, units)
            self.app.push_screen(OptionsScreen(title, options), partial(self._picked, decision))

    def _reading(self, decision: str, text: str) -> tuple[str, bool]:
        """Return how a typed amount is understood, and whether it can be taken."""
        if not text.strip():
            return "", False
        try:
            one = predicted(self.case, decision, text)
        except Problem as problem:
            return f"{problem}.", False
        return picked_name(self.case, decision, one.value, self.desk.units), True

    def _typed(self, decision: str, text: str | None) -> None:
        """Take a typed amount."""
        if text:
            self._take(decision, predicted(self.case, decision, text).value)

    def _picked(self, decision: str, id: str | None) -> None:
        """Take a candidate."""
        if id:
            self._take(decision, id)

    def _take(self, decision: str, value: str | int) -> None:
        """Take a value, and go on to its reasons where none are named yet."""
        before = self.desk.of_case(self.case).get(decision)
        reasons = before.reasons if before else ()
        self.desk.of_case(self.case)[decision] = Prediction(decision, value, reasons)
        self.show_all()
        if not reasons:
            self._ask_reasons(decision)

    def action_reasons(self) -> None:
        """Name the facts that should drive the decision that the cursor is on."""
        if self.chosen in self.desk.of_case(self.case):
            self._ask_reasons(self.chosen)
        else:
            self.tell(said("predict.pick_first"), alert=True)

    def _ask_reasons(self, decision: str) -> None:
        """Ask for the facts that drive a decision."""
        named = self.desk.of_case(self.case)[decision].reasons
        facts = facts_of(self.case, decision, named, self.desk.units)
        title = said("predict.reasons", title=decision_title(self.case.base, decision))
        screen = FactsScreen(title, facts, MOST_REASONS)
        self.app.push_screen(screen, partial(self._named, decision, screen))

    def _named(self, decision: str, screen: FactsScreen, left: str | None) -> None:
        """Take the facts that were named."""
        if left == DONE:
            value = self.desk.of_case(self.case)[decision].value
            self.desk.of_case(self.case)[decision] = Prediction(decision, value, tuple(screen.named))
            self.show_all()

    def action_unpick(self) -> None:
        """Take back what is predicted of the decision that the cursor is on."""
        if self.desk.of_case(self.case).pop(self.chosen, None) is not None:
            self.show_all()

    def action_reveal(self) -> None:
        """Mark what is predicted, and show it."""
        from interview.screens.trainer.reveal import RevealScreen

        if not self.desk.of_case(self.case):
            self.tell(said("predict.nothing_yet"), alert=True)
            return
        self.app.push_screen(RevealScreen(self.desk, self.case, self.desk.marked(self.case)))

    def on_screen_resume(self) -> None:
        """Show how it stands now."""
        if self.is_mounted:
            self.show_all()
