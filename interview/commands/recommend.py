"""`turfpair recommend`: the main job without a screen, one session or many, as text or as JSON."""

from __future__ import annotations

import contextlib
import gc
import json
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from interview.commands.common import house, store
from interview.commands.errors import DONE

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from interview.session import Session
    from interview.views.study import Study
    from rules.fitting import House, Outcome
    from rules.units import System

    Opened = tuple[Path, Session]


def configure(parser: ArgumentParser) -> None:
    """Add what `recommend` takes."""
    parser.add_argument(
        "session", nargs="+", metavar="SESSION", help="a path ending in .toml, an id or a ticket code"
    )
    parser.add_argument("--json", action="store_true", help="print JSON: an object, or an array for several")
    parser.add_argument(
        "--study",
        action="store_true",
        help="also how sure, how steady, what would change it, what it leans on",
    )


def run(args: Namespace) -> int:
    """Read every session first, so that a bad one spoils nothing half-way; then recommend for each."""
    from interview.session import load

    with _uncollected(alone=len(args.session) == 1):
        home, kept = house(args), store(args)
        files = [kept.locate(name) for name in args.session]
        sessions = [(file, load(file, home.base.facts)) for file in files]
        if args.json:
            _print_json(home, sessions, args.units, args.study)
        else:
            _print_text(home, sessions, args.units, args.study)
    return DONE


@contextlib.contextmanager
def _uncollected(alone: bool) -> Iterator[None]:
    """Look for no garbage while one session is done, nor when the process ends with it: all of it goes."""
    collecting = gc.isenabled()
    if alone:
        gc.disable()
    try:
        yield
    finally:
        if alone:
            gc.freeze()
        if collecting:
            gc.enable()


def _print_json(home: House, sessions: Sequence[Opened], units: System | None, studied: bool) -> None:
    """Print one object, or an array whose elements are printed as they are ready."""
    from interview.views.recommend_json import to_json

    several = len(sessions) > 1
    for index, (file, session) in enumerate(sessions):
        outcome, system = _fitted(home, file, session), units or session.units
        found = to_json(outcome, session.id, _study(outcome, system) if studied else None, system)
        before = ("[" if index == 0 else ",") if several else ""
        print(before + json.dumps(found, indent=2, allow_nan=False))
    if several:
        print("]")


def _print_text(home: House, sessions: Sequence[Opened], units: System | None, studied: bool) -> None:
    """Print each session's outcome in its own voice."""
    from interview.views.outcome_text import text

    for index, (file, session) in enumerate(sessions):
        if len(sessions) > 1:
            print(f"{'' if index == 0 else chr(10)}== {session.id} ==\n")
        outcome, system = _fitted(home, file, session), units or session.units
        found = _study(outcome, system) if studied else None
        print(text(outcome, session.voice, system, study=found))


def _study(outcome: Outcome, system: System) -> Study:
    """Study an outcome, as views render it."""
    from interview.views.inquiry.fill import filled
    from rules.inquiry.study import study

    return filled(outcome, study(outcome, both_cores=True), system)


def _fitted(home: House, file: Path, session: Session) -> Outcome:
    """Run the road for a session, with what others have booked taken off the shelf."""
    from interview.session import overrides_of
    from rules.fitting import fit

    with overrides_of(file):
        return fit(home.for_session(session.id), session.subject)
