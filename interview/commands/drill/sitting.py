"""One sitting of a lesson: the cases, who is at the keys, the copy of the rules, and where lines go."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from interview.classroom import Attempt
from interview.views.lessons.lines import IN, plain
from rules.lessons.overlay import begin

if TYPE_CHECKING:
    from pathlib import Path

    from interview.classroom import ClassBook
    from interview.commands.ask.lines import Lines
    from rules.fitting import House
    from rules.lessons.case import Case
    from rules.lessons.overlay import Overlay
    from rules.units import System


@dataclass
class Sitting:
    """A lesson at one moment; the jobs of the lesson read it and change it."""

    cases: tuple[Case, ...]
    house: House
    lines: Lines
    now: Callable[[], datetime]
    """The clock."""
    seed: int
    """From which the next exercise is made."""
    system: System = "imperial"
    rules: Path | None = None
    """The folder of rules that the house was loaded with; None for those that came with the program."""
    book: ClassBook | None = None
    """The class; None while none is open."""
    trainee: str = ""
    """Id of the trainee at the keys; empty for nobody."""
    at: int = 0
    """Place of the case at hand."""
    copy: Overlay | None = None
    """The copy of the rules that is edited; None before the first edit."""

    @property
    def case(self) -> Case:
        """The case at hand."""
        return self.cases[self.at]

    def overlay(self) -> Overlay:
        """Return the copy of the rules, begun at the first asking."""
        if self.copy is None:
            self.copy = begin(self.house, self.rules)
        return self.copy

    def next_seed(self) -> int:
        """Return the number of the next exercise."""
        self.seed += 1
        return self.seed - 1

    def tell(self, key: str, indent: str = "", **values: object) -> None:
        """Say a sentence of the lesson."""
        for line in plain(key, **values).split("\n"):
            self.lines.say(line, indent)

    def show(self, lines: Iterable[str]) -> None:
        """Say lines that stand in as far as they say themselves."""
        for line in lines:
            text = line.lstrip(" ")
            self.lines.say(text, line[: len(line) - len(text)])

    def tell_under(self, lines: Iterable[str]) -> None:
        """Say lines that stand in."""
        self.show(IN + line for line in lines)

    def ask(self) -> str | None:
        """Return the next line that is typed; None when there is none left."""
        return self.lines.ask()

    def record(self, item: str, kind: str, score: float, verdict: str) -> None:
        """Note what whoever is at the keys tried; nothing where nobody is."""
        if self.book is not None and self.trainee:
            self.book.record(Attempt(self.trainee, self.now(), item, kind, score, verdict))
