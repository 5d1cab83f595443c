"""What the commands share: their parser, the options that all of them take, the house and the store."""

from __future__ import annotations

import os
from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from interview.commands.errors import UsageProblem
from rules.paths import typed_path

if TYPE_CHECKING:
    from interview.session import Session
    from interview.store import Store
    from rules.fitting import House, Outcome

CATALOGUE_VARIABLE = "TURFPAIR_CATALOGUE"
"""Environment variable that names a shop's own catalogue."""


class Parser(ArgumentParser):
    """An argument parser that raises one sentence instead of printing its usage and leaving."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("allow_abbrev", False)
        super().__init__(*args, **kwargs)

    def error(self, message: str) -> NoReturn:
        """Raise UsageProblem, which names the command and where its help is."""
        raise UsageProblem(f"{self.prog.removeprefix('turfpair ')}: {message}; see '{self.prog} --help'")


def add_common(parser: ArgumentParser) -> None:
    """Add the options that every command takes."""
    group = parser.add_argument_group("options of every command")
    group.add_argument("--rules", metavar="FOLDER", type=Path, help="a rule base of your own")
    group.add_argument("--catalogue", metavar="FOLDER", type=Path, help="a shop's own catalogue")
    group.add_argument("--sessions", metavar="FOLDER", help="where sessions are kept")
    group.add_argument("--units", choices=("imperial", "metric"), help="how quantities are displayed")
    group.add_argument("--no-color", action="store_true", help="print without colour")


def house(args: Namespace) -> House:
    """Load the rule base and the catalogue that the command line names, or the ones built in."""
    from rules.fitting import load_house

    named = os.environ.get(CATALOGUE_VARIABLE)
    catalogue = args.catalogue or (typed_path(named) if named else None)
    return load_house(args.rules, catalogue)


def opened(args: Namespace, home: House, name: str) -> tuple[Session, Outcome]:
    """Read a session and run the road for it, on what other sessions leave on the shelf.

    Raises SessionFaults, or another Problem, for what cannot be read.
    """
    from interview.session import load, overrides_of
    from rules.fitting import fit

    file = store(args).locate(name)
    session = load(file, home.base.facts)
    with overrides_of(file):
        return session, fit(home.for_session(session.id), session.subject)


def store(args: Namespace) -> Store:
    """Open the store of sessions that the command line or the environment names, or the usual one."""
    from interview.folders import sessions_folder
    from interview.store import Store

    return Store(sessions_folder(args.sessions))
