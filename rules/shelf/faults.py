"""What can be wrong with a catalogue, and how it is told: one clear sentence each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from rules.problems import Problem


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of a catalogue, placed."""

    file: Path
    """The file it is in."""
    line: int
    """Line, from 1; 0 when the fault is of the whole file."""
    column: int
    """Column, from 1."""
    owner: str
    """Which part it belongs to, such as `head[3] 'heath-19'`; empty when the file itself is at fault."""
    message: str
    """What is wrong and what is wanted."""

    def __str__(self) -> str:
        """Word the fault as one sentence."""
        place = f"{self.file} line {self.line}, column {self.column}" if self.line else str(self.file)
        return f"{place}: {self.owner + ': ' if self.owner else ''}{self.message}"


class ShelfFaults(Problem):
    """A catalogue that cannot be used; `faults` holds every fault found, in file order."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        more = len(self.faults) - 1
        tail = f" ({more} more; `turfpair shop check` lists them all)" if more else ""
        super().__init__(f"{self.faults[0]}{tail}")


class NoHeads(Problem):
    """A catalogue without one head in stock for a hand."""

    def __init__(self, hand: str, file: Path) -> None:
        self.hand, self.file = hand, file
        super().__init__(
            f"{file} line 1: no {hand}-hand head is in stock; add a [[head]] with hand = '{hand}' and a"
            " count above nought, or name another catalogue with --catalogue"
        )


class NoCatalogue(Problem):
    """A catalogue folder that is not there or is no folder."""

    def __init__(self, folder: Path, why: str) -> None:
        self.folder = folder
        super().__init__(f"{folder}: {why}; `turfpair shop init FOLDER` makes a catalogue there")


class UnknownPart(Problem):
    """A part asked for by a name that is not on the shelf."""

    def __init__(self, kind: str, name: str, known: Iterable[str]) -> None:
        self.kind, self.name = kind, name
        super().__init__(f"there is no {kind} '{name[:60]}' on the shelf{did_you_mean(name, known)}")


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Suggest the nearest known word, as the tail of a sentence; empty when nothing is near."""
    near = get_close_matches(word[:80], list(known), n=1, cutoff=0.6)
    return f" (did you mean '{near[0]}'?)" if near else ""
