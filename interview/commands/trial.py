"""`turfpair trial`: balls taken in from a table, clubs compared, and what that does to the pick."""

from __future__ import annotations

import json
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from interview.commands.common import house, store
from interview.commands.errors import DONE, UsageProblem
from rules.paths import read_bounded, typed_path

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

    from interview.session import Session
    from interview.store import Draft
    from interview.views.trial.text import Import
    from rules.evidence.trial import Trial
    from rules.fitting import House

_LARGEST = 4_000_000
"""Bytes beyond which a table of shots is not read."""


def configure(parser: ArgumentParser) -> None:
    """Add what `trial` takes."""
    parser.add_argument("session", metavar="SESSION", help="a path ending in .toml, an id or a ticket code")
    parser.add_argument(
        "--shots",
        metavar="FILE.csv",
        type=Path,
        help="takes these balls in; without it those kept are compared",
    )
    parser.add_argument("--club", metavar="NAME", help="whose balls they are, where the table does not say")
    parser.add_argument("--against", metavar="CLUB", help="the club that the others are held against")
    parser.add_argument(
        "--save", metavar="FILE.csv", type=table_file, help="writes all balls of the session as a table"
    )
    parser.add_argument(
        "--in-place", action="store_true", help="change a file outside the store itself, not a copy"
    )
    parser.add_argument("--json", action="store_true", help="print JSON")


def table_file(text: str) -> Path:
    """Read the name of a table; ArgumentTypeError when it could be taken for something else."""
    file = typed_path(text)
    if file.suffix.lower() != ".csv":
        raise ArgumentTypeError("a name ending in .csv is wanted, so that nothing else is written over")
    return file


def run(args: Namespace) -> int:
    """Take the balls in, keep them, and tell what they say."""
    from rules.evidence.trial import trial

    _apart(args)
    home = house(args)
    draft = store(args).open(args.session, home.base.facts, in_place=args.in_place)
    taken, session = None, draft.session
    if args.shots is not None:
        taken, session = _taken(args, home, draft.session)
    found = trial(home, session.subject, args.against)
    session = _kept(draft, session, found)
    if args.save is not None:
        _save(args.save, session)
    units = args.units or session.units
    if args.json:
        from interview.views.trial.trial_json import trial_json

        data = trial_json(found, session.id, taken, units)
        print(json.dumps({**data, "notices": draft.notices}, indent=2, allow_nan=False))
    else:
        from interview.text import one_line
        from interview.views.trial.text import trial_text

        for notice in draft.notices:
            print(f"({one_line(notice, 400)}.)\n")
        print(trial_text(found, session.voice, units, taken))
    return DONE


def _apart(args: Namespace) -> None:
    """Refuse to write over the table that is read: rows that were left out of it would be gone."""
    both = args.save is not None and args.shots is not None
    if both and args.save.resolve() == typed_path(args.shots).resolve():
        raise UsageProblem("trial: --save would write over the table of --shots; name another file")


def _taken(args: Namespace, home: House, session: Session) -> tuple[Import, Session]:
    """Read the table and put its balls into the session; the same balls are never taken in twice."""
    from interview.session import with_club, with_shots
    from interview.text import one_line
    from interview.views.trial.text import Import
    from rules.evidence.table import read_shots

    facts = home.base.facts
    table = read_shots(_text(args.shots), facts, session.written, args.club)
    name = one_line(args.shots.name, 60)
    if _there(session.written.get("shots", []), table.rows):
        return Import(name, table, 0), session
    for club in table.clubs:
        session = with_club(session, facts, "trial_clubs", club)
    return Import(name, table, len(table.rows)), with_shots(session, facts, table.rows)


def _text(file: Path) -> str:
    """Read a table's text; what is no text in UTF-8 is taken as Windows writes it in the west."""
    content = read_bounded(typed_path(file), _LARGEST)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def _there(kept: Sequence[Mapping[str, Any]], rows: Sequence[Mapping[str, Any]]) -> bool:
    """Say whether all these balls stand one after another in the session already."""
    size = len(rows)
    plain = [dict(row) for row in rows]
    return size > 0 and any(
        [dict(row) for row in kept[start : start + size]] == plain for start in range(len(kept) - size + 1)
    )


def _kept(draft: Draft, session: Session, found: Trial) -> Session:
    """Keep the session if anything was taken in, with what is decided now; a copy has an id of its own."""
    from interview.session.recorded import with_run

    if session == draft.session:
        return session
    return draft.save(with_run(session, session, found.change.after))


def _save(file: Path, session: Session) -> None:
    """Write the session's balls as a table, in one step."""
    from interview.store.files import replace_file
    from rules.evidence.table import shots_table
    from rules.whole_file import sweep_abandoned

    target = typed_path(file)
    sweep_abandoned(target)
    replace_file(target, shots_table(session.subject))
