"""Reads a fact, assumption, decision or rule aloud: plain words, source, and who uses it."""

from __future__ import annotations

from collections.abc import Iterator

from rules.engine.base import RuleBase
from rules.engine.faults import UnknownName
from rules.engine.language import (
    Assumed,
    Assumption,
    Atom,
    Condition,
    Decision,
    Effect,
    Fact,
    Rule,
    Source,
    atoms,
)
from rules.engine.plan import assumptions_of
from rules.engine.text import amount_words, named_facts, step_words, value_words
from rules.engine.views import Value
from rules.units import System, difference_words, parse, unit, words

_SAYS = {
    "is": "is {value}", "is_not": "is not {value}", "one_of": "is one of {value}",
    "below": "is below {value}", "at_most": "is at most {value}", "above": "is above {value}",
    "at_least": "is at least {value}", "between": "is from {value}",
    "known": "is known", "unknown": "is not known",
}  # fmt: skip
_SET_SAYS = {"is": "has {value}", "is_not": "lacks {value}", "one_of": "has any of {value}"}
_JOINS = {"all": ("all of:", "and"), "any": ("any of:", "or"), "none": ("none of:", "or")}
_KINDS = {
    "rule_out": "the candidate is ruled out",
    "caution": "a caution ({topic})",
    "advise": "advice ({topic})",
}
_SOURCES = {
    "published": "published",
    "common_practice": "common practice",
    "memory": "from memory",
    "assumption": "an assumption",
}


def read_aloud(base: RuleBase, id: str, system: System = "imperial") -> str:
    """Return a few plain lines about whatever is called `id`; UnknownName when nothing is."""
    if id in base.rules:
        lines = list(_rule(base, base.rules[id], system))
    elif id in base.facts:
        lines = list(_fact(base, base.facts[id], system))
    elif id in base.assumptions:
        lines = list(_assumption(base, base.assumptions[id], system))
    elif id in base.decisions:
        lines = list(_decision(base, base.decisions[id], system))
    else:
        known = [*base.rules, *base.facts, *base.assumptions, *base.decisions]
        raise UnknownName("rule, fact, assumption or decision", id, known)
    return "\n".join(lines)


def source_words(source: Source) -> str:
    """Say where something comes from."""
    kind = _SOURCES.get(source.kind, f"the {source.kind.replace('_', ' ')}")
    return kind if source.cite is None else f"{kind}: {source.cite}"


def condition_lines(
    base: RuleBase, condition: Condition, system: System, indent: str = "  "
) -> Iterator[str]:
    """Say a condition, a comparison a line, groups indented."""
    if isinstance(condition, Atom):
        yield f"{indent}{atom_words(base, condition, system)}"
        return
    yield f"{indent}{_JOINS[condition.op][0]}"
    for part in condition.parts:
        yield from condition_lines(base, part, system, indent + "  ")


def atom_words(base: RuleBase, atom: Atom, system: System = "imperial") -> str:
    """Say one comparison."""
    fact = base.facts[atom.fact]
    says = _SET_SAYS.get(atom.op, _SAYS[atom.op]) if fact.kind == "set" else _SAYS[atom.op]
    return f"{fact.title} {says.format(value=_compared(base, fact, atom.value, system))}"


def number_words(si: float, symbol: str, system: System) -> str:
    """Say a number of a rule, with the decimals that keep it within a hundredth of what was declared."""
    said = words(si, symbol, system)
    if symbol in ("points", "strokes"):
        return said
    near = 0.01 * abs(unit(symbol).from_si(si)) + 1e-9
    for decimals in range(1, 5):
        if abs(unit(symbol).step_from_si(parse(said, symbol) - si)) <= near:
            break
        said = words(si, symbol, system, decimals=decimals)
    return said


def _said(fact: Fact, value: Value | None, system: System) -> str:
    """Say a value of a fact."""
    return number_words(value, fact.unit, system) if isinstance(value, float) else value_words(fact, value)


def _compared(base: RuleBase, fact: Fact, value: object, system: System) -> str:
    """Say what a fact is compared with."""
    if isinstance(value, tuple):
        return " to ".join(_compared(base, fact, end, system) for end in value)
    if isinstance(value, Assumed):
        return f"{_said(fact, base.assumptions[value.id].value, system)} (assumption '{value.id}')"
    if isinstance(value, frozenset):
        return " or ".join(word.replace("_", " ") for word in fact.values if word in value)
    return _said(fact, value, system) if isinstance(value, float | str) else ""


def effect_lines(base: RuleBase, effect: Effect, decision: Decision | None, system: System) -> Iterator[str]:
    """Say an effect; a ramp node by node."""
    if effect.kind in _KINDS:
        yield f"  {_KINDS[effect.kind].format(topic=effect.topic)}"
        return
    if effect.ramp is None:
        yield f"  {_result(effect, effect.amount, decision, system)}"
        return
    fact = base.facts[effect.ramp.fact]
    yield f"  along the {fact.title}, straight between:"
    for x, y in effect.ramp.at:
        yield f"    {number_words(x, fact.unit, system)}: {_result(effect, y, decision, system)}"


def _result(effect: Effect, amount: int, decision: Decision | None, system: System) -> str:
    """Say points or an adjustment, with its sign; never rounded in the unit it was declared in."""
    if effect.kind == "points" or decision is None:
        return f"{amount / 1000:+g} points"
    si = amount / 1000 * unit(decision.unit).factor
    said = difference_words(si, decision.unit, system)
    if said.endswith(decision.unit) and _differs(said, amount, decision.unit):
        said = f"{amount / 1000:g} {decision.unit}".strip()
    return ("+" if amount > 0 else "") + said


def _differs(said: str, amount: int, symbol: str) -> bool:
    """Return whether a difference was rounded by more than a hundredth on its way into words."""
    told = unit(symbol).step_from_si(parse(said, symbol) - parse(0.0, symbol)) * 1000
    return abs(told - amount) > 0.01 * abs(amount)


def _rule(base: RuleBase, rule: Rule, system: System) -> Iterator[str]:
    decision = base.decisions.get(rule.decision or "")
    yield f"rule {rule.id}" + (f", on the {decision.title}" if decision else f", for the {rule.scope}")
    if rule.when is None:
        yield "always"
    else:
        yield "when"
        yield from condition_lines(base, rule.when, system)
    yield "then"
    yield from effect_lines(base, rule.effect, decision, system)
    yield f"because: {rule.because}"
    yield f"teaches: {rule.teaches}"
    if rule.contested is not None:
        yield f"another view: {rule.contested.other}"
        if rule.contested.effect is not None:
            yield from effect_lines(base, rule.contested.effect, decision, system)
        yield f"why it leans this way: {rule.contested.leans}"
    yield f"source: {source_words(rule.source)}"


def _fact(base: RuleBase, fact: Fact, system: System) -> Iterator[str]:
    yield f"fact {fact.id}: {fact.title}, of the {fact.scope}"
    yield fact.text
    if fact.kind == "number":
        least, most = (number_words(end, fact.unit, system) for end in fact.range)
        yield f"a number from {least} to {most}"
    else:
        kinds = {"choice": "one of", "set": "any of", "shares": "shares of"}
        yield f"{kinds[fact.kind]} {', '.join(word.replace('_', ' ') for word in fact.values)}"
    if fact.ask is not None:
        yield f"asked under '{fact.ask.topic}'" + (", always" if fact.ask.always else "")
        if fact.ask.applies is not None:
            yield "only when"
            yield from condition_lines(base, fact.ask.applies, system)
    elif fact.derived:
        yield "computed, not asked"
    if fact.fallback is not None:
        yield f"while nobody says: assumption '{fact.fallback}'"
    if fact.decided_with is not None:
        yield f"decided with '{fact.decided_with}'"
    if fact.used_for:
        yield f"used for: {fact.used_for}"
    yield f"source: {source_words(fact.source)}"
    yield _used(readers(base, fact.id))


def _assumption(base: RuleBase, assumption: Assumption, system: System) -> Iterator[str]:
    value, range = assumption.value, assumption.range
    if range is not None and isinstance(value, float):
        shown = [number_words(one, assumption.unit, system) for one in (value, *range)]
        yield f"assumption {assumption.id}: {shown[0]}, plausibly {shown[1]} to {shown[2]}"
    else:
        said = " and ".join(sorted(value)) if isinstance(value, frozenset) else str(value)
        words_of = f"{said}, out of {', '.join(assumption.values)}"
        yield f"assumption {assumption.id}: {words_of.replace('_', ' ')}"
    yield assumption.text
    yield f"source: {source_words(assumption.source)}"
    yield _used(leaners(base, assumption.id))


def _decision(base: RuleBase, decision: Decision, system: System) -> Iterator[str]:
    yield f"decision {decision.id}: {decision.title}, of the {decision.scope}"
    yield decision.text
    if decision.kind == "amount":
        start = base.facts[decision.start_fact].title if decision.start_fact else decision.start_assumption
        low, high = (amount_words(decision, end, system) for end in decision.limits)
        yield f"an amount that starts from {start}"
        yield f"held from {low} to {high}, in steps of {step_words(decision)}"
    else:
        yield "a choice: the candidate with most points, unless ruled out"
    yield f"source: {source_words(decision.source)}"
    yield _used(tuple(rule.id for rule in base.rules.values() if rule.decision == decision.id), "weighed by")


def readers(base: RuleBase, fact: str) -> tuple[str, ...]:
    """Return the rules, decisions and questions that read or name a fact (or a part of it)."""
    ids = {fact} | {part.id for part in base.facts.values() if part.part_of == fact}
    named = [
        rule.id
        for rule in base.rules.values()
        if ids & (rule.reads | {*named_facts(rule.because), *named_facts(rule.teaches)})
    ]
    starts = [f"decision {d.id}" for d in base.decisions.values() if d.start_fact in ids]
    asks = [
        f"question {other.id}"
        for other in base.facts.values()
        if other.ask and ids & {atom.fact for atom in atoms(other.ask.applies)}
    ]
    return (*named, *starts, *asks)


def leaners(base: RuleBase, assumption: str) -> tuple[str, ...]:
    """Return the rules, decisions and facts that stand on an assumption."""
    thresholds = [rule.id for rule in base.rules.values() if assumption in assumptions_of(rule)]
    starts = [f"decision {d.id}" for d in base.decisions.values() if d.start_assumption == assumption]
    facts = [f"fact {fact.id}" for fact in base.facts.values() if fact.fallback == assumption]
    return (*thresholds, *starts, *facts)


def _used(users: tuple[str, ...], verb: str = "used by") -> str:
    """Say who uses something."""
    return f"{verb}: {', '.join(users)}" if users else "used by no rule"
