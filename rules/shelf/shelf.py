"""The shelf: everything a shop can build from, and what nobody has measured yet."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any, TypeVar

from rules.shelf.defaults import Assumption, Default, Defaults, End
from rules.shelf.faults import NoHeads, UnknownPart
from rules.shelf.parts import Grip, Hand, Head, Kind, Piece, Port, Shaft
from rules.shelf.shop import Calibration, Shop

Part = Head | Shaft | Grip | Port | Shop | Calibration
"""Whatever may have a measure left out."""
Named = TypeVar("Named", Head, Shaft, Grip)
"""A part that is found by its id."""
Same = TypeVar("Same", bound=Part)
"""A part that comes back as what it was."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """One catalogue, read and checked."""

    heads: tuple[Head, ...]
    """Every head, in file order."""
    shafts: tuple[Shaft, ...]
    """Every shaft, in file order."""
    grips: tuple[Grip, ...]
    """Every grip, in file order."""
    pieces: tuple[Piece, ...]
    """Every piece of mass, lightest first."""
    shop: Shop
    """The shop's settings and calibration."""
    defaults: Defaults
    """What stands in for measures left out."""
    folder: Path
    """Where it was read."""
    stamp: Callable[[], str] = field(default=str, compare=False, repr=False)
    """Works out the digest when somebody asks; of a thought, such as a swung shelf, it is empty."""

    @property
    def digest(self) -> str:
        """SHA-256 (hex) of what it means, whatever the order of its tables; counts included."""
        return self.stamp()

    def heads_for(self, hand: Hand) -> tuple[Head, ...]:
        """List the heads for a hand of which one at least is there; NoHeads when there is none."""
        found = tuple(head for head in self.heads if head.hand == hand and head.in_stock)
        if not found:
            raise NoHeads(hand, self.folder / "heads.toml")
        return found

    def shafts_for(self, kind: Kind) -> tuple[Shaft, ...]:
        """List the shafts made for a kind of club of which one at least is there."""
        return tuple(shaft for shaft in self.shafts if shaft.made_for == kind and shaft.in_stock)

    def head(self, name: str) -> Head:
        """Find a head by id; UnknownPart when there is none."""
        return _find("head", name, self.heads)

    def shaft(self, name: str) -> Shaft:
        """Find a shaft by id; UnknownPart when there is none."""
        return _find("shaft", name, self.shafts)

    def grip(self, name: str) -> Grip:
        """Find a grip by id; UnknownPart when there is none."""
        return _find("grip", name, self.grips)

    def assumptions(self, *parts: Part) -> tuple[Assumption, ...]:
        """List every measure that was left out, of these parts or, with none named, of the whole shelf."""
        whole: tuple[Part, ...] = (self.shop, *self.heads, *self.shafts, *self.grips)
        return tuple(found for part in parts or whole for found in _assumptions(self.defaults, part))

    def swung(self, default: str, end: End) -> Shelf:
        """Copy the shelf with one default at an end of its range, wherever it fills a gap.

        UnknownPart when no default is called so. The copy has no digest: it is a thought.
        """
        known = {item.id for item in self.defaults.items}
        if default not in known:
            raise UnknownPart("assumption", default, known)
        swing = _Swing(self.defaults, default, end)
        return replace(
            self,
            shop=replace(swing(self.shop), calibration=swing(self.shop.calibration)),
            heads=tuple(replace(swing(h), ports=tuple(map(swing, h.ports))) for h in self.heads),
            shafts=tuple(map(swing, self.shafts)),
            grips=tuple(map(swing, self.grips)),
            stamp=str,
        )


@dataclass(frozen=True, slots=True)
class _Swing:
    """Moves one default to an end of its range in whatever part it fills a gap of."""

    defaults: Defaults
    default: str
    end: End

    def __call__(self, part: Same) -> Same:
        """Return the part, changed only if this default fills one of its gaps."""
        changes: dict[str, Any] = {
            item.field: span[0 if self.end == "low" else 1]
            for item in _gaps(self.defaults, part)
            if item.id == self.default and (span := item.span(_values(part)))
        }
        return replace(part, **changes) if changes else part


def _find(kind: str, name: str, parts: tuple[Named, ...]) -> Named:
    """Find a part by id; UnknownPart, with the nearest id, when there is none."""
    for part in parts:
        if part.id == name:
            return part
    raise UnknownPart(kind, name, (part.id for part in parts))


def _sort(part: Part) -> tuple[str, str, str]:
    """Tell how defaults know a part: its sort, its kind, and how a person would point at it."""
    match part:
        case Head():
            return "head", part.kind, f"head {part.id}"
        case Shaft():
            return "shaft", part.made_for, f"shaft {part.id}"
        case Grip():
            return "grip", "", f"grip {part.id}"
        case Port():
            return "port", part.name, f"port {part.name}"
        case Shop():
            return "shop", "", "the shop"
        case Calibration():
            return "calibration", "", "the shop's calibration"


def _values(part: Part) -> dict[str, Any]:
    """Give a part's own fields by name."""
    return {name: getattr(part, name) for name in part.__dataclass_fields__}


def _gaps(defaults: Defaults, part: Part) -> Iterator[Default]:
    """List the defaults that fill a part's own gaps."""
    sort, kind, _ = _sort(part)
    if part.assumed:
        yield from (item for item in defaults.of(sort, kind) if item.field in part.assumed)


def _assumptions(defaults: Defaults, part: Part) -> Iterator[Assumption]:
    """List a part's gaps, and those of what belongs to it, as assumptions."""
    where = _sort(part)[2]
    for item in _gaps(defaults, part):
        values = _values(part)
        value, span = values[item.field], item.span(values)
        yield Assumption(
            item.id, where, item.field, value, span, item.symbol, item.text, item.source, item.note
        )
    if isinstance(part, Shop):
        yield from _assumptions(defaults, part.calibration)
    if isinstance(part, Head):
        for port in part.ports:
            for found in _assumptions(defaults, port):
                yield replace(found, part=f"{where}, {found.part}")


def digest_of(shelf: Shelf) -> str:
    """Compute the digest of a shelf: SHA-256 over its parts sorted by id, floats to 12 digits."""
    meaning = {
        "heads": sorted((_plain(asdict(head)) for head in shelf.heads), key=lambda part: part["id"]),
        "shafts": sorted((_plain(asdict(shaft)) for shaft in shelf.shafts), key=lambda part: part["id"]),
        "grips": sorted((_plain(asdict(grip)) for grip in shelf.grips), key=lambda part: part["id"]),
        "pieces": [_plain(asdict(piece)) for piece in shelf.pieces],
        "shop": _plain(asdict(shelf.shop)),
        "defaults": [_plain(asdict(item)) for item in shelf.defaults.items],
    }
    return hashlib.sha256(json.dumps(meaning, sort_keys=True).encode()).hexdigest()


def _plain(value: Any) -> Any:
    """Turn a value into what JSON holds, floats rounded so that a unit's last bit does not matter."""
    if isinstance(value, float):
        return f"{value:.12g}"
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, frozenset):
        return sorted(value)
    return [_plain(item) for item in value] if isinstance(value, list | tuple) else value
