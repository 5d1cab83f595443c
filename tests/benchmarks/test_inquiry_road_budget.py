"""What a road and a study cost, against flights in the same run: printed, and held only with margin.

The budget: one answer with everything recomputed takes at most the time of 200 flights, and much less when
no flight changes. CPU time, the best of several runs, so that a busy machine says the same.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace

from rules.facts.answers import Answer
from rules.facts.subject import Subject
from rules.fitting import House, brief, fit
from rules.golf.flight import Launch, fly
from rules.inquiry.draws import draws, spreads
from rules.inquiry.sky import Sky

RUNS = 7


def best(job: Callable[[int], object]) -> float:
    """Least CPU seconds of several runs; each run gets its number."""
    took = []
    for number in range(RUNS):
        start = time.process_time()
        job(number)
        took.append(time.process_time() - start)
    return min(took)


def flights(_: int) -> None:
    for step in range(200):
        fly(Launch(60 + step * 0.05, 0.22, 400.0), 1.2)


def test_one_answer_against_two_hundred_flights(house: House, subject: Callable[..., Subject]) -> None:
    who = subject({"driver_speed": "92 mph", "handicap": 15, "turf_mark": "brush", "hits_five_wood": "well"})
    winds = ("calm", "breezy", "windy")

    def every_flight(number: int) -> None:
        speed = Answer(41.0 + 0.013 * number, "measured")
        fit(house, replace(who, answers={**who.answers, "driver_speed": speed}))

    def no_flight(number: int) -> None:
        fit(house, replace(who, answers={**who.answers, "wind": Answer(winds[number % 3])}))

    fit(house, who)
    peer, full, light = best(flights), best(every_flight), best(no_flight)
    print(
        f"\n200 flights {peer * 1e3:.1f} ms; an answer that moves every flight {full * 1e3:.1f} ms "
        f"(x{full / peer:.2f}); one that moves none {light * 1e3:.1f} ms (x{light / peer:.2f})"
    )
    assert light < peer


def test_a_drawn_road_is_cheaper_than_a_traced_one(house: House, subject: Callable[..., Subject]) -> None:
    outcome = fit(house, subject({"driver_speed": "92 mph", "handicap": 15}))
    sky, endless = Sky(outcome.golfer.density, rounded=True), draws(spreads(outcome))
    from rules.inquiry.roads import with_answers

    def drawn(_: int) -> None:
        for _ in range(8):
            one = next(endless)
            brief(house, with_answers(outcome.subject, one.answers), sky, one.shift)

    def traced(number: int) -> None:
        fit(house, replace(outcome.subject, answers={"driver_speed": Answer(40.0 + 0.017 * number)}))

    quick, full = best(drawn) / 8, best(traced)
    print(f"\na drawn road {quick * 1e3:.1f} ms, a traced one {full * 1e3:.1f} ms: x{full / quick:.2f}")
    assert quick < full
