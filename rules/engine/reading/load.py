"""Loads a rule base: all or nothing, with every fault in file order."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rules.engine.base import RuleBase
from rules.engine.faults import RuleBaseFaults
from rules.engine.language import Assumption, Decision, Fact, Rule
from rules.engine.reading.checks import Checks
from rules.engine.reading.conditions import ConditionReader
from rules.engine.reading.decisions import DecisionReader
from rules.engine.reading.effects import MOST_POINTS
from rules.engine.reading.facts import FactReader, parts, read_assumption, with_applies
from rules.engine.reading.layers import Gathered, gather, read_schema
from rules.engine.reading.rules import RuleReader
from rules.engine.reading.table import ID, Sink, Table, given


def load(folder: Path, overlays: Sequence[Path] = ()) -> RuleBase:
    """Load a folder of TOML files, with overlays on top that add, replace by id, or switch off.

    Raises RuleBaseFaults with every fault found, in file order.
    """
    gathered = gather(Path(folder), [Path(overlay) for overlay in overlays])
    if gathered.broken_files or gathered.base is None:
        raise RuleBaseFaults((*gathered.broken_files, *gathered.sink.faults()))
    base = _Loader(gathered, gathered.base).load()
    if gathered.sink.found:
        raise RuleBaseFaults(gathered.sink.faults())
    return base


def _names(table: Table, key: str, wanted: str) -> tuple[str, ...]:
    """Read a list of short words in which nothing comes twice."""
    rows = table.items(key, wanted)
    for i, word in enumerate(rows):
        if not isinstance(word, str) or not ID.fullmatch(word) or word in rows[:i]:
            table.fault("bad-id", (key, i), given=given(word), wanted="short words, each once")
    return tuple(word for word in rows if isinstance(word, str))


class _Loader:
    """Reads what was gathered, in the order in which entries refer to one another."""

    def __init__(self, gathered: Gathered, base: Table) -> None:
        self._entries = gathered.entries
        self._sink: Sink = gathered.sink
        read_schema(base)
        self.name = base.sentence("name", "a name for the rule base is wanted")
        self.scopes = _names(base, "scopes", "the ordered list of scopes is wanted")
        self.topics = _names(base, "topics", "the ordered list of topics is wanted")
        cliff = base.raw("largest_cliff")
        if cliff is not None and (
            isinstance(cliff, bool) or not isinstance(cliff, int | float) or not 0 < cliff <= MOST_POINTS
        ):
            wanted = f"points above 0, {MOST_POINTS} at most,"
            base.fault("wrong-type", ("largest_cliff",), wanted=wanted, given=given(cliff))
            cliff = None
        self.cliff = None if cliff is None else round(cliff * 1000)

    def load(self) -> RuleBase:
        """Read assumptions, facts, decisions and rules, then hold them against one another."""
        assumptions = {id: read_assumption(table) for id, table in self._entries["assumption"].items()}
        facts = self._facts(assumptions, self._broken({}))
        broken = self._broken(facts)
        sound = {id: fact for id, fact in facts.items() if id not in broken}
        conditions = ConditionReader(
            sound, {id: a for id, a in assumptions.items() if id not in broken}, broken
        )
        decisions = self._decisions(conditions, sound, assumptions)
        for id, table in self._entries["fact"].items():
            if id in sound:
                facts[id] = sound[id] = with_applies(sound[id], table, conditions)
        checks = Checks(self.scopes, sound, decisions)
        self._check(checks, sound)
        rules = self._rules(RuleReader(self.scopes, conditions, sound, decisions, broken), checks)
        return RuleBase(self.name, self.scopes, self.topics, facts, assumptions, decisions, rules, self.cliff)

    def _broken(self, facts: dict[str, Fact]) -> frozenset[str]:
        """Return the ids of entries with faults of their own: what refers to them is not blamed as well."""
        faulty = {(id(doc), path[:2]) for doc, path, *_ in self._sink.found}
        broken = {
            name
            for kind in ("fact", "assumption")
            for name, table in self._entries[kind].items()
            if (id(table.doc), table.path) in faulty
        }
        return frozenset(broken | {name for name, fact in facts.items() if fact.part_of in broken})

    def _facts(self, assumptions: dict[str, Assumption], broken: frozenset[str]) -> dict[str, Fact]:
        reader = FactReader(self.scopes, self.topics, assumptions, broken)
        facts: dict[str, Fact] = {}
        for id, table in self._entries["fact"].items():
            facts[id] = reader.read(table)
            if facts[id].kind == "shares":
                facts |= {part.id: part for part in parts(facts[id])}
        return facts

    def _decisions(
        self, conditions: ConditionReader, facts: dict[str, Fact], assumptions: dict[str, Assumption]
    ) -> dict[str, Decision]:
        reader = DecisionReader(self.scopes, conditions, facts, assumptions)
        return {id: reader.read(table) for id, table in self._entries["decision"].items()}

    def _check(self, checks: Checks, facts: dict[str, Fact]) -> None:
        """Hold facts and decisions against one another."""
        for id, table in self._entries["fact"].items():
            if id in facts:
                checks.fact(facts[id], table)
        checks.decisions(self._entries["decision"])

    def _rules(self, reader: RuleReader, checks: Checks) -> dict[str, Rule]:
        rules = {}
        for id, table in self._entries["rule"].items():
            rule = reader.read(table)
            if rule is not None:
                rules[id] = rule
                checks.rule(rule, table)
        return rules
