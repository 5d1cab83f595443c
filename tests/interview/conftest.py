"""The house's questions, and a road that decides nothing, so that talk can be tested alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

import pytest

import rules.engine
from rules.facts.asked import applicable
from rules.fitting import fit

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.engine.language import Fact
    from rules.facts.subject import Subject
    from rules.fitting import House, Outcome

KNOWLEDGE = Path(rules.__file__).parent / "knowledge"


@pytest.fixture(scope="session")
def base() -> RuleBase:
    """The house's own rule base."""
    return rules.engine.load(KNOWLEDGE)


@pytest.fixture(scope="session")
def facts(base: RuleBase) -> Mapping[str, Fact]:
    """Its facts, the questions among them."""
    return base.facts


@pytest.fixture(scope="session")
def plain_road(base: RuleBase) -> Callable[[Subject], Outcome]:
    """A road on which every open question matters but those of the air, and pain brings up a caution."""

    def key(id: str) -> tuple[int, int, str]:
        ask = base.facts[id].ask
        assert ask is not None
        return base.topics.index(ask.topic), ask.order, id

    def fit(subject: Subject) -> Outcome:
        open_ones = sorted(applicable(base, subject.answers) - set(subject.answers), key=key)
        air = [id for id in open_ones if key(id)[0] == base.topics.index("air")]
        pain = subject.answers.get("pain")
        notices = (_pain(),) if pain is not None and pain.value == "yes" else ()
        worth = tuple(id for id in open_ones if id not in air)
        questions = SimpleNamespace(worth_asking=worth, needless=tuple(air))
        house = SimpleNamespace(base=base, shelf=SimpleNamespace(digest="none"))
        return cast(
            "Outcome",
            SimpleNamespace(
                questions=questions, notices=notices, house=house,
                pairing=None, picked=None, pairs={}, clubs=(),
            ),
        )  # fmt: skip

    return fit


def _pain() -> Any:
    return SimpleNamespace(
        kind="caution",
        topic="body",
        rule=SimpleNamespace(reads=frozenset(("pain",))),
        text=lambda system: "Stop: swinging hurts.",
    )


@pytest.fixture(scope="module")
def bare(house: House) -> House:
    """The house over a shelf without a shaft."""
    return house.with_shelf(replace(house.shelf, shafts=()))


@pytest.fixture
def nothing(bare: House, subject: Callable[..., Subject]) -> Outcome:
    """An outcome in which no pair is possible."""
    outcome = fit(bare, subject({"driver_speed": "92 mph", "handicap": 15}))
    assert outcome.picked is None
    return outcome
