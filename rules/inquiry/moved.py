"""Which sample session an entry of the house's rule base moves: a table that a test holds to the road.

The sample sessions do not travel with an installation, so what they show is kept beside the rules.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rules.engine import RuleBase

TABLE = Path(__file__).parent / "moved.toml"
"""One sample session by the id of a rule, an assumption or a question."""


@cache
def moved() -> Mapping[str, str]:
    """Return the table."""
    return tomllib.loads(TABLE.read_text(encoding="utf-8"))


def moves(base: RuleBase, id: str) -> tuple[str, ...]:
    """Return the sample sessions that show what is called `id` at work, the plainest first.

    Of a derived fact or a decision they are those of the rules that read or weigh it.
    """
    if id in moved():
        return (moved()[id],)
    rules = [rule.id for rule in base.rules.values() if id in rule.reads or rule.decision == id]
    return tuple(dict.fromkeys(moved()[rule] for rule in rules if rule in moved()))
