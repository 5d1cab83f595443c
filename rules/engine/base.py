"""A rule base, loaded: what it declares, and the decisions it takes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache, cached_property, partial
from types import MappingProxyType
from typing import cast

from rules.engine.amounts import NoStart, decide, final_si, thousandths
from rules.engine.digest import digest
from rules.engine.evaluate import Later, Run
from rules.engine.fast import Ground, best_of, moved_by, points_of
from rules.engine.faults import UnknownName
from rules.engine.joined import Joined
from rules.engine.language import Assumption, Decision, Effect, Fact, Rule, Source, atoms
from rules.engine.ledger import Amount, Choice, Notice, Standing
from rules.engine.lines import Evaluated
from rules.engine.plan import Plan, assumptions_of
from rules.engine.sides import Best
from rules.engine.trace import trace
from rules.engine.truth import BEST
from rules.engine.views import ABSENT, Candidate, Value, View


class RuleBase:
    """Facts, assumptions, decisions and rules, never changed once made; copies share what is the same."""

    def __init__(
        self, name: str, scopes: tuple[str, ...], topics: tuple[str, ...], facts: Mapping[str, Fact],
        assumptions: Mapping[str, Assumption], decisions: Mapping[str, Decision], rules: Mapping[str, Rule],
        largest_cliff: int | None = None,
    ) -> None:  # fmt: skip
        self.name = name
        self.scopes = scopes
        """In order: a rule reads its own scope and earlier ones."""
        self.topics = topics
        """Of the interview, in order."""
        self.facts = MappingProxyType(dict(facts))
        self.assumptions = MappingProxyType(dict(assumptions))
        self.decisions = MappingProxyType(dict(decisions))
        self.rules = MappingProxyType(dict(rules))
        self.largest_cliff = largest_cliff
        """The jump that a threshold may make, thousandths of a point; None when nothing is declared."""
        self._plans: dict[str, Plan] = {}
        self._digest: str | None = None

    def __reduce__(self) -> tuple[type[RuleBase], tuple[object, ...]]:
        """Pickle what it declares; plans are laid out again where they are wanted."""
        declared = (self.facts, self.assumptions, self.decisions, self.rules)
        return RuleBase, (self.name, self.scopes, self.topics, *map(dict, declared), self.largest_cliff)

    @property
    def digest(self) -> str:
        """SHA-256 of what the rule base means, the same whatever its files and their order."""
        if self._digest is None:
            head = (self.name, self.scopes, self.topics, self.largest_cliff)
            self._digest = digest(head, self.facts, self.assumptions, self.decisions, self.rules)
        return self._digest

    @property
    def sources(self) -> dict[str, Source]:
        """The source of every fact, assumption, decision and rule, by id."""
        entries: tuple[Mapping[str, Fact | Assumption | Decision | Rule], ...] = (
            self.facts, self.assumptions, self.decisions, self.rules,
        )  # fmt: skip
        return {id: entry.source for kind in entries for id, entry in kind.items()}

    @cached_property
    def asked_by_questions(self) -> tuple[str, ...]:
        """The questions, shares aside, that decide whether others apply."""
        asking = [fact.ask.applies for fact in self.facts.values() if fact.ask and fact.ask.applies]
        read = {atom.fact for applies in asking for atom in atoms(applies)}
        return tuple(
            id for id, fact in self.facts.items() if id in read and fact.ask and fact.kind != "shares"
        )

    def choose(self, decision_id: str, shared: Mapping[str, View], candidates: Sequence[Candidate]) -> Choice:
        """Decide a choice. Facts found in `shared` are read there, all others from the candidate.

        Candidates come in static order: of two with equal points the earlier wins.
        """
        decision = self._decision(decision_id)
        run = Run(self.plan(decision_id), shared)
        return Choice(decision, [Standing(c, i, run.candidate(c.views)) for i, c in enumerate(candidates)])

    def counted(
        self, decision_id: str, shared: Mapping[str, View], candidates: Sequence[Candidate],
        points: Sequence[tuple[int, bool]],
    ) -> Choice:  # fmt: skip
        """Decide a choice whose points (and what is ruled out) are counted already, as `joined` counts them.

        Ledgers, silent rules and bounds are evaluated candidate by candidate, when somebody asks.
        """
        run = cache(partial(Run, self.plan(decision_id), shared))
        both = zip(candidates, points, strict=True)
        standings = [Standing(one, i, Later(run, *count)) for i, (one, count) in enumerate(both)]
        return Choice(self._decision(decision_id), standings)

    def amount(self, decision_id: str, views: Mapping[str, View]) -> Amount:
        """Decide an amount."""
        decision = self._decision(decision_id)
        return decide(decision, Run(self.plan(decision_id), views), views, self.facts, self.assumptions)

    def fast_choose(
        self, decision_id: str, shared_best: Best, candidates_best: Sequence[Best],
        ground: Ground | None = None,
    ) -> tuple[int | None, list[int | None]]:  # fmt: skip
        """Decide a choice on plain best values: the place of the pick, and all points (None: ruled out).

        None or no entry means absent. The ground holds facts that other decisions read too, and names those
        on which only an assumption stands.
        """
        self._decision(decision_id)
        points = points_of(self.plan(decision_id), shared_best, candidates_best, ground or Ground({}))
        return best_of(points), points

    def forbids(self, decision_id: str, ground: Ground) -> bool:
        """Say whether, as far as the ground's facts tell, a rule may still forbid a candidate."""
        plan = self.plan(decision_id)
        return bool(plan.rule_outs and ground.under(plan).mask & plan.rule_outs)

    def joined(self, decision_id: str, ground: Ground, own: Iterable[str]) -> Joined:
        """Return what adds up the points of candidates joined from parts, which hold the facts of `own`."""
        self._decision(decision_id)
        return Joined(self.plan(decision_id), ground, own)

    def fast_amount(self, decision_id: str, best: Best, ground: Ground | None = None) -> float:
        """Decide an amount on plain best values, those of the ground included; SI."""
        decision, ground = self._decision(decision_id), ground or Ground({})
        start = decision.start_fact
        si: Value | None = self.assumptions[decision.start_assumption or ""].value if start is None else None
        if start is not None:
            si = best.get(start, ground.best.get(start))
        if si is None:
            raise NoStart(decision)
        moved = moved_by(self.plan(decision_id), best, ground)
        return final_si(decision, thousandths(decision, cast(float, si)) + moved)

    def notices(self, scope: str, views: Mapping[str, View]) -> tuple[Notice, ...]:
        """Return the cautions and advice of a scope whose conditions hold on the best values, by id."""
        if scope not in self.scopes:
            raise UnknownName("scope", scope, self.scopes)
        run = Run(self._notice_plan(scope), views)
        at = Evaluated({}, run.candidate({}))
        return tuple(Notice(rule, at) for rule in at.spoke())

    def applies(self, fact_id: str, views: Mapping[str, View]) -> bool:
        """Return whether a fact's question applies, on the best values."""
        ask = self.facts[fact_id].ask
        if ask is None or ask.applies is None:
            return ask is not None
        truth = trace(self._notice_plan(""), ask.applies, lambda id: views.get(id, ABSENT)).truth
        return bool(truth & BEST)

    def plan(self, decision_id: str) -> Plan:
        """Return the rules of a decision laid out for evaluation."""
        found = self._plans.get(decision_id)
        if found is None:
            rules = [rule for rule in self.rules.values() if rule.decision == decision_id]
            found = self._plans[decision_id] = Plan(rules, self.facts, self.assumptions)
        return found

    def _notice_plan(self, scope: str) -> Plan:
        """Return the cautions and advice of a scope laid out."""
        key = f"notices {scope}"
        found = self._plans.get(key)
        if found is None:
            rules = [r for r in self.rules.values() if r.decision is None and r.scope == scope]
            found = self._plans[key] = Plan(rules, self.facts, self.assumptions)
        return found

    def _decision(self, id: str) -> Decision:
        """Return a decision by its id."""
        if id not in self.decisions:
            raise UnknownName("decision", id, self.decisions)
        return self.decisions[id]

    def rule(self, id: str) -> Rule:
        """Return a rule by its id."""
        if id not in self.rules:
            raise UnknownName("rule", id, self.rules)
        return self.rules[id]

    def _copy(self, changed: Collection[str], *, rules: Mapping[str, Rule] | None = None,
              assumptions: Mapping[str, Assumption] | None = None) -> RuleBase:  # fmt: skip
        """Return a copy; plans are kept except those named."""
        copy = RuleBase.__new__(RuleBase)
        copy.__dict__.update(self.__dict__)
        if rules is not None:
            copy.rules = MappingProxyType(dict(rules))
        if assumptions is not None:
            copy.assumptions = MappingProxyType(dict(assumptions))
        copy._plans = {key: plan for key, plan in self._plans.items() if key not in changed}
        copy._digest = None
        return copy

    def with_assumptions(self, values: Mapping[str, Value]) -> RuleBase:
        """Return a copy with some assumptions at other values (SI or words): for swinging them."""
        for id in values:
            if id not in self.assumptions:
                raise UnknownName("assumption", id, self.assumptions)
        swung = {id: replace(self.assumptions[id], value=value) for id, value in values.items()}
        changed = {_plan_key(rule) for rule in self.rules.values() if assumptions_of(rule) & values.keys()}
        changed.add("notices ")
        return self._copy(changed, assumptions={**self.assumptions, **swung})

    def with_rule_effect(self, rule_id: str, effect: Effect) -> RuleBase:
        """Return a copy in which a rule has another effect."""
        rule = self.rule(rule_id)
        return self._copy({_plan_key(rule)}, rules={**self.rules, rule_id: replace(rule, effect=effect)})

    def with_other_view(self, rule_id: str) -> RuleBase:
        """Return a copy in which a contested rule follows the other school: its effect, or none."""
        contested = self.rule(rule_id).contested
        if contested is None or contested.effect is None:
            return self.without(rule_id)
        return self.with_rule_effect(rule_id, contested.effect)

    def without(self, rule_id: str) -> RuleBase:
        """Return a copy without one rule."""
        rule = self.rule(rule_id)
        left = {id: other for id, other in self.rules.items() if id != rule_id}
        return self._copy({_plan_key(rule)}, rules=left)


def _plan_key(rule: Rule) -> str:
    """Return the plan to which a rule belongs."""
    return rule.decision if rule.decision is not None else f"notices {rule.scope}"
