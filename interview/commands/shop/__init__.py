"""`turfpair shop`: a shop's own catalogue, begun and looked over; parts booked, given back and ordered."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path

from interview.commands.shop import bookings, catalogue, learning

_JOBS = {
    "init": catalogue.init,
    "check": catalogue.check,
    "book": bookings.book,
    "release": bookings.release,
    "orders": bookings.orders,
    "learn": learning.learn,
}


def configure(parser: ArgumentParser) -> None:
    """Add what may be done with a shop."""
    jobs = parser.add_subparsers(dest="job", required=True, metavar="|".join(_JOBS))
    init = jobs.add_parser("init", help="copies the demo shop to a folder of your own")
    init.add_argument("folder", metavar="FOLDER", type=Path)
    check = jobs.add_parser("check", help="reads a catalogue and looks it over")
    check.add_argument("folder", metavar="FOLDER", type=Path, nargs="?")
    book = jobs.add_parser("book", help="books the parts of a session's two clubs, all of them or none")
    book.add_argument("session", metavar="SESSION", help="a path ending in .toml, an id or a ticket code")
    release = jobs.add_parser("release", help="gives back what a session had booked")
    release.add_argument("session", metavar="SESSION", help="as for book, or its name in the bookings")
    orders = jobs.add_parser("orders", help="lists what has run out, or nearly")
    orders.add_argument(
        "--at-most", metavar="N", type=int, default=0, help="list parts of which so many are left (0)"
    )
    learn = jobs.add_parser("learn", help="teaches the shop's calibration from finished clubs that were read")
    learn.add_argument("sessions_read", metavar="SESSION", nargs="+", help="sessions with [readings]")
    learn.add_argument("--keep", action="store_true", help="write what was learned into the shop's shop.toml")


def run(args: Namespace) -> int:
    """Do what was asked; 0 when it is done, 1 when the answer to a check is no."""
    return _JOBS[args.job](args)
