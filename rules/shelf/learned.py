"""What a shop's finished clubs taught it, written into its own shop.toml and nowhere else."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from rules.problems import Problem
from rules.shelf.files import CannotWrite, only_writer, replace_file
from rules.shelf.reader import DEMO, load_shelf
from rules.shelf.stock import DemoIsReadOnly
from rules.shelf.tables import CALIBRATION, SHOP_FILE
from rules.shelf.values import LONGEST_TEXT, Wrong
from rules.units import UNITS

if TYPE_CHECKING:
    from rules.bench.calibrate import Calibration

_SECTION = re.compile(r"^\[calibration\][^\n]*\n?.*?(?=^\[|\Z)", re.MULTILINE | re.DOTALL)
_INCH, _GRAM = UNITS["in"].factor, UNITS["g"].factor


class CannotBeKept(Problem):
    """Something learned that no shop could have; the old calibration stands."""

    def __init__(self, key: str, wrong: Wrong) -> None:
        self.key = key
        super().__init__(f"nothing is kept: the {key.replace('_', ' ')} that was learned cannot be: {wrong}")


def keep_calibration(folder: Path, learned: Calibration, clubs: str) -> Path:
    """Write what was learned into a shop's [calibration], everything else in the file as it was.

    What could not be told keeps what the file says of it. `clubs` names where it was learned. Raises
    DemoIsReadOnly, Busy, CannotWrite, CannotBeKept, or what reading the catalogue raises; the old file
    then stands.
    """
    if folder.resolve() == DEMO.resolve():
        raise DemoIsReadOnly
    file = folder / SHOP_FILE
    with only_writer(folder):
        load_shelf(folder)
        try:
            text = file.read_text(encoding="utf-8-sig")
        except OSError as error:
            raise CannotWrite(file, error) from None
        section = _section(tomllib.loads(text).get("calibration", {}), learned, clubs)
        _check(section)
        replace_file(file, _with_section(text, section))
    return file


def _check(section: str) -> None:
    """Insist that the shop could read again what is about to be written; CannotBeKept says what is wrong."""
    read = {field.key: field.read for field in CALIBRATION}
    for key, value in tomllib.loads(section)["calibration"].items():
        try:
            read[key](value)
        except Wrong as wrong:
            raise CannotBeKept(key, wrong) from None


def _with_section(text: str, section: str) -> str:
    """Put a section in the place of the one of its name, or at the end; comments elsewhere stay."""
    if _SECTION.search(text):
        return _SECTION.sub(lambda _: section, text, count=1)
    return f"{text.rstrip()}\n\n{section}"


def _section(before: dict[str, object], learned: Calibration, clubs: str) -> str:
    """Return the section as text: what was learned, and what was there and could not be told."""
    return "\n".join(["[calibration]", *_rows(before, learned), f"learned_from = {_quoted(clubs)}", ""])


def _rows(before: dict[str, object], learned: Calibration) -> Iterator[str]:
    """Yield the rows of the section."""
    figures = (
        ("setback", learned.setback, _INCH, "in"),
        ("glue_and_ferrule", learned.glue_and_ferrule, _GRAM, "g"),
        ("ruler_offset", learned.ruler_offset, _INCH, "in"),
    )
    for key, value, factor, symbol in figures:
        if value is not None:
            yield f'{key} = "{value / factor:.4g} {symbol}"'
        elif isinstance(before.get(key), str):
            yield f"{key} = {_quoted(str(before[key]))}"
        elif key in before:
            yield f"{key} = {before[key]}"


def _quoted(text: str) -> str:
    """Write a text between quotes, one line, with nothing in it that ends it."""
    plain = "".join(c for c in text if c.isprintable() and c not in '"\\')
    return f'"{plain[:LONGEST_TEXT].strip()}"'
