"""What a road and a study cost: CPU time, the best of several runs, so that a busy machine says the same."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from interview.session import load
from interview.views.bay.firm import firmness
from rules.facts.answers import Answer
from rules.facts.reading import read_subject
from rules.facts.subject import Subject
from rules.fitting import House, fit
from rules.golf.flight import Launch, fly
from rules.inquiry.sky import surface
from rules.inquiry.study import Study, study

RUNS = 7
SAMPLES = Path(__file__).parents[2] / "sample_sessions"
GOLFER = {"driver_speed": "92 mph", "handicap": 15, "turf_mark": "brush", "hits_five_wood": "well"}


def best(job: Callable[[int], object], runs: int = RUNS) -> float:
    """Least CPU seconds of several runs; each run gets its number."""
    took = []
    for number in range(runs):
        start = time.process_time()
        job(number)
        took.append(time.process_time() - start)
    return min(took)


def flights(number: int) -> None:
    """Two hundred flights, other ones in each run."""
    for step in range(200):
        fly(Launch(60 + step * 0.05 + number * 0.001, 0.22, 400.0), 1.2)


@dataclass(frozen=True, slots=True)
class Answers:
    """CPU seconds of two hundred flights, of an answer that moves all flights, and of one that moves none."""

    peer: float
    full: float
    light: float


def answer_times(house: House, runs: int = RUNS) -> Answers:
    """Time one answer with everything recomputed. Speeds never come back: what is kept would flatter."""
    who = read_subject(house.base.facts, {"answers": GOLFER})
    winds = ("calm", "breezy", "windy")

    def every_flight(number: int) -> None:
        speed = Answer(41.0 + 0.013 * number, "measured")
        fit(house, replace(who, answers={**who.answers, "driver_speed": speed}))

    def no_flight(number: int) -> None:
        fit(house, replace(who, answers={**who.answers, "wind": Answer(winds[number % 3])}))

    fit(house, who)
    return Answers(best(flights, runs), best(every_flight, runs), best(no_flight, runs))


def sample(house: House, name: str) -> Subject:
    """Read a sample session."""
    return load(SAMPLES / f"{name}.toml", house.base.facts).subject


def fresh(house: House) -> House:
    """A house in which no road has been run yet, under a sky in which nothing was flown."""
    surface.cache_clear()
    return House(house.base, house.shelf)


def first_sure(house: House, name: str) -> float:
    """CPU seconds from an outcome to the first `sure` that the bay shows."""
    outcome = fit(fresh(house), sample(house, name))
    start = time.process_time()
    next(firm for firm in firmness(outcome, lambda: False) if firm.sure is not None)
    return time.process_time() - start


def whole_study(house: House, name: str, *, both_cores: bool = False) -> float:
    """Seconds of a whole study: CPU on one core, or on the clock where two share the work."""
    outcome = fit(fresh(house), sample(house, name))
    clock = time.perf_counter if both_cores else time.process_time
    start = clock()
    found = study(outcome, both_cores=both_cores)
    assert isinstance(found, Study)
    assert found.complete
    return clock() - start
