"""`turfpair explain`: why, why not, nearly, what would change it, how sure, and what it leans on."""

from __future__ import annotations

import json
from argparse import ArgumentParser, Namespace

from interview.commands.common import house, store
from interview.commands.errors import DONE


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
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: Namespace) -> int:
    """Run the road, study its outcome, and tell what was asked."""
    from interview.session import load
    from interview.views.inquiry.asked import explained
    from rules.fitting import fit
    from rules.inquiry.ledgers import ledger
    from rules.inquiry.study import study

    home = house(args)
    session = load(store(args).locate(args.session), home.base.facts)
    outcome = fit(home.for_session(session.id), session.subject)
    ledger(outcome, args.decision)
    units = args.units or session.units
    then = session.record.rules_digest
    early = explained(outcome, args.decision, args.instead, None, then, units)
    found = early._replace(study=study(outcome, both_cores=True))
    if args.json:
        from interview.views.inquiry.explain_json import explain_json

        print(json.dumps(explain_json(found, session.id), indent=2, allow_nan=False))
    else:
        from interview.views.inquiry.explain_text import explain_text

        print(explain_text(found, session.voice))
    return DONE
