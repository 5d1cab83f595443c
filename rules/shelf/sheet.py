"""One TOML file of a catalogue: its tables, and where in the file a fault sits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from rules.shelf.faults import Fault, did_you_mean
from rules.shelf.toml_text import Document, Path_, read_toml
from rules.shelf.values import Field, Wrong


class Sheet:
    """A file being read; it collects every fault and finds their lines only when there are any."""

    def __init__(self, file: Path) -> None:
        """Read the file; FileProblem when it cannot be read at all."""
        self.file = file
        self._document: Document = read_toml(file)
        self._wrong: list[tuple[Path_, str, str]] = []

    @property
    def data(self) -> Mapping[str, Any]:
        """The whole file, as TOML gave it."""
        return self._document.data

    def wrong(self, path: Path_, owner: str, message: str) -> None:
        """Note a fault at a path such as ("head", 3, "loft")."""
        self._wrong.append((path, owner, message))

    def faults(self) -> list[Fault]:
        """List the faults noted, each with its line and column, in file order."""
        found = []
        for path, owner, message in self._wrong:
            line, column = self._document.position(path)
            found.append(Fault(self.file, line, column, owner, message))
        return sorted(found, key=lambda fault: (fault.line, fault.column))

    def only(self, table: Mapping[str, Any], path: Path_, owner: str, known: Iterable[str]) -> None:
        """Refuse the keys of a table that are not known."""
        words = list(known)
        for key in table:
            if key not in words:
                hint = did_you_mean(key, words)
                self.wrong((*path, key), owner, f"'{key[:40]}' is not a key that is known here{hint}")

    def tables(self, key: str, most: int) -> list[tuple[Path_, Mapping[str, Any]]]:
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
        self, table: Mapping[str, Any], path: Path_, owner: str, fields: Iterable[Field]
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
