"""`turfpair whatif`: the outcome beside the outcome with some answers changed; nothing is kept."""

from __future__ import annotations

import json
from argparse import ArgumentParser, Namespace
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import TYPE_CHECKING

from interview.commands.common import house, store
from interview.commands.errors import DONE, UsageProblem

if TYPE_CHECKING:
    from rules.engine.language import Fact
    from rules.facts.answers import Answer

_AWAY = ("", "open")
"""What takes an answer away."""


def configure(parser: ArgumentParser) -> None:
    """Add what `whatif` takes."""
    parser.add_argument("session", metavar="SESSION", help="a path ending in .toml, an id or a ticket code")
    parser.add_argument(
        "changes", nargs="+", metavar="FACT=VALUE",
        help="an answer to change, such as driver_speed=85mph; unknown closes it, an empty value opens it",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: Namespace) -> int:
    """Run both roads and hold them together."""
    from interview.session import load, overrides_of
    from interview.views.inquiry.whatif_text import whatif_json, whatif_text
    from rules.inquiry.whatif import whatif

    home = house(args)
    file = store(args).locate(args.session)
    session = load(file, home.base.facts)
    answers = read_changes(home.base.facts, args.changes)
    with overrides_of(file):
        found = whatif(home.for_session(session.id), session.subject, answers)
    if args.json:
        print(json.dumps(whatif_json(found, session.id), indent=2, allow_nan=False))
    else:
        print(whatif_text(found, session.voice, args.units or session.units))
    return DONE


def read_changes(facts: Mapping[str, Fact], changes: Sequence[str]) -> dict[str, Answer | None]:
    """Read changes typed as FACT=VALUE; None takes an answer away. Raises UsageProblem or AnswerProblem."""
    from rules.facts.answers import UNKNOWN, read_answer

    questions = {id: fact for id, fact in facts.items() if fact.ask is not None}
    found: dict[str, Answer | None] = {}
    for change in changes:
        name, equals, value = change.partition("=")
        id = name.strip()
        if not equals:
            raise UsageProblem(f"'{change[:60]}' is no change; write it as FACT=VALUE, such as handicap=12")
        if id not in questions:
            close = get_close_matches(id, questions, 1)
            hint = f"; did you mean '{close[0]}'?" if close else ""
            raise UsageProblem(f"'{id[:60]}' is not a question{hint}")
        typed = value.strip()
        if typed.lower() == "unknown":
            found[id] = UNKNOWN
        else:
            found[id] = None if typed.lower() in _AWAY else read_answer(questions[id], typed)
    return found
