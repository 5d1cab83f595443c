"""`turfpair sheet`: the golfer's or the workshop's sheet, as text or as one self-contained page."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from interview.commands.common import house, store
from interview.commands.errors import DONE
from rules.problems import Problem

if TYPE_CHECKING:
    from interview.sheets.paper import Stamp
    from interview.views.build import BuildView
    from interview.views.outcome import OutcomeView
    from rules.fitting import Outcome

_PAGES = (".html", ".htm")


class CannotPrint(Problem):
    """A page that the operating system would not let us write; what was there is untouched."""

    def __init__(self, file: Path, error: OSError) -> None:
        self.file = file
        reason = (error.strerror or "it cannot be written").lower()
        super().__init__(f"the sheet could not be written to {file}: {reason}; name another file or folder")


def configure(parser: ArgumentParser) -> None:
    """Add what `sheet` takes."""
    parser.add_argument("session", metavar="SESSION", help="a path ending in .toml, an id or a ticket code")
    parser.add_argument(
        "--for", dest="reader", choices=("golfer", "workshop"), required=True, help="whose sheet it is"
    )
    parser.add_argument(
        "--html", metavar="FILE", type=page_file, help="write one page to FILE instead of printing text"
    )


def page_file(text: str) -> Path:
    """Read the name of a page; ArgumentTypeError when it could be taken for something else."""
    file = Path(text).expanduser()
    if file.suffix.lower() not in _PAGES:
        raise ArgumentTypeError("a name ending in .html is wanted, so that nothing else is written over")
    return file


def run(args: Namespace) -> int:
    """Run the road for the session, on what other sessions leave on the shelf, and write its sheet."""
    from interview.session import load
    from interview.sheets.paper import stamp
    from interview.views.build import build_view
    from interview.views.outcome import outcome_view
    from rules.fitting import fit

    home = house(args)
    session = load(store(args).locate(args.session), home.base.facts)
    outcome = fit(home.for_session(session.id), session.subject)
    view = outcome_view(outcome, args.units or session.units)
    build = build_view(outcome)
    marked = stamp(session.id, build.shop.name, view.hand, outcome.house.digest, date.today())
    if args.html is None:
        print(_text(args.reader, outcome, view, build, marked), end="")
        return DONE
    _write(args.html, _page(args.reader, outcome, view, build, marked))
    print(f"Wrote {args.html}: one page, A4 or Letter.")
    return DONE


def _text(reader: str, outcome: Outcome, view: OutcomeView, build: BuildView, marked: Stamp) -> str:
    """Return a sheet as text."""
    if reader == "golfer":
        from interview.sheets.golfer import golfer_sheet
        from interview.sheets.golfer.text import text as golfer_text

        return golfer_text(golfer_sheet(outcome, view, build, marked))
    from interview.sheets.workshop import workshop_sheet
    from interview.sheets.workshop.text import text as workshop_text

    return workshop_text(workshop_sheet(build, view, marked))


def _page(reader: str, outcome: Outcome, view: OutcomeView, build: BuildView, marked: Stamp) -> str:
    """Return a sheet as a page; only this loads the template library."""
    from interview.sheets.html import golfer_page, workshop_page

    if reader == "golfer":
        from interview.sheets.golfer import golfer_sheet

        return golfer_page(golfer_sheet(outcome, view, build, marked))
    from interview.sheets.workshop import workshop_sheet

    return workshop_page(workshop_sheet(build, view, marked), build, view.system)


def _write(file: Path, page: str) -> None:
    """Write a page whole or not at all."""
    from rules.whole_file import replace_content

    try:
        replace_content(file, page.encode(), 0o644)
    except OSError as error:
        raise CannotPrint(file, error) from None
