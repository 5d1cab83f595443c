"""The map of the rule base: facts, the rules they reach, what those decide, and how much a fact matters."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import Input
from textual.worker import get_current_worker

from interview.screens.kit.faces import heading
from interview.screens.kit.line import TypeLine
from interview.screens.kit.orders import bindings
from interview.screens.kit.pane import Pane
from interview.screens.trainer.orders import CHART, COMMON
from interview.screens.trainer.page import LessonScreen
from interview.views.trainer.chart import InfluenceView, chart_rows, fact_rows
from interview.views.trainer.charted import chart_lines, fact_view, influence_view, working_influence
from interview.views.trainer.said import said
from rules.inquiry.roads import Superseded
from rules.lessons.influence import influence
from rules.lessons.map import rule_map

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk


class Influenced(Message):
    """How much a fact matters was worked out, or how far that has got."""

    def __init__(self, fact: str, view: InfluenceView) -> None:
        super().__init__()
        self.fact = fact
        self.view = view


class ChartScreen(LessonScreen[None]):
    """Facts on the left, found by typing; on the right where the chosen one goes."""

    ORDERS = CHART
    HELP = "chart.help"
    AUTO_FOCUS = "#find"
    BINDINGS: ClassVar[list[BindingType]] = bindings((*CHART, *COMMON))

    def __init__(self, desk: TeachingDesk) -> None:
        super().__init__(desk)
        self._maps = rule_map(desk.house)
        self._influences: dict[str, InfluenceView] = {}

    def compose_left(self) -> ComposeResult:
        """Lay out the line to find a fact with, above the facts."""
        with Vertical(id="left"):
            yield TypeLine(said("chart.find"), id="find", blink=bool(getattr(self.app, "blink", True)))
            yield Pane(id="list")

    def show_all(self) -> None:
        """Show the facts, and where the chosen one goes."""
        typed = self.query_one("#find", TypeLine).value
        lines = chart_lines(self.desk.house, self._maps, typed)
        self.show("heading", heading(said("chart.heading")))
        self.show("list", lambda width, glyphs: chart_rows(lines, width, glyphs))
        self._show_fact()

    def _show_fact(self) -> None:
        """Show where the fact goes that the cursor is on."""
        fact = self.pane("list").chosen
        one = next((one for one in self._maps if one.fact == fact), None)
        if one is None:
            self.show("detail", lambda width, glyphs: ())
            return
        view = fact_view(self.desk.house, one, self.desk.units, self._influences.get(fact))
        self.show("detail", lambda width, glyphs: fact_rows(view, width, glyphs))

    @on(Input.Changed, "#find")
    def _typed(self, event: Input.Changed) -> None:
        """Narrow the list."""
        event.stop()
        self.show_all()

    @on(TypeLine.Left, "#find")
    def _down(self, event: TypeLine.Left) -> None:
        """Go into the list."""
        event.stop()
        if event.by > 0:
            self.pane("list").focus()

    @on(Pane.Left, "#list")
    def _up(self, event: Pane.Left) -> None:
        """Come back to the line."""
        event.stop()
        if event.by < 0:
            self.query_one("#find").focus()

    @on(Input.Submitted, "#find")
    @on(Pane.Chosen, "#list")
    def _chosen(self, event: Input.Submitted | Pane.Chosen) -> None:
        """Work out how much the fact matters."""
        event.stop()
        self.action_influence()

    @on(Pane.Chosen, "#detail")
    def _rule(self, event: Pane.Chosen) -> None:
        """Try the rule that was chosen."""
        event.stop()
        self.action_edit()

    @on(Pane.Moved, "#list")
    def _moved(self, event: Pane.Moved) -> None:
        """Follow the cursor."""
        event.stop()
        self._show_fact()
        self.pane("detail").scroll_to(y=0, animate=False)

    # How much it matters

    def action_influence(self) -> None:
        """Change the fact in every case, away from the keys; the newest wins."""
        fact = self.pane("list").chosen
        self.pane("detail").scroll_to(y=0, animate=False)
        if fact and fact not in self._influences:
            self.run_worker(partial(self._work, fact), thread=True, exclusive=True, group="influence")

    def _work(self, fact: str) -> None:
        """Change a fact in every case; away from the keys."""
        worker = get_current_worker()

        def tell(done: int, of: int) -> None:
            if worker.is_cancelled:
                raise Superseded
            self.post_message(Influenced(fact, working_influence(done, of)))

        try:
            with self.desk.one_at_a_time:
                found = influence(self.desk.cases, fact, tell)
        except Superseded:
            return
        self.post_message(Influenced(fact, influence_view(self.desk.house.base, found)))

    @on(Influenced)
    def _influenced(self, event: Influenced) -> None:
        """Show how much a fact matters, where it is still looked at; what is half done is not kept."""
        event.stop()
        before = {id: one for id, one in self._influences.items() if one.done == one.of and one.summary}
        self._influences = {**before, event.fact: event.view}
        if self.pane("list").chosen == event.fact:
            self._show_fact()
        if not event.view.summary:
            self._influences.pop(event.fact)

    def action_edit(self) -> None:
        """Try the rule that the cursor is on."""
        from interview.screens.trainer.edit import EditScreen

        rule = self.pane("detail").chosen
        if rule and self.desk.cases and self.pane("detail").has_focus:
            self.app.push_screen(EditScreen(self.desk, self.desk.cases[0], rule))
        else:
            self.tell(said("chart.choose_rule"), alert=True)

    def action_aside(self) -> None:
        """Go to the rules, or back to the facts."""
        if self.pane("detail").has_focus:
            self.remove_class("aside")
            self.pane("list").focus()
        else:
            self.add_class("aside")
            self.pane("detail").focus()
