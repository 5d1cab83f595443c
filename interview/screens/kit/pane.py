"""A pane: shows a picture, follows its width, and lets a row be chosen with arrows, enter or a click."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar, get_args

from rich.segment import Segment
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from interview.screens.kit.signs import glyphs_of
from interview.views.pictures import Glyphs, Picture, Role, Row, seven_bit
from interview.views.pictures.ink import target_at, targets

Painter = Callable[[int, Glyphs], Picture]
"""Paints a picture for so many cells of width, in a set of signs."""


def nothing(width: int, glyphs: Glyphs) -> Picture:
    """Paint nothing."""
    return ()


class Pane(ScrollView, can_focus=True):
    """Shows one picture. Rows that have a target can be chosen; what that means is for others to say."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "Up", show=False, id="pane.up"),
        Binding("down", "move(1)", "Down", show=False, id="pane.down"),
        Binding("pageup", "move(-8)", "Up a page", show=False, id="pane.page_up"),
        Binding("pagedown", "move(8)", "Down a page", show=False, id="pane.page_down"),
        Binding("home", "move(-9999)", "First", show=False, id="pane.first"),
        Binding("end", "move(9999)", "Last", show=False, id="pane.last"),
        Binding("enter", "choose", "Choose", show=False, id="pane.choose"),
    ]
    COMPONENT_CLASSES: ClassVar[set[str]] = {f"ink--{role}" for role in get_args(Role)} | {"ink--cursor"}

    chosen: reactive[str] = reactive("", init=False)
    """Target of the row that the cursor is on; empty where no row can be chosen."""

    class _OfPane(Message):
        """Something that happened to a pane."""

        def __init__(self, pane: Pane) -> None:
            super().__init__()
            self.pane = pane

        @property
        def control(self) -> Pane:
            """Return the pane."""
            return self.pane

    class Chosen(_OfPane):
        """A row was chosen."""

        def __init__(self, pane: Pane, target: str) -> None:
            super().__init__(pane)
            self.target = target

    class Moved(_OfPane):
        """The cursor came to another row."""

        def __init__(self, pane: Pane, target: str) -> None:
            super().__init__(pane)
            self.target = target

    class Left(_OfPane):
        """The cursor was moved beyond the first row (-1) or the last one (1)."""

        def __init__(self, pane: Pane, by: int) -> None:
            super().__init__(pane)
            self.by = by

    def __init__(
        self, painter: Painter = nothing, *, id: str | None = None, classes: str | None = None,
        at_end: bool = False, focusable: bool = True,
    ) -> None:  # fmt: skip
        super().__init__(id=id, classes=classes)
        self.can_focus = focusable
        self._painter = painter
        self._rows: Picture = ()
        self._painted_for = (-1, -1)
        self._at_end = at_end

    def show(self, painter: Painter) -> None:
        """Show another picture."""
        self._painter = painter
        self._painted_for = (-1, -1)
        self._repaint()
        if self.has_class("-fitting"):
            self.refresh(layout=True)

    def _paint(self, width: int) -> Picture:
        """Return the picture for a width, less the cell that the cursor stands in."""
        return self._painter(max(0, width - self._gutter), glyphs_of(self.app))

    @property
    def _gutter(self) -> int:
        """Return the cells kept free for the cursor."""
        return 2 if self.can_focus and not self.has_class("-flush") else 0

    def _repaint(self) -> None:
        """Paint for the width there is now, keep the cursor where it was, and look at the end if wanted."""
        width, height = self.content_size
        if width <= 0 or not self.is_attached:
            return
        self._painted_for = (width, height)
        self._rows = self._paint(width)
        if len(self._rows) > height and not self.has_class("-fitting"):
            width = max(1, width - self.styles.scrollbar_size_vertical)
            self._rows = self._paint(width)
        if self._at_end:
            self._rows = (Row(),) * (height - len(self._rows)) + self._rows
        self.virtual_size = Size(width, len(self._rows))
        found = [target for _, target in targets(self._rows)]
        latest = self._at_end and not self.has_focus  # whoever comes into it begins at its end
        if latest or self.chosen not in found:
            self.chosen = (found[-1] if self._at_end else found[0]) if found else ""
        if self._at_end and not self.has_focus:
            self.scroll_to(y=len(self._rows), animate=False)
        self.refresh()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Return as many rows as the picture has at a width."""
        return len(self._paint(width)) if width > 0 else 0

    def on_resize(self, event: events.Resize) -> None:
        """Paint again for another size: a lower pane may need room for its scroll bar."""
        if self._at_end or tuple(self.content_size) != self._painted_for:
            self._repaint()

    def on_focus(self) -> None:
        """Show the cursor."""
        self._look_at_cursor()
        self.refresh()

    def on_blur(self) -> None:
        """Take the cursor away."""
        if self._at_end:
            self._repaint()
        self.refresh()

    def watch_chosen(self) -> None:
        """Follow the cursor."""
        if self.has_focus:
            self._look_at_cursor()
        self.refresh()
        self.post_message(self.Moved(self, self.chosen))

    def _look_at_cursor(self) -> None:
        """Scroll so that the row of the cursor can be seen."""
        for at, one in enumerate(self._rows):
            if one.target and one.target == self.chosen:
                self.scroll_to_region(Region(0, at, 1, 1), animate=False, force=True)
                return

    def action_move(self, by: int) -> None:
        """Move the cursor by so many rows that can be chosen, or scroll where none can."""
        found = [target for _, target in targets(self._rows)]
        if not found:
            self.scroll_to(
                y=self.scroll_offset.y + max(-len(self._rows), min(by, len(self._rows))), animate=False
            )
            return
        now = found.index(self.chosen) if self.chosen in found else 0
        if (now + by < 0 and by == -1) or (now + by >= len(found) and by == 1):
            self.post_message(self.Left(self, by))
        self.chosen = found[max(0, min(len(found) - 1, now + by))]

    def action_choose(self) -> None:
        """Choose the row of the cursor."""
        if self.chosen:
            self.post_message(self.Chosen(self, self.chosen))

    def on_click(self, event: events.Click) -> None:
        """Choose what was clicked: a row, or a piece of one; the second click of two belongs to the first."""
        at = event.y + self.scroll_offset.y
        if not 0 <= at < len(self._rows):
            return
        target = target_at(self._rows[at], event.x - self._gutter)
        if target == self._rows[at].target:
            self.chosen = target
        elif event.chain > 1:  # where it was clicked there may be another question by now
            return
        if target:
            self.post_message(self.Chosen(self, target))

    def render_line(self, y: int) -> Strip:
        """Return one line of the screen."""
        at, width = y + self.scroll_offset.y, self.size.width
        plain = self.get_component_rich_style("ink--plain")
        if not 0 <= at < len(self._rows):
            return Strip.blank(width, plain)
        segments = self._segments(
            self._rows[at], first=not at or self._rows[at - 1].target != self._rows[at].target
        )
        return Strip(segments).adjust_cell_length(width, plain)

    def _segments(self, one: Row, *, first: bool) -> list[Segment]:
        """Return a row as styled text, with the cursor before the first row of what it stands on."""
        signs = glyphs_of(self.app)
        here = self.has_focus and bool(one.target) and one.target == self.chosen
        style = self.get_component_rich_style
        made = []
        if self._gutter:
            mark = (f"{signs.cursor} ", "ink--cursor") if here and first else ("  ", "ink--plain")
            made.append(Segment(mark[0], style(mark[1])))
        for text, role, _ in one.inks:
            shown = text if signs.fine else seven_bit(text)
            made.append(Segment(shown, style(f"ink--{'strong' if here and role == 'dim' else role}")))
        return made
