"""Lays the rules of one decision out for evaluation: a bit for each case, rows for each fact."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple, cast

from rules.engine.cases import Term, unfold
from rules.engine.language import Assumed, Assumption, Atom, Fact, Rule, atoms
from rules.engine.ramps import Ramp
from rules.engine.rows import Rows, Test, number_test, word_test
from rules.engine.tables import Tables
from rules.engine.truth import Bound


class Scored(NamedTuple):
    """What the evaluation needs of one case that scores."""

    rule: Rule
    amount: int
    """Fixed result, thousandths."""
    ramp: Ramp | None


class Several(NamedTuple):
    """A rule of several cases: it speaks once however many of them hold."""

    first: int
    group: int


class Plan:
    """The rules of one decision (or the notices of one scope), laid out."""

    def __init__(
        self, rules: Iterable[Rule], facts: Mapping[str, Fact], assumptions: Mapping[str, Assumption]
    ) -> None:
        self.rules = sorted(rules, key=lambda rule: rule.id)
        self.facts, self.assumptions = facts, assumptions
        self.scored: dict[int, Scored] = {}
        """By bit; of a rule of several cases only its first."""
        self.several: list[Several] = []
        self.bits: dict[str, int] = {}
        """Every case of each rule."""
        self.rule_outs = 0
        """Bits of the cases that rule out."""
        terms: dict[str, list[tuple[int, Term]]] = {}
        follows: dict[str, int] = {}
        self.full = (1 << self._lay_out(terms, follows)) - 1
        self.ids = tuple(sorted(terms.keys() | follows.keys()))
        """Facts that decide what speaks and how much."""
        self.rows = {id: self._rows(id, terms.get(id, []), follows.get(id, 0)) for id in self.ids}
        self.scores = self.full & ~self.rule_outs
        fixed = {bit: scored.amount for bit, scored in self.scored.items() if scored.ramp is None}
        bits = self.full.bit_length()
        self.fixed = Tables(fixed, bits)
        """Sums of fixed results."""
        self.fixed_least = Tables({bit: min(0, amount) for bit, amount in fixed.items()}, bits)
        """The least they may give while it is open whether they speak."""
        self.fixed_most = Tables({bit: max(0, amount) for bit, amount in fixed.items()}, bits)
        """The most."""
        self.layouts: dict[tuple[object, ...], object] = {}
        """Kept by the evaluation: how facts are split between shared and own."""

    def _lay_out(self, terms: dict[str, list[tuple[int, Term]]], follows: dict[str, int]) -> int:
        """Give every case its bit, and every fact its terms; return the number of bits."""
        count = 0
        for rule in self.rules:
            cases = unfold(rule.when)
            first, group = 1 << count, 0
            for case in cases:
                bit = 1 << count
                count += 1
                group |= bit
                for term in case:
                    terms.setdefault(term.atom.fact, []).append((bit, term))
            self.bits[rule.id] = group
            if len(cases) > 1:
                self.several.append(Several(first, group))
            ramp = rule.effect.ramp
            if ramp is not None:
                follows[ramp.fact] = follows.get(ramp.fact, 0) | group
            if rule.effect.kind == "rule_out":
                self.rule_outs |= group
            self.scored[first] = Scored(rule, rule.effect.amount, ramp)
        return count

    def _rows(self, id: str, terms: list[tuple[int, Term]], follows: int) -> Rows:
        """Work out the rows of one fact."""
        fact = self.facts[id]
        tests: list[Test] = []
        bounds: list[Bound] = []
        for bit, (atom, wanted) in terms:
            if atom.op in ("known", "unknown"):
                tests.append(Test(bit, atom.op, wanted, bool))
            elif fact.kind == "number":
                bounds.append(self.bound(atom))
                tests.append(number_test(bit, atom.op, wanted, bounds[-1]))
            else:
                tests.append(word_test(bit, atom, wanted, self.compared(atom), fact.kind))
        return Rows(fact, tests, follows, bounds, self.full)

    def bound(self, atom: Atom) -> Bound:
        """Return a numeric comparison with its assumptions filled in."""
        ends = atom.value if isinstance(atom.value, tuple) else (atom.value, atom.value)
        low, high = (self.number(end) for end in ends)
        range = self.facts[atom.fact].range
        return Bound(atom.op, low, high, range[1] - range[0])

    def compared(self, atom: Atom) -> object:
        """Return what words are compared with, its assumption filled in."""
        if isinstance(atom.value, Assumed):
            return self.assumptions[atom.value.id].value
        return atom.value

    def number(self, threshold: object) -> float:
        """Return a threshold as a number."""
        if isinstance(threshold, Assumed):
            return cast(float, self.assumptions[threshold.id].value)
        return cast(float, threshold)

    def once(self, mask: int) -> int:
        """Keep one bit of each rule of several cases."""
        for first, group in self.several:
            if mask & group:
                mask = mask & ~group | first
        return mask

    def whole(self, mask: int) -> int:
        """Keep the bits of a rule of several cases only where the mask holds all of them."""
        for _, group in self.several:
            if mask & group != group:
                mask &= ~group
        return mask


def assumptions_of(rule: Rule) -> frozenset[str]:
    """Return the assumptions that a rule's thresholds use."""
    used: set[str] = set()
    for atom in atoms(rule.when):
        ends = atom.value if isinstance(atom.value, tuple) else (atom.value,)
        used.update(end.id for end in ends if isinstance(end, Assumed))
    return frozenset(used)
