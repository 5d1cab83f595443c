"""`turfpair sheet`: the golfer's or the workshop's sheet, as text or as one self-contained page."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from pathlib import Path

from interview.commands.common import house, opened
from interview.commands.errors import DONE
from interview.text import one_line
from rules.paths import typed_path

_PAGES = (".html", ".htm")


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
    file = typed_path(text)
    if file.suffix.lower() not in _PAGES:
        raise ArgumentTypeError("a name ending in .html is wanted, so that nothing else is written over")
    return file


def run(args: Namespace) -> int:
    """Run the road for the session, on what other sessions leave on the shelf, and write its sheet."""
    from interview.commands.papers import papers, write_page

    session, outcome = opened(args, house(args), args.session)
    made = papers(outcome, session, args.units)
    if args.html is None:
        print(made.text(args.reader), end="")
        return DONE
    write_page(args.html, made.page(args.reader))
    print(f"Wrote {one_line(str(args.html), 300)}: one page, A4 or Letter.")
    return DONE
