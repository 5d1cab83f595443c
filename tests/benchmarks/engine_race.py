"""The rule engine against engines from the package index: the same rules, the same scores, one run.

60 rules of three conditions, 20 facts, 10 candidates. Ours reports three-valued truth of every
condition, bounds and a full trace; zen-engine runs with its trace (matched rows), clipspy with its own
(the text of the rules fired), durable-rules and rule-engine report the rules that matched. Peers that
are not installed are named in the table (`pip install turfpair[bench]`). CPU time, best of several
rounds in which all take turns.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import tomli_w

from rules.engine import Candidate, RuleBase, View, known, load
from tests.benchmarks import engine_peers as field

Rate = Callable[[], list[list[int]]]
FACTS: dict[str, str] = field.FACTS
SOURCE = {"kind": "common_practice"}
OURS = {"<": "below", "<=": "at_most", ">": "above", ">=": "at_least", "in": "one_of"}
ZEN = "zen-engine, decision table with its trace"
CLIPS = "clipspy, with its own trace (watch rules)"
DURABLE = "durable-rules, fired ids"
ROUNDS = 9
PLENTY = 10.0
"""Times faster than the fastest peer with a trace of its own that ours must be."""
MORE = 3.0
"""Times faster than durable-rules, which reports ids only."""


def our_base(folder: Path) -> RuleBase:
    facts = []
    for i, (id, kind) in enumerate(FACTS.items()):
        row: dict[str, Any] = {"id": id, "scope": ("subject", "candidate")[i % 2], "kind": kind}
        row |= {"range": [0, 100]} if kind == "number" else {"values": list(field.WORDS)}
        facts.append(row | {"title": id, "text": "A fact.", "source": SOURCE})
    said = {"because": "Because.", "teaches": "Teaches.", "source": SOURCE}
    rules = [
        {
            "id": r.id, "decision": "which", "scope": "candidate", "effect": {"points": r.points}, **said,
            "when": {"all": [{"fact": f, OURS[o]: list(v) if o == "in" else v} for f, o, v in r.tests]},
        }
        for r in field.RULES
    ]  # fmt: skip
    which = {"id": "which", "scope": "candidate", "order": 1, "kind": "choice", "title": "which"}
    rows = {
        "schema": 1, "name": "field", "scopes": ["subject", "candidate"], "topics": ["t"], "fact": facts,
        "decision": [which | {"text": "Which.", "source": SOURCE}], "rule": rules,
    }  # fmt: skip
    (folder / "base.toml").write_text(tomli_w.dumps(rows))
    return load(folder)


class Runner(NamedTuple):
    """One engine ready to run, and the scores it must give."""

    job: Rate
    wanted: list[list[int]]


def rates(runners: Mapping[str, Runner]) -> dict[str, float]:
    """Candidates a second, best of several rounds in which all take turns; the scores must be right."""
    best = dict.fromkeys(runners, float("inf"))
    for runner in runners.values():
        assert runner.job() == runner.wanted
    for _ in range(ROUNDS):
        for name, runner in runners.items():
            began = time.process_time()
            runner.job()
            best[name] = min(best[name], time.process_time() - began)
    count = sum(map(len, field.PLAIN))
    return {name: count / seconds for name, seconds in best.items()}


def ours(
    base: RuleBase, view: Callable[[str, Any], View], shared: Sequence[str] = (), *, expand: bool = False
) -> Runner:
    """Evaluate with bounds and trace; the facts `shared` are passed once a subject."""
    plain = [[{**p, **{f: s[0][f] for f in shared}} for p in s] for s in field.PLAIN]
    seen = [[{f: view(f, v) for f, v in p.items()} for p in s] for s in plain]
    split = [
        ({f: s[0][f] for f in shared}, [{f: v for f, v in p.items() if f not in shared} for p in s])
        for s in seen
    ]

    def job() -> list[list[int]]:
        found = []
        for together, own in split:
            choice = base.choose("which", together, [Candidate(str(i), p) for i, p in enumerate(own)])
            points = [0] * len(own)
            for standing in choice.standings:
                points[standing.place] = standing.points
                assert standing.low <= standing.high
                if expand:
                    assert all(line.conditions for line in standing.lines)
                    assert all(quiet.conditions for quiet in standing.silent)
            found.append(points)
        return found

    return Runner(job, [[1000 * points for points in subject] for subject in field.wanted(plain)])


def ours_fast(base: RuleBase) -> Runner:
    """Best values only, as sampling does."""

    def job() -> list[list[int]]:
        return [[p or 0 for p in base.fast_choose("which", {}, s)[1]] for s in field.PLAIN]

    return Runner(job, [[1000 * points for points in subject] for subject in field.WANTED])


def peers() -> dict[str, Runner | None]:
    """Every peer, None where it is not installed."""

    def ready(peer: Callable[..., Rate], *args: object) -> Runner | None:
        try:
            return Runner(peer(*args), field.WANTED)
        except pytest.skip.Exception:
            return None

    return {
        ZEN: ready(field.zen_engine, True),
        "zen-engine, decision table, no trace": ready(field.zen_engine, False),
        CLIPS: ready(field.clipspy),
        "rule-engine, matched rules": ready(field.rule_engine_py),
        DURABLE: ready(field.durable_rules),
    }


def table(found: Mapping[str, float], names: Sequence[str], ours: float) -> str:
    lines = [f"{'':<46}{'candidates/s':>14}{'ours is':>10}"]
    for name in names:
        rate = found.get(name)
        said = f"{rate:>14,.0f}{ours / rate:>9.1f}x" if rate else f"{'not installed':>14}"
        lines.append(f"{name:<46}{said}")
    return "\n".join(lines)


TRACED, IN_USE, SPELT = (
    "ours: truths, bounds, trace",
    "ours: half shared, half of those open",
    "ours: every line",
)
PARTLY, FAST = "ours: a quarter of the facts open", "ours: best values only, for sampling"


def our_runners(base: RuleBase) -> dict[str, Runner]:
    """Ours in every way it is used."""
    opened = {f: base.facts[f].widest for f in list(FACTS)[::4]}

    def told(_: str, value: Any) -> View:
        return known(value)

    def partly_open(fact: str, value: Any) -> View:
        return View(value, opened[fact], "open") if fact in opened else known(value)

    return {
        TRACED: ours(base, told),
        "ours: half of the facts shared": ours(base, told, list(FACTS)[::2]),
        IN_USE: ours(base, partly_open, list(FACTS)[::2]),
        PARTLY: ours(base, partly_open),
        SPELT: ours(base, told, expand=True),
        FAST: ours_fast(base),
    }
