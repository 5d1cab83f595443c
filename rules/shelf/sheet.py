"""One TOML file of a catalogue: its tables, and where in the file a fault sits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from rules.engine.document import read_toml
from rules.engine.scanner import Path as KeyPath
from rules.shelf.faults import Fault, did_you_mean
from rules.shelf.values import Field, Wrong, shown


def nth(sort: str, path: KeyPath) -> str:
    """Name a table of an array by its place in the file, counted from 1 as people count: `head[1]`."""
    return f"{sort}[{int(path[1]) + 1}]"


class Sheet:
    """A file being read; it collects every fault and finds their lines only when there are any."""

    def __init__(self, file: Path) -> None:
        """Read the file; FileProblem when it cannot be read at all."""
        self.file = file
        self._document = read_toml(file)
        self._wrong: list[tuple[KeyPath, bool, str, str]] = []

    @property
    def data(self) -> Mapping[str, Any]:
        """The whole file, as TOML gave it."""
        return self._document.data

    def wrong(self, path: KeyPath, owner: str, message: str, *, key: bool = False) -> None:
        """Note a fault at a path such as ("head", 3, "loft"): at its value, or at its `key`."""
        self._wrong.append((path, key, owner, message))

    def faults(self) -> list[Fault]:
        """List the faults noted, each with its line and column, in file order."""
        found = []
        for path, key, owner, message in self._wrong:
            line, column = self._document.position(path, key=key)
            found.append(Fault(self.file, line, column, owner, message))
        return sorted(found, key=lambda fault: (fault.line, fault.column))

    def only(self, table: Mapping[str, Any], path: KeyPath, owner: str, known: Iterable[str]) -> None:
        """Refuse the keys of a table that are not known."""
        words = list(known)
        for key in table:
            if key not in words:
                hint = did_you_mean(key, words)
                message = f"{shown(key)} is not a key that is known here{hint}"
                self.wrong((*path, key), owner, message, key=True)

    def tables(self, key: str, most: int) -> list[tuple[KeyPath, Mapping[str, Any]]]:
        """List the tables of an array, with the path of each; anything else is a fault."""
        rows = self.data.get(key, [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            self.wrong((key,), "", f"a list of tables is wanted, each under [[{key}]]")
            return []
        if len(rows) > most:
            self.wrong((key,), "", f"at most {most} of [[{key}]] are read, not {len(rows)}")
            return []
        return [((key, place), row) for place, row in enumerate(rows)]

    def values(
        self, table: Mapping[str, Any], path: KeyPath, owner: str, fields: Iterable[Field]
    ) -> dict[str, Any] | None:
        """Read a table's values into SI by attribute; None when anything in it is wrong (all of it noted)."""
        before = len(self._wrong)
        found: dict[str, Any] = {}
        for field in fields:
            if field.key in table:
                try:
                    found[field.attribute or field.key] = field.read(table[field.key])
                except Wrong as wrong:
                    self.wrong((*path, field.key), owner, f"{field.key}: {wrong}")
            elif field.required:
                self.wrong(path, owner, f"'{field.key}' is missing; it cannot be assumed")
        return found if len(self._wrong) == before else None
