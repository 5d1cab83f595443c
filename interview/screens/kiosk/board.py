"""The one widget of the kiosk: shows a page in cells and tells which tile was pressed."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, get_args

from rich.segment import Segment
from textual import events
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from interview.screens.kit.signs import glyphs_of
from interview.views.kiosk import Page, Painted, painted
from interview.views.pictures import Role

if TYPE_CHECKING:
    from interview.views.pictures import Row

_ARROWS = {"up": (0, -1), "down": (0, 1), "left": (-1, 0), "right": (1, 0)}


class Board(ScrollView, can_focus=False):
    """Shows a page. It holds no focus and no text: keys come from the app, which lets few of them through."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {f"ink--{role}" for role in get_args(Role)}

    class Pressed(Message):
        """A tile was pressed with a finger or the mouse."""

        def __init__(self, press: str) -> None:
            super().__init__()
            self.press = press

    def __init__(self, page: Page, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.page = page
        """What is shown."""
        self.cursor = page.first
        """The tile that enter presses."""
        self._painted = Painted((), ())

    def show(self, page: Page, *, same: bool = False) -> None:
        """Show another page, from its top; `same` keeps cursor and place, where it is the same page again."""
        kept = self.cursor if same and any(tile.press == self.cursor for tile in page.pressable) else ""
        self.page = page
        self.cursor = kept or page.first
        self._repaint()
        if not same:
            self.scroll_to(0, 0, animate=False, force=True)
        self._look_at_cursor(gently=not same)

    def move(self, key: str) -> None:
        """Move the cursor with an arrow; where there is no tile that way, scroll."""
        across, down = _ARROWS[key]
        before = self.cursor
        self.cursor = self._painted.beside(before, across, down)
        if self.cursor == before:
            self.scroll_relative(y=2 * down, animate=False, force=True)
            return
        self._repaint()
        self._look_at_cursor()

    def turn(self, by: int) -> None:
        """Scroll by a page."""
        self.scroll_relative(y=by * max(1, self.size.height - 2), animate=False, force=True)

    def follow(self, by: int) -> None:
        """Move the cursor to the next tile or the one before, from the last to the first."""
        tiles = [tile.press for tile in self.page.pressable]
        if tiles:
            at = tiles.index(self.cursor) if self.cursor in tiles else 0
            self.cursor = tiles[(at + by) % len(tiles)]
            self._repaint()
            self._look_at_cursor()

    def text(self) -> str:
        """Return what is shown as plain text."""
        return "\n".join("".join(ink.text for ink in row.inks).rstrip() for row in self._painted.rows)

    def on_resize(self, event: events.Resize) -> None:
        """Paint again for another size."""
        self._repaint()
        self._look_at_cursor()

    def on_click(self, event: events.Click) -> None:
        """Tell which tile was pressed."""
        event.stop()
        press = self._painted.at(event.x + self.scroll_offset.x, event.y + self.scroll_offset.y)
        if press is not None:
            self.post_message(self.Pressed(press))

    def render_line(self, y: int) -> Strip:
        """Return one line of the screen."""
        at, width = y + self.scroll_offset.y, self.size.width
        plain = self.get_component_rich_style("ink--plain")
        if not 0 <= at < len(self._painted.rows):
            return Strip.blank(width, plain)
        return Strip(self._segments(self._painted.rows[at])).adjust_cell_length(width, plain)

    def _segments(self, row: Row) -> list[Segment]:
        return [Segment(ink.text, self.get_component_rich_style(f"ink--{ink.role}")) for ink in row.inks]

    def _repaint(self) -> None:
        """Paint the page for the size there is now."""
        width, height = self.size
        if not self.is_attached or width <= 0 or height <= 0:
            return
        glyphs = glyphs_of(self.app)
        self._painted = painted(self.page, self.cursor, width, height, glyphs)
        if len(self._painted.rows) > height:  # a scroll bar takes a column, which no word may stand in
            width = max(1, width - self.styles.scrollbar_size_vertical)
            self._painted = painted(self.page, self.cursor, width, height, glyphs)
        self.virtual_size = Size(width, len(self._painted.rows))
        self.refresh()

    def _look_at_cursor(self, *, gently: bool = False) -> None:
        """Scroll so that the tile under the cursor can be seen; a new page is read from its top."""
        spot = self._painted.spot(self.cursor)
        if spot is None or (gently and spot.y + spot.height > self.size.height):
            return
        self.scroll_to_region(Region(0, spot.y, 1, spot.height), animate=False, force=True)
