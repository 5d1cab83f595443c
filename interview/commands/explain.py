"""`turfpair explain`: why, why not, nearly, what would change it, how sure, and what it leans on."""

from __future__ import annotations

import json
from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from interview.commands.common import house, opened
from interview.commands.errors import DONE

if TYPE_CHECKING:
    from interview.session import Session
    from rules.fitting import House, Outcome


def configure(parser: ArgumentParser) -> None:
    """Add what `explain` takes."""
    parser.add_argument("session", metavar="SESSION", help="a path ending in .toml, an id or a ticket code")
    parser.add_argument(
        "decision", nargs="?", default="pairing", metavar="DECISION",
        help="pairing, or a part of a club such as longer.length",
    )  # fmt: skip
    parser.add_argument(
        "--instead", metavar="CANDIDATE", help="what it is held against, else the runner-up; or an amount"
    )
    parser.add_argument(
        "--before", metavar="FOLDER", type=Path,
        help="the rules of then: tells what the rules alone have changed since the session was last run",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: Namespace) -> int:
    """Run the road, study its outcome, and tell what was asked."""
    from interview.views.inquiry.asked import explained
    from interview.views.inquiry.audit import audit
    from rules.inquiry.ledgers import ledger
    from rules.inquiry.study import study

    home = house(args)
    session, outcome = opened(args, home, args.session)
    ledger(outcome, args.decision)
    units = args.units or session.units
    since = audit(session, outcome, _before(args, session, home))
    early = explained(outcome, args.decision, args.instead, None, units, since)
    found = early._replace(study=study(outcome, both_cores=True))
    if args.json:
        from interview.views.inquiry.explain_json import explain_json

        print(json.dumps(explain_json(found, session.id), indent=2, allow_nan=False))
    else:
        from interview.views.inquiry.explain_text import explain_text

        print(explain_text(found, session.voice))
    return DONE


def _before(args: Namespace, session: Session, home: House) -> Outcome | None:
    """Run the session by the rules of then, on the catalogue of now; None where nobody has them.

    They are those that --before names, or the built-in ones where those ran last and others run now.
    """
    from interview.session.reading import subject_of
    from rules.fitting import fit, load_house

    then = session.record.rules_digest
    if args.before is None and (then == home.digest or load_house().digest != then):
        return None
    old = house(Namespace(**{**vars(args), "rules": args.before})).for_session(session.id)
    return fit(old, subject_of(session, old.base.facts))
