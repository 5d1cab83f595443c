"""What every screen of the trainer is made of: a heading, two panes, a line to tell something, the keys."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, TypeVar

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.screen import Screen

from interview.screens.kit.faces import order_list, sentence
from interview.screens.kit.keybar import KeyBar
from interview.screens.kit.lists import FindScreen, ListScreen
from interview.screens.kit.orders import found
from interview.screens.kit.pane import Pane
from interview.screens.trainer.orders import COMMON
from interview.views.pictures.ink import Row, wrapped
from interview.views.trainer.said import said

if TYPE_CHECKING:
    from collections.abc import Sequence

    from interview.screens.kit.orders import Order
    from interview.screens.kit.pane import Painter
    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.pictures import Glyphs, Picture

Left = TypeVar("Left")
"""What a screen is left with."""


class LessonScreen(Screen[Left]):
    """Two panes beside each other: `#list` to choose from, `#detail` to read. Subclasses fill them."""

    CSS_PATH = Path(__file__).with_name("trainer.tcss")
    ORDERS: ClassVar[tuple[Order, ...]] = ()
    """What can be done here, besides what every screen has."""
    HELP: ClassVar[str] = ""
    """Key of the sentences that the help begins with."""
    AUTO_FOCUS = "#list"

    def __init__(self, desk: TeachingDesk) -> None:
        super().__init__()
        self.desk = desk

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Pane(id="heading", classes="-fitting", focusable=False)
        with Horizontal(id="middle"):
            yield from self.compose_left()
            yield Pane(id="detail")
        yield from self.compose_below()
        yield Pane(id="told", classes="-fitting", focusable=False)
        yield KeyBar(self.ORDERS, id="keys")

    def compose_left(self) -> ComposeResult:
        """Lay the left side out."""
        with Vertical(id="left"):
            yield Pane(id="list")

    def compose_below(self) -> ComposeResult:
        """Lay out what stands below the panes; nothing, unless a screen has a line to type on."""
        yield from ()

    def on_mount(self) -> None:
        """Show everything."""
        self.show_all()

    def show_all(self) -> None:
        """Show everything anew; screens fill their panes here."""

    def pane(self, name: str) -> Pane:
        """Return one of the panes by its id."""
        return self.query_one(f"#{name}", Pane)

    def show(self, name: str, painter: Painter) -> None:
        """Show a picture in a pane, from its top where it is another."""
        self.pane(name).show(painter)

    def tell(self, text: str, *, alert: bool = False) -> None:
        """Tell something in the line above the keys."""
        self.show("told", sentence(text, "alert" if alert else "dim"))

    def tell_problem(self, problem: Exception | str) -> None:
        """Tell why something could not be done, as a sentence of its own."""
        text = str(problem).rstrip(".")
        self.tell(f"{text[:1].upper()}{text[1:]}.", alert=True)

    # What every screen can do

    def action_help(self) -> None:
        """Show every key and what it does."""
        self.app.push_screen(
            ListScreen(said("help.heading"), help_page(self.HELP, self.all_orders()), leave=("f1",))
        )

    def action_orders(self) -> None:
        """List everything that can be done here."""
        orders = self.all_orders()
        screen = FindScreen(
            said("orders.heading"), lambda text: order_list(found(orders, text)), said("orders.hint")
        )
        self.app.push_screen(screen, self._ordered)

    async def _ordered(self, id: str | None) -> None:
        """Do what was chosen from the list."""
        order = next((one for one in self.all_orders() if one.id == id), None)
        if order is not None:
            await self.app.run_action(order.action, self)

    @classmethod
    def all_orders(cls) -> tuple[Order, ...]:
        """Return everything that can be done here."""
        return (*cls.ORDERS, *COMMON)

    def action_aside(self) -> None:
        """Go to the other pane; where there is room for one only, it is that one that is seen."""
        self.toggle_class("aside")
        (self.pane("detail") if self.pane("list").has_focus else self.pane("list")).focus()

    def action_leave(self) -> None:
        """Go back; where the other pane was gone to, first to this one."""
        if self.has_class("aside"):
            self.action_aside()
        else:
            self.dismiss(None)


def help_page(about: str, orders: Sequence[Order]) -> Painter:
    """Return the painter of a screen's help: what it is for, then every key."""

    def paint(width: int, glyphs: Glyphs) -> Picture:
        keys = tuple(Row(one.inks) for one in order_list(orders)(width, glyphs))
        if not about:
            return keys
        return (*wrapped(said(about), width), Row(), *keys)

    return paint
