"""Sheets made of an outcome, whoever asks for them: as text, or as one page."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Literal, NamedTuple

from rules.problems import Problem
from rules.whole_file import replace_content, sweep_abandoned

if TYPE_CHECKING:
    from interview.session import Session
    from interview.sheets.paper import Stamp
    from interview.views.build import BuildView
    from interview.views.outcome import OutcomeView
    from rules.fitting import Outcome
    from rules.units import System

Reader = Literal["golfer", "workshop"]
"""Whose sheet it is."""


class CannotPrint(Problem):
    """A page that the operating system would not let us write; what was there is untouched."""

    def __init__(self, file: Path, error: OSError) -> None:
        self.file = file
        reason = (error.strerror or "it cannot be written").lower()
        super().__init__(f"the sheet could not be written to {file}: {reason}; name another file or folder")


class Papers(NamedTuple):
    """What both sheets of an outcome are made from."""

    outcome: Outcome
    view: OutcomeView
    build: BuildView
    stamp: Stamp

    def text(self, reader: Reader, width: int = 0) -> str:
        """Return a sheet as text, set narrower where `width` (columns) is given."""
        if reader == "golfer":
            from interview.sheets.golfer import golfer_sheet
            from interview.sheets.golfer.text import text as golfer_text

            sheet_of_his = golfer_sheet(*self)
            return golfer_text(sheet_of_his, width) if width else golfer_text(sheet_of_his)
        from interview.sheets.workshop import workshop_sheet
        from interview.sheets.workshop.text import text as workshop_text

        sheet = workshop_sheet(self.build, self.view, self.stamp)
        return workshop_text(sheet, width) if width else workshop_text(sheet)

    def page(self, reader: Reader) -> str:
        """Return a sheet as one self-contained page; only this loads the template library."""
        from interview.sheets.html import golfer_page, workshop_page

        if reader == "golfer":
            from interview.sheets.golfer import golfer_sheet

            return golfer_page(golfer_sheet(*self))
        from interview.sheets.workshop import workshop_sheet

        sheet = workshop_sheet(self.build, self.view, self.stamp)
        return workshop_page(sheet, self.build, self.view.system)

    def write(self, reader: Reader, folder: Path) -> Path:
        """Write a sheet as a page into a folder, under its session's id; CannotPrint where that fails.

        A folder that has to be made, and the page, are their owner's alone: a golfer may be named on it.
        """
        file = folder / f"{self.stamp.session}-{reader}.html"
        try:
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        except OSError as error:
            raise CannotPrint(file, error) from None
        write_page(file, self.page(reader))
        return file


def papers(outcome: Outcome, session: Session, units: System | None = None) -> Papers:
    """Gather what the sheets of a session's outcome are made from, dated today."""
    from interview.sheets.paper import stamp
    from interview.views.build import build_view
    from interview.views.outcome import outcome_view

    view, build = outcome_view(outcome, units or session.units), build_view(outcome)
    marked = stamp(session.id, build.shop.name, view.hand, outcome.house.digest, date.today())
    return Papers(outcome, view, build, marked)


def write_page(file: Path, page: str) -> None:
    """Write a page whole or not at all, for its owner alone; CannotPrint where that is not allowed."""
    try:
        sweep_abandoned(file)
        replace_content(file, page.encode(), 0o600)
    except OSError as error:
        raise CannotPrint(file, error) from None
