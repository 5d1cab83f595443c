"""The commands there are: name, module, one line of help. A module is imported when its command is run."""

from __future__ import annotations

import importlib
from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from dataclasses import dataclass
from importlib.util import find_spec
from typing import Protocol, cast


class CommandModule(Protocol):
    """What the module of a command offers."""

    configure: Callable[[ArgumentParser], None]
    """Adds the command's own arguments."""
    run: Callable[[Namespace], int]
    """Does the job and returns the exit status."""


@dataclass(frozen=True, slots=True)
class Command:
    """One word that may follow `turfpair`."""

    name: str
    help: str
    screen: bool = False
    """Whether it is one of the three screens, offered when no command is given."""

    @property
    def module(self) -> str:
        """Return the path of the module that does the job."""
        return f"interview.commands.{self.name}"

    def load(self) -> CommandModule:
        """Import the module."""
        return cast(CommandModule, importlib.import_module(self.module))


COMMANDS = (
    Command("bay", "the fitter's screen", screen=True),
    Command("kiosk", "the customer's screen", screen=True),
    Command("trainer", "the trainer's screen", screen=True),
    Command("ask", "the interview line by line, in plain text"),
    Command("recommend", "the two clubs for one or more sessions"),
    Command("explain", "why this pair, and why not another"),
    Command("whatif", "the outcome beside the outcome with some answers changed"),
    Command("sheet", "the golfer's or the workshop's sheet"),
    Command("trial", "adds trial shots and compares clubs"),
    Command("calc", "the bench arithmetic alone"),
    Command("rules", "checks a rule base, or reads one of its rules aloud"),
    Command("replay", "which past cases change under a changed rule base"),
    Command("sessions", "lists, finds and forgets sessions"),
    Command("shop", "a shop's own catalogue, stock and bookings"),
)
"""Every command that this program may have; those whose module is absent are not listed."""


def listed() -> tuple[Command, ...]:
    """Return the commands that are here."""
    return tuple(c for c in COMMANDS if find_spec(c.module) is not None)


def find(name: str) -> Command | None:
    """Return the command called `name`, or None."""
    return next((c for c in listed() if c.name == name), None)
