"""The reader of defaults.toml: what stands in for measures that the cataloguer left out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

from rules.engine.scanner import Path as KeyPath
from rules.shelf.defaults import PLACE, Default, Defaults
from rules.shelf.sheet import Sheet, nth
from rules.shelf.tables import CALIBRATION, GRIP, HEAD, PORT, SHAFT, SHOP
from rules.shelf.values import Field, Reader, Wrong, label, name, quantity, text, word
from rules.units import UnitError, parse

FILLED = {"head": HEAD, "shaft": SHAFT, "grip": GRIP, "port": PORT, "shop": SHOP, "calibration": CALIBRATION}
"""The parts of which a measure may be left out, with their keys."""
_AGAINST = ("loft", "face_height")
_SOURCE = word("assumption", "common_practice", "memory")
_KEYS = (
    Field("id", name, required=True),
    Field("part", word(*FILLED), required=True),
    Field("kind", name),
    Field("field", text, required=True),
    Field("unit", text),
    Field("text", label, required=True),
    Field("against", word(*_AGAINST)),
    Field("source", _SOURCE, required=True),
    Field("note", text),
)
_AMOUNTS = ("value", "range", "at", "either_way")
_PLACE_KEYS = (Field("name", name, required=True), *(field for field in PORT if field.key in PLACE))
_EITHER_WAY = quantity("mm", "0 mm", "40 mm")


def read_defaults(file: Path) -> tuple[Defaults, Sheet]:
    """Read the defaults; the sheet that comes with them holds whatever is wrong."""
    sheet = Sheet(file)
    sheet.only(sheet.data, (), "", ("schema", "default", "place"))
    items: list[Default] = []
    for path, row in sheet.tables("default", 200):
        owner = f"{nth('default', path)} '{row.get('id', '')}'"
        sheet.only(row, path, owner, (*(field.key for field in _KEYS), *_AMOUNTS))
        values = sheet.values(row, path, owner, _KEYS)
        if values is not None:
            items.extend(_default(sheet, path, owner, row, values))
    for path, row in sheet.tables("place", 40):
        items.extend(_place(sheet, path, row))
    return Defaults(tuple(items)), sheet


def _default(
    sheet: Sheet, path: KeyPath, owner: str, row: Mapping[str, Any], values: dict[str, Any]
) -> list[Default]:
    """Read one [[default]]; empty when it is at fault, which the sheet then holds."""
    keys = {field.attribute or field.key: field for field in FILLED[values["part"]]}
    read = keys[values["field"]].read if values["field"] in keys else None
    try:
        if read is None:
            raise Wrong(f"field: {values['part']} has no '{values['field']}'")
        amount = _amount(row, read, keys)
    except Wrong as wrong:
        sheet.wrong(path, owner, str(wrong))
        return []
    return [
        Default(
            id=values["id"], part=values["part"], kind=values.get("kind", ""), field=values["field"],
            symbol=values.get("unit", ""), value=amount.value, low=amount.low, high=amount.high,
            nodes=amount.nodes, against=values.get("against", ""), text=values["text"],
            source=values["source"], note=values.get("note", ""),
        )
    ]  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Amount:
    """The value of a default, or its table, and how far either may be out."""

    value: object
    low: float = 0.0
    high: float = 0.0
    nodes: tuple[tuple[float, float], ...] = ()


def _number(value: object) -> float:
    """Insist that a reader gave a number."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise Wrong("only a number has a range")
    return float(value)


def _amount(row: Mapping[str, Any], read: Reader, keys: Mapping[str, Field]) -> _Amount:
    """Read `value` and its `range`, or `at` with `against` and `either_way`."""
    if "at" in row:
        return _table(row, read, keys)
    value = read(row.get("value"))
    ends = row.get("range")
    if ends is None:
        return _Amount(value)
    if not isinstance(ends, list) or len(ends) != 2:
        raise Wrong("range: two ends are wanted, such as ['15 mm', '26 mm']")
    low, high = (_number(read(end)) for end in ends)
    if not low <= _number(value) <= high:
        raise Wrong("range: its ends are to lie on either side of the value")
    return _Amount(value, low, high)


def _table(row: Mapping[str, Any], read: Reader, keys: Mapping[str, Field]) -> _Amount:
    """Read a straight-line table and how far either way it may be out (a difference, in the row's unit)."""
    pairs = row["at"]
    if row.get("against") not in keys:
        raise Wrong("at: 'against' is to name another field of the same part")
    if (
        not isinstance(pairs, list)
        or not all(isinstance(p, list) and len(p) == 2 for p in pairs)
        or not pairs
    ):
        raise Wrong("at: pairs are wanted, such as [['15 deg', '57 deg'], ['25 deg', '60 deg']]")
    across = keys[row["against"]].read
    nodes = tuple((_number(across(x)), _number(read(y))) for x, y in pairs)
    if any(a[0] >= b[0] for a, b in pairwise(nodes)):
        raise Wrong("at: the first of each pair is to rise")
    try:
        either = parse(row.get("either_way", ""), row.get("unit", ""))
    except UnitError as problem:
        raise Wrong(f"either_way: {problem}") from None
    return _Amount(None, either, either, nodes)


def _place(sheet: Sheet, path: KeyPath, row: Mapping[str, Any]) -> list[Default]:
    """Read one [[place]]: where a port of this name sits when its head's own measure is not known."""
    owner = f"{nth('place', path)} '{row.get('name', '')}'"
    more = (Field("either_way", _EITHER_WAY, required=True), Field("source", _SOURCE, required=True))
    fields = (*_PLACE_KEYS, *more)
    sheet.only(row, path, owner, (field.key for field in fields))
    found = sheet.values(row, path, owner, fields)
    if found is None:
        return []
    port, either = found["name"], found["either_way"]
    return [
        Default(
            id=f"port-{port}-{axis}", part="port", kind=port, field=axis, symbol="mm", value=found[axis],
            low=found[axis] - either, high=found[axis] + either, nodes=(), against="",
            text=f"Where a port called {port} sits from the centre of mass of its head, {axis}.",
            source=found["source"], note="by its name, when its head's own measure is not known",
        )
        for axis in PLACE
        if axis in found
    ]  # fmt: skip
