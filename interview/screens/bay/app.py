"""The bay as an app."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.screens.kit.app import TurfApp

if TYPE_CHECKING:
    from interview.screens.bay.desk import Desk
    from interview.store import Store
    from interview.views.pictures import Glyphs


class BayApp(TurfApp):
    """The fitter's screen."""

    TITLE = "Turfpair bay"

    def __init__(self, desk: Desk, store: Store, *, glyphs: Glyphs | None = None, blink: bool = True) -> None:
        super().__init__(glyphs=glyphs, blink=blink)
        self.desk = desk
        self.store = store

    def on_mount(self) -> None:
        """Open the main screen."""
        from interview.screens.bay.screen import BayScreen

        self.push_screen(BayScreen(self.desk))

    def keep_all(self) -> None:
        """Keep what was heard last."""
        self.desk.keep_all()
