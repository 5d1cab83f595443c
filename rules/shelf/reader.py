"""The one reader of catalogue folders: `load_shelf`.

Strict: an unknown key, a wrong unit, an impossible value, a missing name or a name used twice is
refused with file, line, column and part, all of them in one go. What was merely not measured is not
refused: a declared default fills it, and the part says so in `assumed`.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import MISSING, dataclass, field, fields, replace
from functools import cache, partial
from pathlib import Path
from typing import Any, TypeVar

from rules.engine.document import FileProblem
from rules.engine.scanner import Path as KeyPath
from rules.paths import typed_path
from rules.shelf.defaults import Defaults
from rules.shelf.faults import Fault, NoCatalogue, ShelfFaults, did_you_mean
from rules.shelf.parts import Grip, Head, Piece, Port, Shaft
from rules.shelf.read_defaults import read_defaults
from rules.shelf.sheet import Sheet, nth
from rules.shelf.shelf import Shelf, digest_of
from rules.shelf.shop import Calibration, Shop
from rules.shelf.tables import (
    BOOKINGS_FILE,
    CALIBRATION,
    DEFAULTS_FILE,
    FILES,
    MOST_PARTS,
    MOST_PORTS,
    PARTS,
    PORT,
    SHOP,
    SHOP_FILE,
)

DEMO = Path(__file__).parent.parent / "catalogue"
"""The built-in demo shop: read, never written."""
VARIABLE = "TURFPAIR_CATALOGUE"
"""Environment variable that names a catalogue folder."""


def catalogue_folder(named: str | Path | None) -> Path | None:
    """Resolve which catalogue is meant: the one named, else the environment's, else None for the demo."""
    chosen = named or os.environ.get(VARIABLE, "")
    return typed_path(chosen) if chosen else None


def load_shelf(folder: Path | None = None, overlays: Sequence[Path] = ()) -> Shelf:
    """Read a catalogue folder (the demo shop when None) and lay overlays over it.

    A part of an overlay replaces the part of that id (piece: of that mass), a new one is added, and the
    keys of its shop.toml win. Raises ShelfFaults with every fault, NoCatalogue when a folder is missing.
    """
    base = _checked_folder(folder or DEMO)
    tray = _Tray(_defaults(base))
    for place in (base, *map(_checked_folder, overlays)):
        tray.read_folder(place, whole=place == base)
    return tray.shelf(base)


def _checked_folder(folder: Path) -> Path:
    """Insist on a folder that may be read."""
    try:
        os.listdir(folder)
    except FileNotFoundError:
        raise NoCatalogue(folder, "there is no such folder") from None
    except NotADirectoryError:
        raise NoCatalogue(folder, "a catalogue is a folder, and this is a file") from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise NoCatalogue(folder, f"this folder cannot be read ({why.lower()})") from None
    return folder


def _defaults(folder: Path) -> Defaults:
    """Read the folder's own defaults, else the built-in ones."""
    own = folder / DEFAULTS_FILE
    defaults, sheet = read_defaults(own if own.is_file() else DEMO / DEFAULTS_FILE)
    if faults := sheet.faults():
        raise ShelfFaults(faults)
    return defaults


_MISSING = "this file of the catalogue is missing; `turfpair shop init FOLDER` writes one to copy from"


@dataclass(slots=True)
class _Tray:
    """Gathers parts from the folders, in order, and every fault on the way."""

    defaults: Defaults
    parts: dict[str, dict[Any, Any]] = field(default_factory=lambda: {sort: {} for sort in PARTS})
    shop: dict[str, Any] = field(default_factory=dict)
    calibration: dict[str, Any] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def read_folder(self, folder: Path, *, whole: bool) -> None:
        """Read every file of a folder; a whole catalogue needs all of them, an overlay any."""
        known = (*FILES, SHOP_FILE, BOOKINGS_FILE, DEFAULTS_FILE)
        present = {path.name for path in folder.glob("*.toml")}
        for stray in sorted(present - set(known)):
            hint = did_you_mean(stray, known)
            self.faults.append(Fault(folder / stray, 0, 0, "", f"no catalogue has a file of this name{hint}"))
        for name in (*FILES, SHOP_FILE):
            if name in present:
                self._read_file(folder / name)
            elif whole:
                self.faults.append(Fault(folder / name, 0, 0, "", _MISSING))

    def _read_file(self, file: Path) -> None:
        """Read one file into the tray."""
        try:
            sheet = Sheet(file)
        except FileProblem as problem:
            self.faults.append(_as_fault(file, problem))
            return
        if file.name == SHOP_FILE:
            self._read_shop(sheet)
        else:
            self._read_parts(sheet, FILES[file.name])
        self.faults.extend(sheet.faults())

    def _read_parts(self, sheet: Sheet, sort: str) -> None:
        """Read the array of parts of one file; a name used twice in it is a fault."""
        sheet.only(sheet.data, (), "", ("schema", sort))
        seen: dict[Any, str] = {}
        for path, row in sheet.tables(sort, MOST_PARTS):
            owner = _owner(sort, path, row)
            values = self._read_part(sheet, sort, path, owner, row)
            if values is None:
                continue
            key = values["id"] if "id" in values else round(values["mass"] * 1e6)
            if key in seen:
                sheet.wrong(path, owner, f"{seen[key]} has the same {'id' if 'id' in values else 'mass'}")
                continue
            seen[key] = owner
            try:
                self.parts[sort][key] = _BUILDERS[sort](values, self.defaults)
            except _GapError as gap:
                sheet.wrong(path, owner, str(gap))

    def _read_part(
        self, sheet: Sheet, sort: str, path: KeyPath, owner: str, row: Mapping[str, Any]
    ) -> dict[str, Any] | None:
        """Read one part's keys, a head's ports with them; None when anything is at fault."""
        extra = ("ports",) if sort == "head" else ()
        sheet.only(row, path, owner, (*(key.key for key in PARTS[sort]), *extra))
        values = sheet.values(row, path, owner, PARTS[sort])
        if sort != "head":
            return values
        ports = self._read_ports(sheet, path, owner, row.get("ports", []))
        if values is not None and ports is not None:
            return {**values, "ports": ports}
        return None

    def _read_ports(self, sheet: Sheet, path: KeyPath, owner: str, rows: object) -> tuple[Port, ...] | None:
        """Read a head's ports; None when anything is at fault."""
        here = (*path, "ports")
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            sheet.wrong(
                here, owner, "ports: a list of { name, capacity, toeward, upward, backward } is wanted"
            )
            return None
        if len(rows) > MOST_PORTS:
            sheet.wrong(here, owner, f"ports: at most {MOST_PORTS} are read, not {len(rows)}")
            return None
        found = [self._read_port(sheet, (*here, place), owner, row) for place, row in enumerate(rows)]
        ports = tuple(port for port in found if port is not None)
        twice = [
            port.name for place, port in enumerate(ports) if port.name in {p.name for p in ports[:place]}
        ]
        if twice:
            sheet.wrong(here, owner, f"ports: two are called '{twice[0]}'")
        return ports if len(ports) == len(rows) and not twice else None

    def _read_port(self, sheet: Sheet, path: KeyPath, owner: str, row: Mapping[str, Any]) -> Port | None:
        """Read one port; its place, if left out, goes by its name."""
        owner = f"{owner}, port '{row.get('name', '')}'"
        sheet.only(row, path, owner, (key.key for key in PORT))
        values = sheet.values(row, path, owner, PORT)
        if values is None:
            return None
        assumed = self.defaults.complete("port", values["name"], values)
        missing = [key.key for key in PORT if key.key not in values]
        if missing:
            sheet.wrong(path, owner, f"where it sits is not known by its name; {', '.join(missing)} wanted")
            return None
        return Port(**values, assumed=assumed)

    def _read_shop(self, sheet: Sheet) -> None:
        """Read shop.toml; later files' keys win."""
        sheet.only(sheet.data, (), "", ("schema", *(key.key for key in SHOP), "calibration"))
        required = [replace(key, required=key.required and not self.shop) for key in SHOP]
        self.shop.update(sheet.values(sheet.data, (), "", required) or {})
        table = sheet.data.get("calibration", {})
        if not isinstance(table, dict):
            sheet.wrong(("calibration",), "", "calibration: a table is wanted, under [calibration]")
            return
        sheet.only(table, ("calibration",), "calibration", (key.key for key in CALIBRATION))
        self.calibration.update(sheet.values(table, ("calibration",), "calibration", CALIBRATION) or {})

    def shelf(self, folder: Path) -> Shelf:
        """Build the shelf; ShelfFaults when anything was wrong."""
        if self.faults:
            raise ShelfFaults(self.faults)
        calibration = {"learned_from": "", **self.calibration}
        learned = self.defaults.complete("calibration", "", calibration)
        shop = dict(self.shop)
        assumed = self.defaults.complete("shop", "", shop)
        try:
            bench = _made(Calibration, calibration, learned)
            place = _made(Shop, {**shop, "calibration": bench}, assumed)
        except _GapError as gap:
            raise ShelfFaults([Fault(folder / SHOP_FILE, 0, 0, "", str(gap))]) from None
        shelf = Shelf(
            heads=tuple(self.parts["head"].values()),
            shafts=tuple(self.parts["shaft"].values()),
            grips=tuple(self.parts["grip"].values()),
            pieces=tuple(sorted(self.parts["piece"].values(), key=lambda piece: piece.mass)),
            shop=place,
            defaults=self.defaults,
            folder=folder,
        )
        return replace(shelf, stamp=cache(partial(digest_of, shelf)))


def _as_fault(file: Path, problem: FileProblem) -> Fault:
    """Turn a file that cannot be read into a fault of its own."""
    return Fault(file, problem.line, problem.column, "", problem.message)


def _owner(sort: str, path: KeyPath, row: Mapping[str, Any]) -> str:
    """Point at a part as a person would: its place in the file and its id or mass."""
    called = str(row.get("id", row.get("mass", "")))[:60]
    place = nth(sort, path)
    return f"{place} '{called}'" if called.isprintable() else place


def _named(values: dict[str, Any]) -> dict[str, Any]:
    """Let a part without a label go by its id."""
    return {"label": values["id"], "count": None, **values}


_Part = TypeVar("_Part", Head, Shaft, Grip, Shop, Calibration)


class _GapError(Exception):
    """A measure that is left out, and that no default stands in for."""


def _made(sort: type[_Part], found: Mapping[str, Any], assumed: frozenset[str]) -> _Part:
    """Make a part of its values; _GapError when a measure is neither given nor declared as a default."""
    wanted = [one.name for one in fields(sort) if one.default is MISSING]
    if gaps := [name for name in wanted if name not in found]:
        raise _GapError(
            f"{', '.join(gaps)}: left out, and no default stands in; give it here, or a [[default]] in "
            f"{DEFAULTS_FILE}"
        )
    return sort(**found, assumed=assumed)


def _head(values: dict[str, Any], defaults: Defaults) -> Head:
    """Build a head, gaps filled."""
    found = _named(values)
    assumed = defaults.complete("head", found["kind"], found)
    return _made(Head, found, assumed)


def _shaft(values: dict[str, Any], defaults: Defaults) -> Shaft:
    """Build a shaft, gaps filled."""
    found = {"bore_note": "", **_named(values)}
    assumed = defaults.complete("shaft", found["made_for"], found)
    return _made(Shaft, {"trim": (), **found}, assumed)


def _grip(values: dict[str, Any], defaults: Defaults) -> Grip:
    """Build a grip, gaps filled."""
    found = _named(values)
    assumed = defaults.complete("grip", "", found)
    return _made(Grip, found, assumed)


def _piece(values: dict[str, Any], defaults: Defaults) -> Piece:
    """Build a piece; a count left out is no limit, a fit left out is any port."""
    return Piece(**{"count": None, "fits": (), **values})


_BUILDERS = {"head": _head, "shaft": _shaft, "grip": _grip, "piece": _piece}
