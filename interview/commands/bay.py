"""`turfpair bay`: the fitter's screen."""

from __future__ import annotations

import os
import sys
from argparse import ArgumentParser, Namespace
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from interview.commands.common import house, store
from interview.commands.errors import DONE, UsageProblem

if TYPE_CHECKING:
    from interview.store import Draft, Store
    from rules.fitting import House


def configure(parser: ArgumentParser) -> None:
    """Add what `bay` takes."""
    parser.add_argument(
        "session", nargs="?", metavar="SESSION", help="a path, an id or a ticket code; none begins one"
    )
    parser.add_argument(
        "--in-place", action="store_true", help="change a file outside the store itself, not a copy"
    )


def run(args: Namespace) -> int:
    """Open the screen and return its exit status."""
    _needs_terminal()
    if args.no_color:
        os.environ["NO_COLOR"] = "1"
    from interview.conversation import Conversation
    from interview.screens.bay.app import BayApp
    from interview.screens.bay.desk import sit_down

    home, kept = house(args), store(args)
    draft = _draft(args, kept, home)
    if args.units:
        draft.session = replace(draft.session, units=args.units)
    app = BayApp(sit_down(Conversation.of(home), draft), kept)
    status = app.run()
    if app.fault is not None:
        raise app.fault
    return DONE if status is None else status


def _needs_terminal() -> None:
    """Refuse to start where no screen can be drawn or no key be read."""
    if not (sys.stdin and sys.stdin.isatty() and sys.__stderr__ and sys.__stderr__.isatty()):
        raise UsageProblem("bay: this needs a terminal; 'turfpair ask' holds the same interview line by line")
    if os.environ.get("TERM", "dumb") in ("dumb", "unknown", ""):
        raise UsageProblem(
            "bay: this terminal cannot draw a screen; 'turfpair ask' holds the same interview line by line"
        )


def _draft(args: Namespace, kept: Store, home: House) -> Draft:
    """Open the session that was named, or begin one."""
    from interview.session import begin, new_id

    if args.session is not None:
        return kept.open(args.session, home.base.facts, in_place=args.in_place)
    now = datetime.now(UTC).replace(microsecond=0)
    return kept.begin(begin(new_id(now), created=now))
