"""What a road and a study cost, against flights in the same run: printed, and held only with margin.

The budget: one answer with everything recomputed takes at most the time of 200 flights, and much less when
no flight changes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from rules.facts.answers import Answer
from rules.facts.subject import Subject
from rules.fitting import House, brief, fit
from rules.inquiry.draws import draws, spreads
from rules.inquiry.roads import with_answers
from rules.inquiry.sky import Sky
from tests.benchmarks.road_times import answer_times, best

MARGIN = 1.25
"""A busy machine slows what reads much memory more than what flies; the table of budgets has none."""


def test_one_answer_against_two_hundred_flights(house: House) -> None:
    found = answer_times(house, 15)
    print(
        f"\n200 flights {found.peer * 1e3:.1f} ms; an answer that moves all {found.full * 1e3:.1f} ms "
        f"(x{found.full / found.peer:.2f}); one that moves none {found.light * 1e3:.1f} ms"
    )
    assert found.full < MARGIN * found.peer
    assert found.light < 0.6 * found.peer


def test_a_drawn_road_is_cheaper_than_a_traced_one(house: House, subject: Callable[..., Subject]) -> None:
    outcome = fit(house, subject({"driver_speed": "92 mph", "handicap": 15}))
    sky, endless = Sky(outcome.golfer.density, rounded=True), draws(spreads(outcome))

    def drawn(_: int) -> None:
        for _ in range(8):
            one = next(endless)
            brief(house, with_answers(outcome.subject, one.answers), sky, one.shift)

    def traced(number: int) -> None:
        fit(house, replace(outcome.subject, answers={"driver_speed": Answer(40.0 + 0.017 * number)}))

    quick, full = best(drawn) / 8, best(traced)
    print(f"\na drawn road {quick * 1e3:.1f} ms, a traced one {full * 1e3:.1f} ms: x{full / quick:.2f}")
    assert quick < full
