"""The field of the engine benchmark: sixty rules, their subjects, and the peers that evaluate them."""

from __future__ import annotations

import json
import operator
from collections.abc import Callable
from random import Random
from typing import Any, NamedTuple

import pytest

Plain = dict[str, float | str]
WORDS = ("red", "green", "blue", "grey")
FACTS = {**{f"n{i}": "number" for i in range(12)}, **{f"w{i}": "choice" for i in range(8)}}
HOLDS: dict[str, Callable[[Any, Any], bool]] = {
    "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge, "in": lambda a, b: a in b,
}  # fmt: skip


class Row(NamedTuple):
    """One rule, for every engine alike."""

    id: str
    tests: tuple[tuple[str, str, Any], ...]
    points: int


def make_rules(rng: Random) -> list[Row]:
    rules = []
    for i in range(60):
        tests: list[tuple[str, str, Any]] = []
        for fact in rng.sample(list(FACTS), 3):
            if FACTS[fact] == "number":
                tests.append((fact, rng.choice(("<", "<=", ">", ">=")), rng.randint(20, 80)))
            else:
                tests.append((fact, "in", tuple(rng.sample(WORDS, 2))))
        rules.append(Row(f"r{i}", tuple(tests), rng.randint(1, 9)))
    return rules


def make_plain(rng: Random) -> Plain:
    return {f: rng.uniform(0, 100) if k == "number" else rng.choice(WORDS) for f, k in FACTS.items()}


RULES = make_rules(Random(1))
PLAIN = [[make_plain(Random(100 * s + c)) for c in range(10)] for s in range(12)]
"""Subjects of ten candidates each."""


def wanted(subjects: list[list[Plain]]) -> list[list[int]]:
    """The right scores."""
    return [
        [sum(r.points for r in RULES if all(HOLDS[o](p[f], v) for f, o, v in r.tests)) for p in subject]
        for subject in subjects
    ]


WANTED = wanted(PLAIN)


Rate = Callable[[], list[list[int]]]


def each(evaluate: Callable[[Plain], int]) -> Rate:
    return lambda: [[evaluate(plain) for plain in subject] for subject in PLAIN]


def zen_engine(trace: bool) -> Rate:
    zen = pytest.importorskip("zen")

    def cell(op: str, value: Any) -> str:
        return f"{op} {value}" if op != "in" else f"in [{', '.join(json.dumps(w) for w in value)}]"

    rows = []
    for rule in RULES:
        row = {"_id": rule.id, "p": str(rule.points), **dict.fromkeys(FACTS, "")}
        rows.append(row | {fact: cell(op, value) for fact, op, value in rule.tests})
    table = {
        "hitPolicy": "collect", "rules": rows, "inputs": [{"id": f, "name": f, "field": f} for f in FACTS],
        "outputs": [{"id": "p", "name": "p", "field": "p"}],
    }  # fmt: skip
    place = {"x": 0, "y": 0}
    nodes = [
        {"id": "in", "type": "inputNode", "name": "in", "position": place},
        {"id": "t", "type": "decisionTableNode", "name": "t", "position": place, "content": table},
        {"id": "out", "type": "outputNode", "name": "out", "position": place},
    ]
    edges = [
        {"id": a + b, "sourceId": a, "targetId": b, "type": "edge"} for a, b in (("in", "t"), ("t", "out"))
    ]
    decision = zen.ZenEngine().create_decision(json.dumps({"nodes": nodes, "edges": edges}))
    options = {"trace": True} if trace else {}
    return each(lambda plain: sum(row["p"] for row in decision.evaluate(plain, options)["result"]))


def clipspy() -> Rate:
    """With its own trace: `watch rules`, the text kept."""
    clips = pytest.importorskip("clips")
    text: list[str] = []

    class Kept(clips.Router):  # type: ignore[misc, name-defined]
        def __init__(self) -> None:
            super().__init__("kept", 50)

        def query(self, name: str) -> bool:
            return name == "stdout"

        def write(self, _: str, message: str) -> None:
            text.append(message)

    env = clips.Environment()
    env.add_router(Kept())
    env.build(f"(deftemplate subject {' '.join(f'(slot {f})' for f in FACTS)})")
    env.build("(defglobal ?*score* = 0)")
    for rule in RULES:
        tests = " ".join(
            f"({f} {'|'.join(v)})" if op == "in" else f"({f} ?{f}&:({op} ?{f} {v}))"
            for f, op, v in rule.tests
        )
        then = f"(bind ?*score* (+ ?*score* {rule.points}))"
        env.build(f"(defrule {rule.id} (subject {tests}) => {then})")
    env.eval("(watch rules)")
    template = env.find_template("subject")

    def evaluate(plain: Plain) -> int:
        text.clear()
        env.reset()
        template.assert_fact(**{k: clips.Symbol(v) if isinstance(v, str) else v for k, v in plain.items()})
        env.run()
        return int(env.find_global("score").value) if text else 0

    return each(evaluate)


def rule_engine_py() -> Rate:
    peer = pytest.importorskip("rule_engine")

    def said(fact: str, op: str, value: Any) -> str:
        either = " or ".join(f'{fact} == "{word}"' for word in value) if op == "in" else ""
        return f"({either})" if either else f"{fact} {op} {value}"

    made = [(peer.Rule(" and ".join(said(*test) for test in rule.tests)), rule.points) for rule in RULES]
    return each(lambda plain: sum(points for rule, points in made if rule.matches(plain)))


def durable_rules() -> Rate:
    lang = pytest.importorskip("durable.lang")
    engine = pytest.importorskip("durable.engine")
    fired: list[int] = []
    count = iter(range(10**9))

    def said(fact: str, op: str, value: Any) -> Any:
        seen = getattr(lang.m, fact)
        if op == "in":
            return (seen == value[0]) | (seen == value[1])
        return HOLDS[op](seen, value)

    def action(points: int) -> Callable[[Any], None]:
        def act(_: Any) -> None:
            fired.append(points)

        return act

    with lang.ruleset("field"):
        for rule in RULES:
            first, second, third = (said(*test) for test in rule.tests)
            lang.when_all(first & second & third)(action(rule.points))

    def evaluate(plain: Plain) -> int:
        fired.clear()
        fact = {**plain, "id": next(count)}
        try:
            lang.assert_fact("field", fact)
        except engine.MessageNotHandledException:
            return 0
        lang.retract_fact("field", fact)
        return sum(fired)

    return each(evaluate)
