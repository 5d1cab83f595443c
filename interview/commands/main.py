"""`turfpair`: finds the command, reads its options, and makes one sentence of whatever goes wrong.

What it needs is imported where an interruption is looked for already: a key pressed in the first moment
must not print what Python was doing.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence

    from interview.commands.registry import Command

_INTERRUPTED = 130
"""Exit status of an interruption that comes before anything is set up."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line and return the exit status; nothing is ever raised."""
    try:
        return _run(argv)
    except KeyboardInterrupt:
        return _INTERRUPTED


def _run(argv: Sequence[str] | None) -> int:
    """Look whether the installation is ours, and do what the words say."""
    from interview.commands.installation import foreign_rules
    from interview.commands.letters import write_anything

    write_anything()
    foreign = foreign_rules()
    if foreign is not None:
        print(foreign, file=sys.stderr)
        return 2
    from interview.commands.errors import guarded
    from interview.commands.printing import cleaned_output

    words = list(sys.argv[1:] if argv is None else argv)
    with cleaned_output():
        return guarded(lambda: _dispatch(words))


def _dispatch(words: list[str]) -> int:
    """Do what the first word says."""
    if not words:
        return _without_command()
    first, rest = words[0], words[1:]
    if first in ("-h", "--help", "help"):
        print(help_text())
        return 0
    if first in ("-V", "--version"):
        from importlib.metadata import version

        print(f"turfpair {version('turfpair')}")
        return 0
    return run(_command(first), rest)


def _command(name: str) -> Command:
    """Find a command; UsageProblem with a did-you-mean when there is none of that name."""
    from difflib import get_close_matches

    from interview.commands.errors import UsageProblem
    from interview.commands.registry import find, listed
    from interview.text import one_line

    command = find(name)
    if command is not None:
        return command
    close = get_close_matches(name, [c.name for c in listed()], 1)
    hint = f"did you mean '{close[0]}'?" if close else "'turfpair --help' lists them"
    if name.startswith("-"):
        raise UsageProblem(f"the command comes first, then its options; {hint}")
    raise UsageProblem(f"there is no command '{one_line(name, 40)}'; {hint}")


def run(command: Command, words: Sequence[str]) -> int:
    """Read the options of one command and do its job."""
    module = command.load()
    return module.run(_arguments(command, words))


def _arguments(command: Command, words: Sequence[str]) -> Namespace:
    """Read the common options wherever they stand, then what is the command's own."""
    from argparse import SUPPRESS

    from interview.commands.common import Parser, add_common

    shared = Parser(prog=f"turfpair {command.name}", add_help=False)
    add_common(shared)
    common, own = shared.parse_known_args(list(words))
    parser = Parser(prog=f"turfpair {command.name}", description=f"{command.help.capitalize()}.")
    command.load().configure(parser)
    add_common(parser)
    for action in parser._actions:
        if action.dest in vars(common):
            action.default = SUPPRESS
    return parser.parse_args(own, common)


def help_text() -> str:
    """Return the list of commands, one a line."""
    from interview.commands.registry import listed

    lines = ["usage: turfpair COMMAND ...", "", "Choose, build and prove the two clubs hit off the turf.", ""]
    lines += [f"  {command.name:<11}{command.help}" for command in listed()]
    lines += ["", "'turfpair COMMAND --help' tells more; 'turfpair --version' tells which Turfpair this is."]
    lines += ["Range safety, local codes and licensed practice come before anything printed here."]
    return "\n".join(lines)


def _without_command() -> int:
    """Ask which screen to open; without a terminal, print the help instead."""
    from interview.commands.registry import listed

    screens = [command for command in listed() if command.screen]
    if not screens or not (_is_terminal(sys.stdin) and _is_terminal(sys.stdout)):
        print(help_text())
        return 2
    return _ask_which(screens)


def _is_terminal(stream: object) -> bool:
    return stream is not None and bool(getattr(stream, "isatty", lambda: False)())


def _ask_which(screens: Sequence[Command]) -> int:
    """Ask for a number or a name until one fits; an empty line or the end of input leaves."""
    print("Which screen?\n")
    for number, command in enumerate(screens, 1):
        print(f"  {number}  {command.name:<9}{command.help}")
    while True:
        try:
            typed = input("\nNumber or name (enter leaves): ").strip().lower()
        except EOFError:
            typed = ""
        if not typed:
            return 0
        for number, command in enumerate(screens, 1):
            if typed in (str(number), command.name):
                return run(command, [])
        print("That is not one of them.")


if __name__ == "__main__":
    sys.exit(main())
