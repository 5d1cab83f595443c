"""The trainer's screens as an app."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.screens.kit.app import TurfApp
from interview.screens.trainer.cases import CasesScreen

if TYPE_CHECKING:
    from interview.screens.trainer.desk import TeachingDesk
    from interview.views.pictures import Glyphs


class TrainerApp(TurfApp):
    """A class at its lesson: opens with the list of cases, every other screen lies on top of it."""

    TITLE = "Turfpair trainer"

    def __init__(self, desk: TeachingDesk, *, glyphs: Glyphs | None = None, blink: bool = True) -> None:
        super().__init__(glyphs=glyphs, blink=blink)
        self.desk = desk
        """What the lesson is about, and how far it has got."""

    def on_mount(self) -> None:
        """Show the cases."""
        self.push_screen(CasesScreen(self.desk))
