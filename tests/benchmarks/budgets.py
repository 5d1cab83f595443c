"""Every budget of speed in one table: what, ours, the peer or floor, the ratio, the budget, met or not.

Run it from the repository's root on a quiet machine: `python -m tests.benchmarks.budgets`. It measures by
the very functions that the benchmarks of the gate measure by. A peer that is not installed (`pip install
turfpair[bench]`) is said to be so, and its budget is never met.
"""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from rules.fitting import load_house
from rules.golf.coefficients import LAWS
from tests.benchmarks import engine_race, flight_solver, replays, road_times, start_up

ORDINARY, SLOWEST = "sweeper", "driver-to-mend-first"
"""Sample sessions: one like most, and the one whose study takes longest."""
_FRESH_RUNS = 15


class Row(NamedTuple):
    """One line of the table."""

    what: str
    ours: str
    peer: str
    ratio: str
    budget: str
    met: bool | None
    """None where there is nothing to hold it against."""

    def cells(self) -> tuple[str, ...]:
        """Its cells as text."""
        met = {True: "yes", False: "NO", None: "-"}[self.met]
        return (self.what, self.ours, self.peer, self.ratio, self.budget, met)


def _ms(seconds: float) -> str:
    return f"{seconds * 1e3:.1f} ms"


def flight() -> Iterator[Row]:
    """One flight against a general solver, by both laws."""
    for law in LAWS:
        ours, theirs = flight_solver.seconds(law)
        gap, ratio = flight_solver.farthest_off(law), theirs / ours
        what = f"one flight, {law} law"
        yield Row(
            what, f"{ours * 1e6:.0f} us", f"solve_ivp {_ms(theirs)}", f"{ratio:.1f}x", ">= 15x", ratio >= 15
        )
        yield Row(
            f"  off a fine solution, {law} law", f"{gap:.3f} yd", "solve_ivp", "", "<= 0.05 yd", gap <= 0.05
        )


def answers() -> Iterator[Row]:
    """One answer with everything recomputed."""
    found = road_times.answer_times(load_house(), _FRESH_RUNS)
    ratio = found.full / found.peer
    peer = f"200 flights {_ms(found.peer)}"
    yield Row("answer that moves every flight", _ms(found.full), peer, f"{ratio:.2f}x", "<= 1x", ratio <= 1)
    yield Row("answer that moves none", _ms(found.light), "", "", "<= 8 ms", found.light <= 0.008)


def engine() -> Iterator[Row]:
    """The rule engine against engines from the package index."""
    with tempfile.TemporaryDirectory() as folder:
        mine, others = engine_race.our_runners(engine_race.our_base(Path(folder))), engine_race.peers()
    found = engine_race.rates({**mine, **{name: one for name, one in others.items() if one}})
    ours = found[engine_race.TRACED]
    wanted = {engine_race.ZEN: 10.0, engine_race.CLIPS: 10.0, engine_race.DURABLE: 3.0}
    for name in others:
        budget = f">= {wanted[name]:g}x" if name in wanted else ""
        if name not in found:
            yield Row(
                f"engine, {name}", f"{ours:,.0f}/s", "not installed", "", budget, False if budget else None
            )
            continue
        ratio = ours / found[name]
        met = ratio >= wanted[name] if name in wanted else None
        yield Row(f"engine, {name}", f"{ours:,.0f}/s", f"{found[name]:,.0f}/s", f"{ratio:.1f}x", budget, met)
    fast = found[engine_race.FAST]
    yield Row(
        "engine, best values only", f"{fast:,.0f}/s", f"ours {ours:,.0f}/s", f"{fast / ours:.1f}x", "", None
    )


def study() -> Iterator[Row]:
    """How sure, what would change it, what it leans on, steady, enough."""
    house = load_house()
    road_times.first_sure(house, ORDINARY)  # modules and tables are there before anybody studies
    for name in (ORDINARY, SLOWEST):
        first = min(road_times.first_sure(house, name) for _ in range(3))
        yield Row(f"first sure, {name}", f"{first:.2f} s", "", "", "<= 0.5 s", first <= 0.5)
    for name in (ORDINARY, SLOWEST):
        both = min(road_times.whole_study(house, name, both_cores=True) for _ in range(2))
        yield Row(f"whole study, {name}", f"{both:.2f} s", "two cores", "", "<= 3 s", both <= 3)
        one = road_times.whole_study(house, name)  # as where the system lets it begin no second process
        yield Row(f"  without a second process, {name}", f"{one:.2f} s CPU", "one core", "", "", None)


def start() -> Iterator[Row]:
    """Whole processes."""
    ours, bare = start_up.recommend_times()
    ratio, peer = ours / bare, f"import pydantic {_ms(bare)}"
    yield Row("recommend, one session", _ms(ours), peer, f"{ratio:.2f}x", "<= 5x", ratio <= 5)
    heavy = sorted(start_up.heavy_loaded())
    what = f"  imports none of {', '.join(start_up.HEAVY)}"
    yield Row(what, ", ".join(heavy) or "none", "", "", "none", not heavy)
    bay, app = start_up.first_question()
    ratio, peer = bay / app, f"bare Textual app {_ms(app)}"
    yield Row("first question on screen", _ms(bay), peer, f"{ratio:.2f}x", "<= 1.5x", ratio <= 1.5)


def replay(count: int) -> Iterator[Row]:
    """Replays of invented sessions: how fast on one core and two, and whether memory stays flat."""
    with replays.invented_sessions(2 * count) as folder:
        files = sorted(folder.iterdir())
        twice, pair = (replays.replayed(folder, 2 * count, cores) for cores in (1, 2))
        for file in files[count:]:
            file.unlink()
        once = replays.replayed(folder, count, 1)
    yield Row(f"replay of {2 * count}, one core", f"{twice.rate:.0f}/s", "", "", "", None)
    faster = pair.rate / twice.rate
    yield Row(
        f"replay of {2 * count}, two cores",
        f"{pair.rate:.0f}/s",
        "one core",
        f"{faster:.2f}x",
        "> 1x",
        faster > 1,
    )
    grown = twice.peak / once.peak
    what, peer = f"replay, peak memory of {2 * count}", f"of {count} {once.peak:.0f} MB"
    yield Row(what, f"{twice.peak:.0f} MB", peer, f"{grown:.2f}x", "<= 1.1x", grown <= 1.1)


def main() -> None:
    """Measure and print, row by row."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.budgets", description=__doc__)
    parser.add_argument("--replay", type=int, default=150, metavar="N", help="replay N and 2 N sessions")
    parser.add_argument(
        "--only", default="", metavar="PART", help="flight, answers, engine, study, start or replay"
    )
    args = parser.parse_args()
    parts: dict[str, Callable[[], Iterator[Row]]] = {
        "flight": flight, "answers": answers, "engine": engine, "study": study, "start": start,
        "replay": lambda: replay(args.replay),
    }  # fmt: skip
    print(_line(("what", "ours", "peer or floor", "ratio", "budget", "met")))
    for name, rows in parts.items():
        if args.only in ("", name):
            for row in rows():
                print(_line(row.cells()), flush=True)


def _line(cells: tuple[str, ...]) -> str:
    widths = (52, 14, 26, 7, 11, 3)
    return "  ".join(cell.ljust(width) for cell, width in zip(cells, widths, strict=True)).rstrip()


if __name__ == "__main__":
    main()
