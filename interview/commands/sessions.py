"""`turfpair sessions`: what is kept, found again, and forgotten."""

from __future__ import annotations

import re
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from interview.commands.common import store
from interview.commands.errors import DONE, NO
from interview.text import counted, one_line

if TYPE_CHECKING:
    from interview.store import Entry

_SPANS = {"h": 1 / 24, "d": 1.0, "w": 7.0}
"""Days in each span that an age may be given in."""
_LONGEST_DAYS = 36500.0


def configure(parser: ArgumentParser) -> None:
    """Add list, find, forget and purge."""
    jobs = parser.add_subparsers(dest="job", metavar="list|find|forget|purge", required=True)
    jobs.add_parser("list", help="every session, last changed first")
    find = jobs.add_parser("find", help="the sessions that hold every word of a text, or have this ticket")
    find.add_argument("text", metavar="TEXT", nargs="+")
    forget = jobs.add_parser("forget", help="deletes a session for good")
    forget.add_argument("session", metavar="ID", help="its id or the code on its ticket")
    purge = jobs.add_parser("purge", help="deletes what has not changed for so long, and lapsed tickets")
    purge.add_argument(
        "--older-than", metavar="90d", type=age, required=True, help="an age in hours, days or weeks"
    )
    purge.add_argument("--dry-run", action="store_true", help="only tells what would be deleted")


def age(text: str) -> timedelta:
    """Read an age such as `90d`, `12h` or `4w`; ArgumentTypeError says what is wanted."""
    match = re.fullmatch(r"\s*(\d{1,6}(?:\.\d{1,3})?)\s*([hdw])[a-z]*\s*", text.lower())
    days = float(match.group(1)) * _SPANS[match.group(2)] if match else _LONGEST_DAYS + 1
    if days > _LONGEST_DAYS:
        raise ArgumentTypeError("an age is wanted, such as 90d, 12h or 4w")
    return timedelta(days=days)


def run(args: Namespace) -> int:
    """Do one of the four jobs; the status is 1 when nothing was found."""
    return {"list": _list, "find": _find, "forget": _forget, "purge": _purge}[args.job](args)


def _list(args: Namespace) -> int:
    kept = store(args)
    entries = kept.entries()
    if not entries:
        print(f"No sessions are kept in {one_line(str(kept.folder), 300)}.")
    _print(entries)
    return DONE


def _find(args: Namespace) -> int:
    entries = store(args).find(" ".join(args.text))
    if not entries:
        print("No session holds that.")
    _print(entries)
    return DONE if entries else NO


def _forget(args: Namespace) -> int:
    """Delete one session, named by id or by ticket; a path is refused, since only the store forgets."""
    kept = store(args)
    id = kept.named(args.session)
    pages = len(kept.pages(id))
    kept.forget(id)
    print(f"Session '{id}' is forgotten{_with_pages(pages)}.")
    return DONE


def _purge(args: Namespace) -> int:
    """Delete old sessions, or tell which they would be."""
    from interview.store import local_day

    kept, now = store(args), datetime.now(UTC)
    before, today = now - args.older_than, local_day(now)
    gone = kept.old(before, today)
    pages = sum(len(kept.pages(entry.id)) for entry in gone)
    if not args.dry_run:
        gone = kept.purge(before, today)
    _print(gone)
    would = "would be " if args.dry_run else ""
    print(f"{counted(len(gone), 'session')} {would}forgotten{_with_pages(pages)}.")
    return DONE


def _with_pages(pages: int) -> str:
    """Say which pages go with a session; those that were written into other folders are not known here."""
    return f", with {counted(pages, 'written sheet')}" if pages else ""


def _print(entries: Iterable[Entry]) -> None:
    """Print one session a line: id, ticket, when it last changed, for whom, and what its note begins with."""
    from interview.session import ticket_code

    for entry in entries:
        when = f"{entry.changed.astimezone():%Y-%m-%d %H:%M}"
        about = entry.problem or f"{entry.voice}, {entry.answers} answered"
        note = f"  {one_line(entry.note, 48)}" if entry.note else ""
        print(f"{entry.id}  {ticket_code(entry.id)}  {when}  {about}{note}")
