"""`turfpair calc`: the bench and ball arithmetic alone, one sub-command a module.

A sub-command's module holds HELP, `configure(parser)`, `compute(args)` (a JSON object) and
`text(result, args)` (a note for the bench), and is imported only when it is asked for.
"""

from __future__ import annotations

import importlib
import json
import re
from argparse import SUPPRESS, ArgumentParser, Namespace
from collections.abc import Callable, Iterable, Sequence
from typing import Any, NoReturn, Protocol, cast

from interview.broken import broken
from interview.text import columns
from rules.units import System, UnitError, parse, unit

CALCULATIONS = {
    "flight": "carry, height and descent of a ball from its launch",
    "impact": "ball speed, launch and spin from a blow",
    "delivered": "the loft that was delivered, from a launch or from how high balls climb",
    "contact": "where on the face a ball on the ground is met",
    "balance": "swing weight, total and balance point of a club or its parts",
    "face": "what a face loses over your lies, and the one the tightest asks for",
    "length": "a club by half inches: speed, strikes, carry and the mass it needs",
    "shorten": "what cutting a club down takes off its balance, and what restores it",
    "ports": "which port takes how much, in the pieces at hand",
    "tip": "whether a tip belongs in a bore, and what is cut, opened or left",
    "glue": "how long glue holds a club back, and how a glued shaft comes out",
    "bore": "bottom of bore to ground, measured or from a dry fit",
    "loft": "what a closed or open face makes of a loft",
    "calibrate": "what your own finished clubs say about setback, glue and ruler",
}
"""Every calculation and one line of help."""

_NEGATIVE = re.compile(r"^-[\d.,]")
_ENDS_IN_NUMBER = re.compile(r"\d\.?$")
_SIDE_WORDS = frozenset(("open", "closed", "square"))


class Calculation(Protocol):
    """What the module of a sub-command offers."""

    HELP: str
    """One line for its own help page."""
    configure: Callable[[ArgumentParser], None]
    """Adds its arguments."""
    compute: Callable[[Namespace], dict[str, Any]]
    """Does the sum and returns the JSON object."""
    text: Callable[[dict[str, Any], Namespace], str]
    """Puts the result in words."""


def configure(parser: ArgumentParser) -> None:
    """Add the sub-commands; none of their modules is imported yet."""
    choices = parser.add_subparsers(
        dest="calculation", metavar="CALCULATION", required=True, parser_class=LazyParser
    )
    for name, line in CALCULATIONS.items():
        choices.add_parser(name, help=line, calculation=name)


def run(args: Namespace) -> int:
    """Do one calculation and print it, as a note or as JSON; nought is the only status it returns.

    Raises UnitError and Problem for input that makes no sense.
    """
    module = load(args.calculation)
    result = module.compute(args)
    if args.json:
        print(json.dumps(result, allow_nan=False, ensure_ascii=False, indent=2))
    else:
        print(module.text(result, args))
    return 0


def load(name: str) -> Calculation:
    """Import the module of one sub-command."""
    return cast(Calculation, importlib.import_module(f"{__name__}.{name}"))


class LazyParser(ArgumentParser):
    """The parser of one sub-command, which asks its module for arguments only when it is used."""

    def __init__(self, *, prog: str, calculation: str) -> None:
        super().__init__(prog=prog, allow_abbrev=False)
        self._calculation: str | None = calculation

    def parse_known_args(  # type: ignore[override]  # the base class overloads on the namespace alone
        self, args: Sequence[str] | None = None, namespace: Namespace | None = None
    ) -> tuple[Namespace, list[str]]:
        """Parse, after joining values that begin with a minus or were typed without quotation marks."""
        self._fill()
        return super().parse_known_args(joined(args or ()), namespace)

    def _fill(self) -> None:
        """Take the arguments over from the module, once."""
        if self._calculation is None:
            return
        module = load(self._calculation)
        self._calculation = None
        self.description = module.HELP
        module.configure(self)
        self.add_argument("--json", action="store_true", help="print a JSON object")
        self.add_argument(
            "--units", choices=("imperial", "metric"), default=SUPPRESS, help="units of the note"
        )

    def error(self, message: str) -> NoReturn:
        """Raise UsageProblem, which names the sub-command and where its help is."""
        from interview.commands.errors import UsageProblem

        raise UsageProblem(f"{self.prog.removeprefix('turfpair ')}: {message}; see '{self.prog} --help'")


def joined(args: Iterable[str]) -> list[str]:
    """Join `--attack -3 deg` into `--attack=-3 deg`, and a unit to the number before it.

    A minus before a digit is a value and never an option; a shell hands over unquoted words one by one.
    """
    out: list[str] = []
    for arg in args:
        before = out[-1] if out else ""
        if _NEGATIVE.match(arg) and before.startswith("--") and "=" not in before:
            out[-1] = f"{before}={arg}"
        elif _continues(before, arg):
            out[-1] = f"{before} {arg}"
        else:
            out.append(arg)
    return out


def _continues(before: str, word: str) -> bool:
    """Tell whether a word is the unit of the number before it, or the side a face looks to."""
    if word in _SIDE_WORDS:
        return "=" in before or (bool(before) and not before.startswith("--"))
    if not _ENDS_IN_NUMBER.search(before) or word.startswith("-") or not word:
        return False
    try:
        return bool(unit(word).symbol)
    except UnitError:
        return False


def quantity(text: str | float, symbol: str, option: str) -> float:
    """Read one option's value in SI; a UnitError names the option."""
    try:
        return parse(text, symbol)
    except UnitError as problem:
        raise UnitError(f"{option}: {problem}") from None


def system(args: Namespace) -> System:
    """Return the units in which the note is to be written."""
    return cast(System, getattr(args, "units", None) or "imperial")


def tidy(value: float, digits: int = 9) -> float:
    """Round away what binary arithmetic leaves behind, and minus nought."""
    return round(value, digits) + 0.0


def note(*paragraphs: str) -> str:
    """Put paragraphs under one another, each wrapped to fit an 80-column terminal."""
    return "\n".join(line for paragraph in paragraphs for line in broken(paragraph, 78) or [""])


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Lay out rows in columns, the first to the left and the others to the right."""
    return "\n".join(columns(head, rows))
