"""`turfpair bay`: the fitter's screen."""

from __future__ import annotations

import contextlib
import os
import sys
from argparse import ArgumentParser, Namespace
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache, partial
from typing import TYPE_CHECKING

from interview.commands.common import CATALOGUE_VARIABLE, house, store
from interview.commands.errors import BAD_INPUT, DONE, UsageProblem
from interview.commands.printing import complain

if TYPE_CHECKING:
    from collections.abc import Callable

    from interview.commands.papers import Papers
    from interview.screens.bay.app import BayApp
    from interview.screens.bay.desk import Desk
    from interview.session import Session
    from interview.store import Draft, Store
    from rules.fitting import House, Outcome


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
    from interview.folders import state_folder
    from interview.screens.bay.app import BayApp

    kept = cache(partial(store, args))  # what keeps sessions is loaded after the first question is up
    plain = not (args.session or args.rules or args.catalogue or os.environ.get(CATALOGUE_VARIABLE))
    sit = partial(_sit_down, args, kept)
    app = BayApp(
        sit if plain else sit(), kept, opening=state_folder() if plain else None,
        sit=lambda draft: _desk(house(args), draft), sheets=_sheets,
    )  # fmt: skip
    status = app.run()
    kept_all = _put_away(app)
    if app.fault is not None:
        raise app.fault
    return status or (DONE if kept_all else BAD_INPUT)


def _put_away(app: BayApp) -> bool:
    """Keep what is in memory only wherever it can be, say where, and return whether nothing is lost."""
    app.keep_all()
    if not app.trouble:
        return True
    trouble, file = app.trouble, app.rescued()
    with contextlib.suppress(OSError):  # the window may be gone
        if file is not None:
            complain(f"{trouble}. It is kept in {file} instead.")
        else:
            complain(f"{trouble}. This is the session; copy it into a file:")
            print(app.as_text(), flush=True)
    return file is not None


def _sit_down(args: Namespace, kept: Callable[[], Store]) -> Desk:
    """Read the rules, open the session, and return the desk with both."""
    home = house(args)
    draft = _draft(args, kept(), home)
    if args.units:
        draft.session = replace(draft.session, units=args.units)
    return _desk(home, draft)


def _desk(home: House, draft: Draft) -> Desk:
    """Sit down to a session, with what other sessions leave for it on the shelf."""
    from interview.conversation import Conversation
    from interview.screens.bay.desk import sit_down
    from interview.session import overrides_of

    with overrides_of(draft.file):
        return sit_down(Conversation.of(home.for_session(draft.id)), draft)


def _sheets(outcome: Outcome, session: Session) -> Papers:
    """Make the sheets; only this loads what they are made with."""
    from interview.commands.papers import papers

    return papers(outcome, session)


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
