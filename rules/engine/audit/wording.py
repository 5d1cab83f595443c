"""Sentences that a person would not say, and sources that say too little."""

from __future__ import annotations

import re
from collections.abc import Iterator

from rules.engine.audit.findings import Finding
from rules.engine.base import RuleBase
from rules.engine.language import Assumption, Decision, Fact, Rule, Source
from rules.engine.text import named_facts
from rules.units import UnitError, unit

_AFTER = re.compile(r"\{([^{}]*)\}(\s?)([A-Za-z%°/*'\"]+\d?)(\W|$)")
_CODE = re.compile(r"\b[a-z]+(?:_[a-z]+)+\b")
_BRACES = re.compile(r"\{[^{}]*\}")
_UNNAMED = ("", "strokes")
"""Units that are not shown with their value: then the word after it is no repetition."""
FEWEST_WORDS = 4
"""A sentence of fewer words explains nothing."""


def sentences(base: RuleBase) -> Iterator[Finding]:
    """Yield rules whose sentences are not ones that a person would say."""
    for rule in base.rules.values():
        for key in ("because", "teaches"):
            yield from _sentence(base, rule, key, getattr(rule, key))
        if rule.contested is not None:
            yield from _sentence(base, rule, "contested.other", rule.contested.other)
            yield from _sentence(base, rule, "contested.leans", rule.contested.leans)
        if rule.because == rule.teaches:
            yield Finding("same-text", "rule", (rule.id,))
        yield from _may_be_unknown(base, rule)


def _sentence(base: RuleBase, rule: Rule, key: str, text: str) -> Iterator[Finding]:
    """Yield what is wrong with one sentence."""
    data = {"key": key}
    for match in _AFTER.finditer(text):
        if _doubles(base, match):
            yield Finding("doubled-unit", "rule", (rule.id,), {"given": match.group().strip()})
    code = _CODE.search(_BRACES.sub("", text))
    if code:
        yield Finding("code-word", "rule", (rule.id,), {"given": code.group()})
    if not text.endswith((".", "!", "?", ".'", '."')):
        yield Finding("no-end", "rule", (rule.id,), data)
    if text[:1].islower():
        yield Finding("no-start", "rule", (rule.id,), data)
    if len(text.split()) < FEWEST_WORDS:
        yield Finding("fragment", "rule", (rule.id,), data)


def _doubles(base: RuleBase, match: re.Match[str]) -> bool:
    """Return whether the word after a fact is a unit that the fact brings itself."""
    fact = base.facts.get(match.group(1))
    word, after = match.group(3), match.group(4)
    if fact is None or fact.kind != "number" or fact.unit in _UNNAMED:
        return False
    if word.lower() == "in" and after.isspace():
        return False
    try:
        return unit(word).dimension == unit(fact.unit).dimension
    except UnitError:
        return False


def _may_be_unknown(base: RuleBase, rule: Rule) -> Iterator[Finding]:
    """Yield facts named in a text that may be absent while the rule speaks."""
    for id in dict.fromkeys((*named_facts(rule.because), *named_facts(rule.teaches))):
        fact = base.facts[id]
        if fact.ask is not None and fact.fallback is None and id not in rule.reads:
            yield Finding("may-be-unknown", "rule", (rule.id,), {"fact": fact.title})


def sources(base: RuleBase) -> Iterator[Finding]:
    """Yield entries whose source says too little to be followed up."""
    entries: tuple[tuple[str, Fact | Assumption | Decision | Rule], ...] = (
        *(("rule", rule) for rule in base.rules.values()),
        *(("assumption", assumption) for assumption in base.assumptions.values()),
        *(("fact", fact) for fact in base.facts.values() if fact.part_of is None),
        *(("decision", decision) for decision in base.decisions.values()),
    )
    for what, entry in entries:
        why = _thin(entry.source)
        if why:
            yield Finding("thin-source", what, (entry.id,), {"why": why})
    for rule in base.rules.values():
        if rule.effect.kind == "rule_out" and rule.source.kind in ("memory", "assumption"):
            kind = "memory" if rule.source.kind == "memory" else "an assumption"
            yield Finding("opinion-without-basis", "rule", (rule.id,), {"kind": kind})


def _thin(source: Source) -> str:
    """Return why a source is too thin; empty when it is not."""
    parts = source.parts
    if source.kind == "published":
        year = str(parts.get("year", ""))
        if not (year.isdecimal() and 1600 <= int(year) <= 2200):
            return f"'{year}' is no year"
        short = [key for key in ("author", "title", "place") if len(str(parts.get(key, ""))) < 3]
        return f"its {short[0]} is too short" if short else ""
    if source.kind in ("memory", "assumption") and len(str(parts.get("note", "")).split()) < 2:
        return "the note is a word or less"
    return ""
