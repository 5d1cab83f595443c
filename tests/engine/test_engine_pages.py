"""Whole pages that the engine writes, beside pages that a person has read.

`tests/golden.py` tells how one is written anew.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
import tomli_w

from rules.engine import ABSENT, Candidate, RuleBase, View, assumed, known, load
from rules.engine.aloud import atom_words, read_aloud
from rules.engine.audit import audit
from rules.engine.completions import completions, order, strata
from rules.engine.language import atoms
from tests import golden

HERE = Path(__file__).parent
PLACES = ("garden", "audited", "orchard")


def held(name: str, page: str) -> None:
    """Hold a page against the one that was read."""
    golden.held(HERE / "pages" / name, page)


@pytest.fixture(scope="module")
def bases() -> dict[str, RuleBase]:
    return {place: load(HERE / place) for place in PLACES}


@pytest.mark.parametrize("place", PLACES)
def test_everything_is_read_aloud_as_it_was_read(bases: dict[str, RuleBase], place: str) -> None:
    base = bases[place]
    ids = (*base.rules, *base.facts, *base.assumptions, *base.decisions)
    page = [read_aloud(base, id) for id in ids]
    page += [read_aloud(base, id, "metric") for id in (*base.rules, *base.assumptions, *base.decisions)]
    held(f"{place}_aloud.txt", "\n\n".join(page) + "\n")


@pytest.mark.parametrize("place", PLACES)
def test_entries_are_written_as_they_were_read(bases: dict[str, RuleBase], place: str, worlds: Any) -> None:
    page = tomli_w.dumps(worlds.written(bases[place]))
    held(f"{place}_written.toml", page)
    again = worlds.load_rows(tomllib.loads(page))
    assert again.digest == bases[place].digest
    assert (again.facts, again.rules) == (bases[place].facts, bases[place].rules)


def test_findings_are_told_as_they_were_read(bases: dict[str, RuleBase]) -> None:
    page = []
    for finding in audit(bases["audited"]):
        shown = {} if finding.witness is None else dict(sorted(finding.witness.items()))
        page.append(f"{finding.code}: {finding}\n    {', '.join(finding.ids)}\n    {_plain(shown)}\n")
    held("audited_findings.txt", "".join(page))


def _plain(shown: dict[str, Any]) -> str:
    return ", ".join(
        f"{id} {'+'.join(sorted(value)) if isinstance(value, frozenset) else value}"
        for id, value in shown.items()
    )


def test_a_meaning_has_its_name_for_good(bases: dict[str, RuleBase]) -> None:
    """Sessions carry the digest: another name for the same meaning would say that the rules changed."""
    held("digests.txt", "".join(f"{place} {base.digest}\n" for place, base in bases.items()))


def test_one_comparison_is_read_aloud_alone(bases: dict[str, RuleBase]) -> None:
    base = bases["orchard"]
    said = {atom_words(base, atom) for rule in base.rules.values() for atom in atoms(rule.when)}
    aloud = "\n".join(read_aloud(base, id) for id in base.rules)
    assert said
    assert all(words in aloud for words in said)


def test_the_same_completions_in_every_run(bases: dict[str, RuleBase]) -> None:
    """What is sampled must not change from one machine or day to the next."""
    facts = [fact for fact in bases["orchard"].facts.values() if fact.ask is not None]
    rows = []
    for one in completions(facts, 24):
        told = {
            id: "+".join(sorted(value)) if isinstance(value, frozenset)
            else f"{value:.9g}" if isinstance(value, float)
            else ", ".join(f"{word} {share:.9f}" for word, share in value.items()) if isinstance(value, dict)
            else value
            for id, value in one.items()
        }  # fmt: skip
        rows.append("; ".join(f"{id}: {said}" for id, said in told.items()) + "\n")
    held("orchard_completions.txt", "".join(rows))
    held("orders.txt", f"{order('rain', 40)}\n{order('', 3)}\n{order('x', 1)}\n{strata('rain', 4)}\n")
    assert len(completions(facts)) == 64


SHARED: dict[str, View] = {
    "rain": known(0.65), "warmth": assumed(282.65, open=False), "slope": known("flat_ground"),
    "tools": known(frozenset(("spade",))), "hands": known(4.0), "yield.apples": known(0.4),
    "yield.late_pears": known(0.6),
}  # fmt: skip
OPEN: dict[str, View] = {
    **SHARED,
    "rain": View(0.65, (0.4, 1.2), "open", "assumed"),
    "slope": View("flat_ground", frozenset(("flat_ground", "steep")), "open", "assumed"),
    "tools": View(frozenset(), (frozenset(), frozenset(("saw", "spade"))), "open", "assumed"),
    "hands": ABSENT,
}


@pytest.mark.parametrize("name", ["told", "open"])
def test_a_ledger_is_written_as_it_was_read(bases: dict[str, RuleBase], name: str) -> None:
    """Lines, rules that were silent and what kept them so, bounds and spans: a choice and two amounts."""
    base, shared = bases["orchard"], SHARED if name == "told" else OPEN
    trees = [
        Candidate("thin", {"girth": known(0.04)}), Candidate("stout", {"girth": known(0.1)}),
        Candidate("unsure", {"girth": View(0.2, (0.06, 0.35), "open", "derived")}), Candidate("bare", {}),
    ]  # fmt: skip
    choice = base.choose("stock", shared, trees)
    page = [f"settled {choice.settled}, margin {choice.margin}"]
    for standing in choice.standings:
        page.append(f"{standing!r} of place {standing.place}, {standing.low} to {standing.high}")
        page += [f"  {line!r}: {line.text()} | {line.teaches('metric')}" for line in standing.lines]
        page += [f"  out: {line!r}: {line.text('metric')}" for line in standing.ruled_out]
        for quiet in standing.silent:
            kept = [f"{told.fact} {told.best}, {told.could}" for told in quiet.blockers]
            page.append(f"  silent {quiet.rule.id}: {'; '.join(kept)}")
    for id, views in (("hole", {**shared, "girth": known(0.1)}), ("soak", shared)):
        amount = base.amount(id, views)
        page.append(f"{id} {amount.start} {amount.pick} {amount.low} {amount.high} {amount.settled}")
        page += [f"  {line!r}: {line.text('metric')}" for line in amount.lines]
        page += [f"  silent {quiet.rule.id}" for quiet in amount.silent]
    for scope in base.scopes:
        for told in base.notices(scope, {**shared, "warmth": known(287.15)}):
            page.append(f"{told.kind} {told.topic}: {told.text()} | {told.text('metric')}")
    held(f"orchard_{name}.txt", "\n".join(page) + "\n")
