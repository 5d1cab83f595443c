"""Random rule bases, and random subjects for them."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

import tomli_w

from rules.engine import Candidate, RuleBase, View, load
from rules.engine.language import Fact
from rules.engine.views import Value
from rules.engine.writer import assumption_row, decision_row, fact_row, rule_row

SOURCE = {"kind": "common_practice"}
UNITS = ("", "mm", "degC", "%", "mph", "g")
WORDS = ("oak", "elm", "ash", "yew", "fir")
SCOPES = ("plot", "tree")


def written(base: RuleBase) -> dict[str, Any]:
    """Write a whole rule base back as the rows from which it could be loaded."""
    rows: dict[str, Any] = {
        "schema": 1, "name": base.name, "scopes": list(base.scopes), "topics": list(base.topics),
        "assumption": [assumption_row(one) for one in base.assumptions.values()],
        "fact": [fact_row(one, base) for one in base.facts.values() if one.part_of is None],
        "decision": [decision_row(one, base) for one in base.decisions.values()],
        "rule": [rule_row(one, base) for one in base.rules.values()],
    }  # fmt: skip
    if base.largest_cliff is not None:
        rows["largest_cliff"] = base.largest_cliff / 1000
    return {key: row for key, row in rows.items() if row}


def load_rows(rows: Mapping[str, Any], folder: Path | None = None) -> RuleBase:
    """Load a rule base from plain data."""
    if folder is not None:
        (folder / "base.toml").write_text(tomli_w.dumps(rows), encoding="utf-8")
        return load(folder)
    with tempfile.TemporaryDirectory() as place:
        return load_rows(rows, Path(place))


class Maker:
    """Makes the rows of one random rule base."""

    def __init__(self, rng: Random, *, rules: int = 12, facts: int = 8) -> None:
        self.rng = rng
        self.facts: dict[str, dict[str, Any]] = {}
        self.assumptions: list[dict[str, Any]] = []
        for i in range(facts):
            self.fact(f"f{i}")
        self.rules = [self.rule(f"r{i}") for i in range(rng.randint(1, rules))]

    def rows(self) -> dict[str, Any]:
        """Return the whole base."""
        said = {"title": "a title", "text": "A text.", "source": SOURCE}
        which = {"id": "which", "scope": "tree", "order": 1, "kind": "choice", **said}
        gap = {
            "id": "gap", "scope": "tree", "order": 2, "kind": "amount", "unit": "mm",
            "start": {"assumption": "a-gap"}, "limits": ["-60 mm", "160 mm"], "step": "2.5 mm",
            "materiality": "5 mm", **said,
        }  # fmt: skip
        start = {
            "id": "a-gap", "value": "50 mm", "range": ["10 mm", "90 mm"], "unit": "mm",
            "text": "A text.", "source": SOURCE,
        }  # fmt: skip
        return {
            "schema": 1, "name": "random", "scopes": list(SCOPES), "topics": ["ground", "use"],
            "assumption": [start, *self.assumptions], "fact": list(self.facts.values()),
            "decision": [which, gap], "rule": self.rules,
        }  # fmt: skip

    def fact(self, id: str) -> None:
        """Add a random fact."""
        rng = self.rng
        kind = rng.choice(("number", "number", "choice", "set"))
        row: dict[str, Any] = {
            "id": id, "scope": rng.choice(SCOPES), "kind": kind, "title": "a title", "text": "A text.",
            "source": SOURCE,
        }  # fmt: skip
        if kind == "number":
            row |= {"unit": rng.choice(UNITS), "range": [rng.choice((-40, 0)), rng.choice((40, 100))]}
        else:
            row["values"] = list(WORDS[: rng.randint(2, 5)])
        if rng.random() < 0.5:
            row["ask"] = {"topic": rng.choice(("ground", "use")), "order": rng.randint(0, 9)}
            if rng.random() < 0.3 and self.facts:
                other = self.facts[rng.choice(list(self.facts))]
                if other["scope"] == "plot" or row["scope"] == "tree":
                    row["ask"]["applies"] = self.atom(other)
        if rng.random() < 0.4:
            row["fallback"] = f"a-{id}"
            self.assumptions.append(self.assumption(f"a-{id}", row))
        self.facts[id] = row

    def assumption(self, id: str, fact: dict[str, Any]) -> dict[str, Any]:
        """Return an assumption that can stand in for a fact."""
        row: dict[str, Any] = {"id": id, "text": "A text.", "source": SOURCE}
        if fact["kind"] == "number":
            low, high = fact["range"]
            return row | {
                "value": self.rng.choice((low + 4, high - 4)),
                "range": [low, high],
                "unit": fact["unit"],
            }
        value: Any = self.rng.choice(fact["values"])
        return row | {"value": [value] if fact["kind"] == "set" else value, "values": fact["values"]}

    def number(self, fact: dict[str, Any]) -> str:
        """Return a threshold as typed; from a coarse grid, so that values meet it exactly."""
        low, high = fact["range"]
        return f"{low + (high - low) * self.rng.randint(0, 8) / 8:g} {fact['unit']}".strip()

    def atom(self, fact: dict[str, Any]) -> dict[str, Any]:
        """Return one comparison with a fact."""
        rng = self.rng
        if rng.random() < 0.15:
            return {"fact": fact["id"], rng.choice(("known", "unknown")): True}
        if fact["kind"] != "number":
            op = rng.choice(("is", "is_not", "one_of"))
            words = fact["values"]
            return {"fact": fact["id"], op: rng.sample(words, 2) if op == "one_of" else rng.choice(words)}
        op = rng.choice(("is", "is_not", "below", "at_most", "above", "at_least", "between"))
        if op == "between":
            ends = sorted((self.number(fact), self.number(fact)), key=lambda text: float(text.split()[0]))
            return {"fact": fact["id"], op: ends}
        if op in ("below", "above") and "fallback" in fact and rng.random() < 0.3:
            return {"fact": fact["id"], op: {"assumption": fact["fallback"]}}
        return {"fact": fact["id"], op: self.number(fact)}

    def condition(self, depth: int = 0) -> dict[str, Any]:
        """Return a random condition."""
        rng = self.rng
        if depth == 2 or rng.random() < 0.45:
            return self.atom(self.facts[rng.choice(list(self.facts))])
        parts = [self.condition(depth + 1) for _ in range(rng.randint(1, 3))]
        return {rng.choice(("all", "all", "any", "none")): parts}

    def ramp(self, unit: str) -> dict[str, Any] | None:
        """Return a ramp on some number, or nothing where there is none."""
        rng = self.rng
        numbers = [fact for fact in self.facts.values() if fact["kind"] == "number"]
        if not numbers:
            return None
        fact = rng.choice(numbers)
        low, high = fact["range"]
        steps = sorted(rng.sample(range(9), rng.randint(2, 4)))
        xs = [f"{low + (high - low) * step / 8:g} {fact['unit']}".strip() for step in steps]
        return {"from": fact["id"], "at": [[x, self.result(unit)] for x in xs]}

    def result(self, unit: str) -> object:
        """Return points, or an adjustment."""
        number = self.rng.randint(-24, 24) / 4
        return number if not unit else f"{number} {unit}"

    def rule(self, id: str) -> dict[str, Any]:
        """Return a random rule."""
        rng = self.rng
        row: dict[str, Any] = {
            "id": id,
            "scope": "tree",
            "because": "Because.",
            "teaches": "Teaches.",
            "source": SOURCE,
        }
        if rng.random() < 0.9:
            row["when"] = self.condition()
        part = rng.random()
        if part < 0.1:
            return row | {"effect": {rng.choice(("caution", "advise")): "fit"}}
        kind, unit = ("adjust", "mm") if part < 0.35 else ("points", "")
        row["decision"] = "gap" if unit else "which"
        if not unit and rng.random() < 0.08:
            return row | {"effect": {"rule_out": True}}
        ramp = self.ramp(unit) if rng.random() < 0.4 else None
        return row | {"effect": {kind: ramp or self.result(unit)}}


@dataclass(frozen=True)
class World:
    """A random rule base with a subject for it."""

    base: RuleBase
    rows: dict[str, Any]
    shared: dict[str, View]
    candidates: list[Candidate]
    rng: Random

    def all_views(self, candidate: Candidate) -> dict[str, View]:
        """Return everything that a candidate's evaluation can read."""
        return {**candidate.views, **self.shared}


def world(rng: Random, *, open_share: float = 0.3, rules: int = 12, candidates: int = 4) -> World:
    """Return a random world."""
    rows = Maker(rng, rules=rules).rows()
    base = load_rows(rows)
    shared_ids = {id for id, fact in base.facts.items() if fact.scope == "plot" or rng.random() < 0.2}
    shared = {id: view(rng, base, base.facts[id], open_share) for id in sorted(shared_ids)}
    made = []
    for i in range(rng.randint(1, candidates)):
        own = [fact for id, fact in sorted(base.facts.items()) if id not in shared_ids]
        made.append(
            Candidate(f"c{i}", {f.id: view(rng, base, f, open_share) for f in own if rng.random() < 0.95})
        )
    return World(base, rows, shared, made, rng)


def value(rng: Random, fact: Fact) -> Value:
    """Return a random value of a fact; numbers often from the grid of the thresholds."""
    if fact.kind == "number":
        low, high = fact.range
        share = rng.randint(0, 8) / 8 if rng.random() < 0.4 else rng.random()
        return low + (high - low) * share
    if fact.kind == "choice":
        return rng.choice(fact.values)
    return frozenset(rng.sample(fact.values, rng.randint(0, len(fact.values))))


def view(rng: Random, base: RuleBase, fact: Fact, open_share: float) -> View:
    """Return a random view of a fact: known, assumed, absent or open."""
    best: Value | None = value(rng, fact)
    if rng.random() < open_share:
        could_be = _around(rng, fact, best)
        if fact.fallback is None and rng.random() < 0.5:
            return View(None, could_be, "open", "assumed")
        return View(best, could_be, "open", rng.choice(("assumed", "derived")))
    part = rng.random()
    if part < 0.12:
        return View(None, None, "unknown", "assumed")
    if part < 0.3:
        return View(best, fact.point(best) if best is not None else None, "unknown", "assumed")
    return View(best, fact.point(best) if best is not None else None, "known", "said")


def _around(rng: Random, fact: Fact, best: Any) -> Any:
    """Return what an open fact could be; its best value among it."""
    if rng.random() < 0.3:
        return fact.widest
    if fact.kind == "number":
        other = value(rng, fact)
        return (min(best, other), max(best, other))
    if fact.kind == "choice":
        return frozenset((best, *rng.sample(fact.values, rng.randint(0, len(fact.values)))))
    must = frozenset(word for word in best if rng.random() < 0.5)
    return (must, best | frozenset(rng.sample(fact.values, rng.randint(0, len(fact.values)))))


def answered(rng: Random, fact: Fact, open_view: View) -> View:
    """Return an open view closed: by an answer it permits, or by "I don't know" where nothing stands in."""
    could_be: Any = open_view.could_be
    gone = fact.ask is not None and fact.ask.applies is not None
    if (open_view.best is None or gone) and rng.random() < 0.3:
        return View(None, None, "unknown", "assumed")
    if fact.kind == "number":
        low, high = could_be
        told: Value = rng.choice((low, high, low + (high - low) * rng.random()))
    elif fact.kind == "choice":
        told = rng.choice(sorted(could_be))
    else:
        must, may = could_be
        told = frozenset(word for word in may if word in must or rng.random() < 0.5)
    if rng.random() < 0.3:
        return View(told, fact.point(told), "unknown", "assumed")
    return View(told, fact.point(told), "known", "said")


def completed(rng: Random, base: RuleBase, views: Mapping[str, View], share: float = 1.0) -> dict[str, View]:
    """Return views with open ones closed, all of them or a share."""
    return {
        id: answered(rng, base.facts[id], v) if v.status == "open" and rng.random() < share else v
        for id, v in views.items()
    }
