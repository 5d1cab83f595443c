"""`turfpair trainer`: the trainer's screen, or the same lessons line by line."""

from __future__ import annotations

import os
import sys
from argparse import ArgumentParser, Namespace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from interview.commands.common import house, store
from interview.commands.errors import DONE, INTERRUPTED, UsageProblem
from interview.commands.printing import complain

if TYPE_CHECKING:
    from interview.classroom import Lessons
    from rules.fitting import House

PLAIN = "'turfpair trainer --plain' holds the same lessons line by line"


def configure(parser: ArgumentParser) -> None:
    """Add what `trainer` takes."""
    parser.add_argument(
        "session", nargs="?", metavar="SESSION-OR-FOLDER",
        help="a session or a folder of them; none invents golfers",
    )  # fmt: skip
    parser.add_argument("--plain", action="store_true", help="line by line, in plain text")
    parser.add_argument(
        "--class", dest="class_folder", metavar="FOLDER", type=Path,
        help="where the class, its attempts and its summary are kept",
    )  # fmt: skip
    parser.add_argument("--trainee", metavar="NAME", help="who is at the keys, with --plain and --class")
    parser.add_argument(
        "--seed", metavar="N", type=int, help="the number of the first exercise; else the day's"
    )


def run(args: Namespace) -> int:
    """Open the cases and hold the lesson."""
    if (args.trainee is not None or args.seed is not None) and not args.plain:
        raise UsageProblem(
            "trainer: --trainee and --seed go with --plain; the screen asks who is at the keys"
        )
    if not args.plain:
        _needs_terminal()
    home = house(args)
    lessons = _lessons(args, home)
    return _plain(args, home, lessons) if args.plain else _screen(args, home, lessons)


def _lessons(args: Namespace, home: House) -> Lessons:
    """Open the cases that were named; raises UsageProblem where there is none to teach."""
    from interview.classroom import lessons_in

    place = None
    if args.session is not None:
        named = Path(args.session).expanduser()
        place = named if named.is_dir() else store(args).locate(args.session)
    lessons = lessons_in(place, home)
    if not lessons.cases:
        first = f": {lessons.problems[0]}" if lessons.problems else "; sessions end in .toml"
        raise UsageProblem(f"trainer: there is no case to teach in {args.session}{first}")
    return lessons


def _screen(args: Namespace, home: House, lessons: Lessons) -> int:
    """Open the screen."""
    if args.no_color:
        os.environ["NO_COLOR"] = "1"
    from interview.screens.trainer import open_trainer

    for problem in lessons.problems:
        complain(f"left out: {problem}")
    return open_trainer(
        lessons.cases, home, args.class_folder, units=args.units or "imperial", rules=args.rules
    )


def _plain(args: Namespace, home: House, lessons: Lessons) -> int:
    """Hold the lesson line by line."""
    from interview.classroom import ClassBook
    from interview.commands.ask.lines import Lines
    from interview.commands.drill.attending import trainee
    from interview.commands.drill.lesson import teach
    from interview.commands.drill.sitting import Sitting

    now = datetime.now(UTC)
    sitting = Sitting(
        lessons.cases,
        home,
        Lines(),
        lambda: datetime.now(UTC),
        now.toordinal() if args.seed is None else args.seed,
        args.units or "imperial",
        args.rules,
        ClassBook.open(args.class_folder) if args.class_folder else None,
    )
    for problem in lessons.problems:
        sitting.tell("left_out", problem=problem)
    try:
        if args.trainee is not None:
            trainee(sitting, args.trainee)
        teach(sitting)
    except KeyboardInterrupt:
        return INTERRUPTED
    return DONE


def _needs_terminal() -> None:
    """Refuse to start where no screen can be drawn or no key be read."""
    if not (sys.stdin and sys.stdin.isatty() and sys.__stderr__ and sys.__stderr__.isatty()):
        raise UsageProblem(f"trainer: this needs a terminal; {PLAIN}")
    if os.environ.get("TERM", "dumb") in ("dumb", "unknown", ""):
        raise UsageProblem(f"trainer: this terminal cannot draw a screen; {PLAIN}")
