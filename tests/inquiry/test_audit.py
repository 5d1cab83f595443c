"""What a run decided, kept small; and what other rules, answers or shelves make of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from rules.engine.document import read_toml
from rules.engine.ledger import Amount
from rules.facts.reading import read_subject
from rules.fitting import House, Outcome, fit, load_house
from rules.inquiry.audit import DECISIONS, Decided, decided, moved, otherwise
from rules.inquiry.blame import Blame, blamed
from rules.inquiry.ledgers import ledger, picked_of
from rules.inquiry.replay import replayed

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
NAMES = ("fast-and-centred", "his-wood-to-shorten", "fitter-overrides-length", "hates-hybrids")
LENGTH = "standard-of-play-sets-length"


def sample(house: House, name: str) -> Outcome:
    return fit(house, read_subject(house.base.facts, read_toml(SAMPLES / f"{name}.toml").data))


@pytest.mark.parametrize("name", NAMES)
def test_what_is_kept_is_what_was_decided_and_adds_up_to_it(house: House, name: str) -> None:
    outcome = sample(house, name)
    kept = decided(outcome)
    assert list(kept.picks) == [id for id in DECISIONS if id in kept.spoke]
    for id, pick in kept.picks.items():
        found = ledger(outcome, id)
        assert found is not None
        if isinstance(found, Amount):
            assert float(pick.split()[0]) == pytest.approx(found.pick / 1000)
            assert sum(kept.spoke[id].values()) == pytest.approx(found.pick / 1000, abs=1e-9)
        else:
            assert pick == picked_of(outcome, id, found)
            standing = found.standing(pick)
            assert standing is not None
            assert sum(kept.spoke[id].values()) == pytest.approx(standing.points / 1000, abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_the_same_run_moves_nothing(house: House, name: str) -> None:
    outcome = sample(house, name)
    kept = decided(outcome)
    assert moved(kept, outcome) == ()
    assert all(otherwise(kept, outcome, id) == () for id in DECISIONS)


def test_other_rules_say_from_what_to_what_and_which_rule_is_gone(house: House) -> None:
    kept = decided(sample(house, "hates-hybrids"))
    found = moved(kept, sample(House(house.base.without(LENGTH), house.shelf), "hates-hybrids"))
    assert [one.decision for one in found] == ["longer.length", "shorter.length"]
    for one in found:
        assert one.before == kept.picks[one.decision] != one.after
        assert one.rules[0].rule == LENGTH
        assert one.rules[0].now is None
        assert one.rules[0].then == kept.spoke[one.decision][LENGTH]


def test_another_pair_names_rules_for_the_pair_alone(house: House) -> None:
    kept = decided(sample(house, "hates-hybrids"))
    base = house.base.without("misses-want-loft")
    found = moved(kept, sample(House(base, house.shelf), "hates-hybrids"))
    assert found[0].decision == "pairing"
    assert [said.rule for said in found[0].rules] == ["misses-want-loft"]
    assert all(one.rules == () for one in found[1:])


def test_a_candidate_that_is_no_more_is_told(house: House, fitted: Callable[..., Outcome]) -> None:
    kept = decided(sample(house, "fast-and-centred"))
    gone = replace(kept, picks={**kept.picks, "pairing": "fairway-1+fairway-2", "longer.grip": "reed-1"})
    told = {one.decision: one for one in moved(gone, sample(house, "fast-and-centred"))}
    assert told["pairing"].gone
    assert told["pairing"].rules == ()
    nothing = moved(Decided(), fitted({}))
    assert [one.before for one in nothing] == [None] * len(nothing)
    assert not any(one.gone for one in nothing)


def test_rules_are_blamed_for_what_they_moved(house: House) -> None:
    before = sample(house, "hates-hybrids")
    after = sample(House(house.base.without(LENGTH), house.shelf), "hates-hybrids")
    for id in ("longer.length", "shorter.length"):
        then, now = ledger(before, id), ledger(after, id)
        assert isinstance(then, Amount)
        assert isinstance(now, Amount)
        gave = next(line.adjust for line in then.lines if line.rule and line.rule.id == LENGTH)
        assert blamed(before, after, id)[0] == Blame(LENGTH, -gave)
        assert blamed(after, before, id)[0] == Blame(LENGTH, gave)
    assert blamed(before, before, "pairing") == ()


def test_a_replay_names_the_rules_behind_a_part(house: House) -> None:
    after = House(house.base.without("scattered-strikes-shorten"), house.shelf)
    who = sample(house, "fitter-overrides-length").subject
    case = replayed(house, after, "x", who, who)
    assert set(case.because) == set(case.decisions) >= {"longer.length", "shorter.length"}
    for id in ("longer.length", "shorter.length"):
        assert case.because[id][0] == Blame("scattered-strikes-shorten", 500)


FORBIDS = """
[[rule]]
id = "no-two-woods"
decision = "pairing"
scope = "pair"
when.all = [{ fact = "pair_types", is = "two_fairway_woods" }]
effect = { rule_out = true }
because = "Two fairway woods are not sold here."
teaches = "Ask what is sold."
source = { kind = "common_practice" }
"""


def test_a_rule_that_forbids_is_blamed_without_points(house: House, tmp_path: Path) -> None:
    (tmp_path / "base.toml").write_text("schema = 1\n", encoding="utf-8")
    (tmp_path / "forbids.toml").write_text(FORBIDS, encoding="utf-8")
    before, after = (sample(one, "fast-and-centred") for one in (house, load_house(tmp_path)))
    assert blamed(before, after, "pairing")[0] == Blame("no-two-woods", None)
    assert blamed(after, before, "pairing")[0] == Blame("no-two-woods", None)
    assert moved(decided(before), after)[0].gone
