"""A replay summed up as Markdown and as plain data."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from interview.text import one_line
from interview.views.numbers import in_unit, thousandths
from rules.units import words

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.fitting import House
    from rules.inquiry.replay import Case, Tally
    from rules.inquiry.roads import Picked

_MARKS = re.compile(r"([\\|<`\[])")
"""What would end a cell or begin a tag, a link or code in Markdown; a backslash before it makes it text."""
_MOST_ROWS = 200
"""Changed cases that the Markdown lists; the JSON lists all of them."""


def replay_markdown(tally: Tally, before: House, after: House) -> str:
    """Return a replay as Markdown."""
    turned = sum(case.before != case.after for case in tally.changed)
    same = tally.cases - len(tally.changed) - len(tally.unreadable)
    lines = [
        "# Replay",
        "",
        f"{tally.cases} sessions: {turned} with another pair, {len(tally.changed) - turned} with the same "
        f"pair built otherwise, {same} unchanged, {len(tally.unreadable)} that could not be read.",
        "",
        f"Rules then {before.digest[:12]}, now {after.digest[:12]}.",
    ]
    if before.digest == after.digest:
        lines.append("They are the same rules; only the catalogue or the stock can differ.")
    lines += _table("Pairs that gave way", ("from", "to", "cases"), _pairs(tally))
    lines += _table(
        "Rules behind it", ("rule", "cases"), [(r, str(n)) for r, n in tally.rules.most_common(20)]
    )
    lines += _table(
        "Parts of an unchanged pair", ("part", "times"), [(p, str(n)) for p, n in tally.parts.most_common()]
    )
    lines += _table("Cases", ("case", "from", "to", "because"), _rows(tally, after.base))
    if len(tally.changed) > _MOST_ROWS:
        lines += ["", f"{len(tally.changed) - _MOST_ROWS} more cases are in the JSON (--json)."]
    lines += _table("Could not be read", ("session", "why"), [(c.id, c.unreadable) for c in tally.unreadable])
    return "\n".join(lines)


def _pairs(tally: Tally) -> list[tuple[str, ...]]:
    found = [(old or "none", new or "none", str(n)) for (old, new), n in tally.pairs.most_common(20)]
    return [*found]


def _rows(tally: Tally, base: RuleBase) -> list[tuple[str, ...]]:
    """Return one row for each changed case."""
    rows: list[tuple[str, ...]] = []
    for case in tally.changed[:_MOST_ROWS]:
        if case.before != case.after:
            why = _because(case, "pairing")
            rows.append(
                (case.id, case.before or "none", case.after or "none", why or "another choice of clubs")
            )
        else:
            moved = [f"{id}: {_said(base, id, two[0])} -> {_said(base, id, two[1])}{_by(case, id)}"
                     for id, two in case.decisions.items()]  # fmt: skip
            rows.append((case.id, case.before or "none", "the same pair", "; ".join(moved)))
    return rows


def _by(case: Case, decision: str) -> str:
    why = _because(case, decision)
    return f" by {why}" if why else ""


def _because(case: Case, decision: str) -> str:
    """Write the rules that changed a decision, with what each moved; nothing where no rule did."""
    return ", ".join(
        one.rule if one.points is None else f"{one.rule} ({one.points / 1000:+.2f})"
        for one in case.because.get(decision, ())
    )


def _said(base: RuleBase, id: str, pick: Picked | None) -> str:
    """Write what a part comes to."""
    declared = base.decisions[id.rpartition(".")[2]]
    if isinstance(pick, float):
        return words(pick, declared.unit if declared.kind == "amount" else "in")
    return "none" if pick is None else pick


def _table(title: str, heads: tuple[str, ...], rows: list[tuple[str, ...]]) -> list[str]:
    """Return a table under its heading; nothing where there is nothing to list."""
    if not rows:
        return []
    cells = [[_MARKS.sub(r"\\\1", one_line(cell, 400)) for cell in row] for row in rows]
    return [
        "", f"## {title}", "", f"| {' | '.join(heads)} |", f"|{'---|' * len(heads)}",
        *(f"| {' | '.join(row)} |" for row in cells),
    ]  # fmt: skip


def replay_json(tally: Tally, before: House, after: House) -> dict[str, Any]:
    """Return a replay as plain data."""
    return {
        "schema": 1,
        "rules_digest": {"before": before.digest, "after": after.digest},
        "sessions": tally.cases,
        "changed": [_case(case, after.base) for case in tally.changed],
        "unreadable": [{"session": case.id, "why": case.unreadable} for case in tally.unreadable],
        "pairs": [
            {"from": old or None, "to": new or None, "cases": n}
            for (old, new), n in tally.pairs.most_common()
        ],
        "rules": dict(tally.rules.most_common()),
        "parts": dict(tally.parts.most_common()),
    }


def _case(case: Case, base: RuleBase) -> dict[str, Any]:
    """Return one changed case."""
    return {
        "session": case.id,
        "from": case.before,
        "to": case.after,
        "because": _blames(case, "pairing"),
        "decisions": [
            {"decision": id, "from": _plain(base, id, a), "to": _plain(base, id, b),
             "unit": _unit(base, id, a), "because": _blames(case, id)}
            for id, (a, b) in case.decisions.items()
        ],
    }  # fmt: skip


def _blames(case: Case, decision: str) -> list[dict[str, Any]]:
    """Return the rules that changed a decision; points are null of one that forbids a candidate."""
    return [{"rule": one.rule, "points": thousandths(one.points)} for one in case.because.get(decision, ())]


def _unit(base: RuleBase, id: str, pick: Picked | None) -> str | None:
    """Return the unit of an amount; None for a candidate."""
    if not isinstance(pick, float):
        return None
    return base.decisions[id.rpartition(".")[2]].unit or "in"


def _plain(base: RuleBase, id: str, pick: Picked | None) -> str | float | None:
    """Return what was decided, an amount in its unit."""
    symbol = _unit(base, id, pick)
    return in_unit(pick, symbol) if isinstance(pick, float) and symbol else pick
