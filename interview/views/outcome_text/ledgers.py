"""Ledgers for the fitter and the trainer: every line, the two clubs side by side."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from interview.views.decisions import PARTS, ROLES, DecisionView
from interview.views.lines import LineView
from interview.views.outcome import OutcomeView
from interview.views.outcome_text.page import Page
from interview.views.outcome_text.quantities import opened, rounded, signed
from interview.views.sources import SourceView
from rules.units import System, shown_in, unit

_UNITS = {"in": "inches", "cm": "centimetres", "points": "points from D0", "deg": "degrees"}
"""Units of amounts as a ledger names them."""
_KEPT = {
    "start": "where it starts",
    "limit": "held at the limit",
    "rounding": "rounded to the step",
}
"""Lines of an amount that are no rule's: told alike for both clubs."""


class _Row(NamedTuple):
    """One line of a ledger with its amount for each club."""

    line: LineView
    amounts: dict[str, str]
    words: str


def for_trade(view: OutcomeView, page: Page, teach: bool) -> None:
    """Write why this pair, then why each part; with `teach` what each line teaches and on whose word."""
    _pairing(view, page, teach)
    if view.clubs:
        page.heading("WHY THE CLUBS ARE BUILT SO (longer, shorter)")
        for part in PARTS:
            _part([view.decisions[f"{role}.{part}"] for role in ROLES], page, teach, view.system)


def _pairing(view: OutcomeView, page: Page, teach: bool) -> None:
    """Write the ledger of the pair."""
    decision = view.decisions["pairing"]
    if decision.score is None:
        return
    page.heading("WHY THIS PAIR (points)")
    for line in decision.because:
        if line.points or line.rule == "override":
            page.entry([signed((line.points or 0) / 1000)], _why(line), _below(line, page, teach))
    page.entry([signed(decision.score / 1000)], "in all")


def _part(both: list[DecisionView], page: Page, teach: bool, system: System) -> None:
    """Write the ledgers of one part of both clubs side by side."""
    page.gap()
    page.say(f"{opened(both[0].title)}: {_picks(both)}", indent=2)
    for row in _rows(both, system):
        columns = [row.amounts.get(one.role, "") for one in both]
        page.entry(columns, row.words, _below(row.line, page, teach))
    symbol = both[0].unit or both[1].unit
    if symbol is not None:
        shown = shown_in(symbol, system).symbol
        page.entry([_comes_to(one, system) for one in both], f"{both[0].title}, {_UNITS.get(shown, shown)}")


def _picks(both: list[DecisionView]) -> str:
    """Return what was picked for both clubs; said once where it is the same."""
    words = [one.words or "as it is" for one in both]
    return words[0] if words[0] == words[1] else f"{words[0]}; {words[1]}"


def _comes_to(one: DecisionView, system: System) -> str:
    """Return the amount that a ledger comes to."""
    return f"{_shown(one.pick, one, system):.2f}" if isinstance(one.pick, int) else ""


def _shown(amount: int, one: DecisionView, system: System) -> float:
    """Return an amount in the unit that the reader uses."""
    symbol = one.unit or ""
    return amount / 1000 * unit(symbol).factor / shown_in(symbol, system).factor


def _rows(both: list[DecisionView], system: System) -> Iterator[_Row]:
    """Yield the lines of both ledgers, what they say alike on one row; what moves nothing is left out."""
    rows: dict[tuple[str, str], _Row] = {}
    for one in both:
        for line in one.because:
            if not _counts(line):
                continue
            words = _KEPT.get(line.rule) or _why(line)
            row = rows.setdefault((line.rule, words), _Row(line, {}, words))
            row.amounts[one.role] = _moved(line, one, system)
    order = sorted(rows.values(), key=lambda row: _place(row.line))
    yield from order


def _counts(line: LineView) -> bool:
    """Return whether a line is worth its place: it moves something, starts something, or is all there is."""
    return bool(line.weight) or not line.spoken


def _place(line: LineView) -> tuple[int, int]:
    """Return where a line stands: the start, rules by weight, limit, rounding, what was set by hand."""
    order = {"start": 0, "limit": 2, "rounding": 3, "pinned": 4}
    return (order.get(line.rule, 1), -line.weight)


def _moved(line: LineView, one: DecisionView, system: System) -> str:
    """Return what a line moves, or where an amount starts."""
    if line.rule == "start":
        return f"{_shown(one.start or 0, one, system):.2f}"
    if line.points is not None:
        return signed(line.points / 1000)
    return signed(_shown(line.adjust or 0, one, system))


def _why(line: LineView) -> str:
    return rounded(line.text)


def lesson(teaches: str, source: SourceView) -> str:
    """Return what the trainer says of a rule, and on whose word."""
    return f"Teaches: {teaches} Source: {source.words}."


def _below(line: LineView, page: Page, teach: bool) -> Iterator[str]:
    """Yield what belongs under a line: the other school, and for the trainer lesson and source."""
    if not teach:
        if line.contested is not None and page.once(line.contested.says):
            yield f"Not everyone agrees: {line.contested.says}"
        return
    if line.teaches:
        yield lesson(line.teaches, line.source)
    elif line.rule == "start":
        yield f"Source: {line.source.words}."
    if line.contested is not None and page.once(line.contested.says):
        yield f"The other school: {line.contested.says}"
        yield f"Why we lean this way: {line.contested.leans}"
