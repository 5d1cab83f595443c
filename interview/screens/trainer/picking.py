"""Lists that a prediction is made with: one candidate of a choice, or the few facts that drive it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType

from interview.screens.kit.lists import FindScreen
from interview.screens.kit.orders import Order, bindings
from interview.screens.kit.pane import Pane
from interview.views.trainer.predict import Pickable, narrowed, options_rows
from interview.views.trainer.said import said

if TYPE_CHECKING:
    from interview.screens.kit.pane import Painter
    from interview.views.pictures import Glyphs, Picture

FACTS = (
    Order("facts.toggle", "enter", "toggle", "name it", "Names the fact, or takes it back.", shown=True),
    Order("facts.done", "f5", "done", "that's it", "Goes back with the facts named.", shown=True),
    Order("find.leave", "escape", "leave", "as it was", "Goes back and changes nothing.", shown=True),
)
"""What can be done where facts are named."""
DONE = "done"
"""What the list of facts is left with when they are to be taken."""


def _painted(options: tuple[Pickable, ...], width: int, glyphs: Glyphs) -> Picture:
    """Paint a list to pick from."""
    return options_rows(options, width, glyphs)


class OptionsScreen(FindScreen):
    """The candidates of a choice; typing narrows them. Left with the one picked, or with an empty text."""

    def __init__(self, title: str, options: tuple[Pickable, ...]) -> None:
        super().__init__(title, lambda text: partial(_painted, narrowed(options, text)), said("predict.find"))


class FactsScreen(FindScreen):
    """The facts that may be named; enter names one. Left with `DONE`, or with an empty text."""

    BINDINGS: ClassVar[list[BindingType]] = bindings(FACTS[1:2])

    def __init__(self, title: str, facts: tuple[Pickable, ...], most: int) -> None:
        super().__init__(title, self._facts, said("predict.find"), orders=FACTS)
        self._all = facts
        self._most = most
        self._full = False
        self.named: list[str] = [one.id for one in facts if one.taken]
        """Ids of the facts named so far, in the order in which they were."""

    def _facts(self, text: str) -> Painter:
        """Return the painter of the facts that what is typed begins."""
        now = tuple(Pickable(one.id, one.name, one.about, one.id in self.named) for one in self._all)
        return partial(_painted, narrowed(now, text))

    def choose(self, target: str) -> None:
        """Name a fact, or take it back."""
        if target in self.named:
            self.named.remove(target)
        elif target and len(self.named) < self._most:
            self.named.append(target)
        elif target:
            self.notify(said("predict.enough_named", most=self._most), markup=False)
        self.query_one("#find").value = ""  # type: ignore[attr-defined]
        self.refresh_list()
        self.query_one("#list", Pane).chosen = target

    def action_done(self) -> None:
        """Leave with the facts named."""
        self.dismiss(DONE)
