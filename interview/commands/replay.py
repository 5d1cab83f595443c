"""`turfpair replay`: which past cases change under changed rules or another catalogue, and why."""

from __future__ import annotations

import json
import os
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from interview.commands.common import house
from interview.commands.ended import ended_by_signals
from interview.commands.errors import DONE, UsageProblem

if TYPE_CHECKING:
    from collections.abc import Callable

    from rules.fitting import House
    from rules.inquiry.replay import Case, Tally

_FEWEST = 48
"""Fewer sessions than this are not worth a second process."""
_homes: tuple[House, House] | None = None
"""In a worker: the house of then and the house of now, loaded once."""


def configure(parser: ArgumentParser) -> None:
    """Add what `replay` takes."""
    parser.add_argument(
        "folder", metavar="SESSION-FOLDER", type=Path, help="session files, or folders of them"
    )
    parser.add_argument(
        "--before", metavar="FOLDER", type=Path, help="the rules of then; else the built-in ones"
    )
    parser.add_argument("--cores", metavar="N", type=int, default=0, help="processes to use; else every core")
    parser.add_argument("--json", action="store_true", help="print JSON instead of Markdown")


def run(args: Namespace) -> int:
    """Replay every session under both rule bases and print what changes."""
    from interview.views.inquiry.replay_text import replay_json, replay_markdown

    files = sessions_in(args.folder)
    tally = tallied(files, args, _cores(args.cores, len(files)))
    homes = (_before(args), house(args))
    if args.json:
        print(json.dumps(replay_json(tally, *homes), indent=2, allow_nan=False))
    else:
        print(replay_markdown(tally, *homes))
    return DONE


def sessions_in(folder: Path) -> list[Path]:
    """Return the session files of a folder and its folders, by name. Raises UsageProblem for none."""
    if not folder.is_dir():
        raise UsageProblem(f"{folder}: a folder of sessions is wanted here")
    files = sorted(path for path in folder.rglob("*.toml") if path.is_file())
    if not files:
        raise UsageProblem(f"{folder}: there is no session in it; sessions end in .toml")
    return files


def _cores(wanted: int, sessions: int) -> int:
    """Return how many processes to use."""
    if wanted < 0:
        raise UsageProblem("--cores counts processes, from 1 up")
    if sessions < _FEWEST:
        return 1
    return wanted or os.cpu_count() or 1


def tallied(files: Sequence[Path], args: Namespace, cores: int) -> Tally:
    """Replay files and sum up; what does not change is only counted, so memory stays flat."""
    from rules.inquiry.replay import Tally

    tally = Tally()
    with ended_by_signals(), _cases(files, args, cores) as cases, _progress(len(files)) as step:
        for case in cases:
            tally.add(case)
            step()
    tally.sort()
    return tally


@contextmanager
def _cases(files: Sequence[Path], args: Namespace, cores: int) -> Iterator[Iterable[Case]]:
    """Yield the cases as they are done, here or by workers; workers end with the block, whatever ends it."""
    if cores == 1:
        _begin(args)
        yield map(_case, map(str, files))
        return
    from rules.inquiry.crew import Crew

    with Crew(list(map(str, files)), cores, partial(_begin, args), _case) as crew:
        yield crew.results()


def _begin(args: Namespace) -> None:
    """Load both houses, once in each process."""
    global _homes
    _homes = (_before(args), house(args))


def _before(args: Namespace) -> House:
    """Return the house of then: its rules with the catalogue of now, unless the catalogue is what changed."""
    from rules.fitting import load_house

    if args.rules is None and args.before is None:
        return load_house()
    return house(Namespace(**{**vars(args), "rules": args.before}))


def _case(file: str) -> Case:
    """Replay one session; one that cannot be read or run is told and the rest go on."""
    from interview.session import load
    from interview.session.reading import subject_of
    from rules.facts.answers import AnswerProblem
    from rules.inquiry.replay import Case, replayed
    from rules.problems import Problem

    assert _homes is not None
    before, after = _homes
    name = Path(file).stem
    try:
        session = load(Path(file), before.base.facts)
        return replayed(before, after, session.id, session.subject, subject_of(session, after.base.facts))
    except (Problem, AnswerProblem, OSError, ValueError) as problem:
        return Case(name, unreadable=" ".join(str(problem).split())[:300])


@contextmanager
def _progress(total: int) -> Iterator[Callable[[], None]]:
    """Show how far it is on the error stream, where that is a terminal."""
    if sys.stderr is None or not sys.stderr.isatty():
        yield lambda: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("sessions", total=total)
        yield lambda: bar.advance(task)
