"""Facts that nobody reads and questions whose answers can change nothing."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from rules.engine.aloud import readers
from rules.engine.audit.findings import Finding
from rules.engine.base import RuleBase


def unread(base: RuleBase, mute: Collection[str]) -> Iterator[Finding]:
    """Yield facts that nobody reads, and questions read only by rules that are `mute`.

    A fact that the program itself uses says so with `used_for`, and is let be.
    """
    for fact in base.facts.values():
        if fact.part_of is not None or fact.used_for or (fact.ask is not None and fact.ask.always):
            continue
        users = set(readers(base, fact.id))
        if not users:
            yield Finding("idle" if fact.ask else "unread", "fact", (fact.id,), {"why": "nobody reads it"})
        elif fact.ask is not None and users <= set(mute):
            yield Finding("idle", "fact", (fact.id,), {"why": "the rules that read it never say anything"})
