"""One table being read: each key asked for once, each fault noted with its path, unknown keys refused."""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from typing import Any, cast

from rules.engine.document import Document
from rules.engine.faults import Fault, did_you_mean
from rules.units import UnitError, parse, unit

KeyPath = tuple[str | int, ...]
MOST_TEXT = 600
"""Characters of one sentence."""
MOST_ID = 80
MOST_FAULTS = 300
"""Faults after which no more are noted: nobody mends more at a time, and a hostile file has no end."""
MOST_LIST = 64
"""Entries of one list: words of a fact, nodes of a ramp, parts of a group."""
ID = re.compile(r"[a-z][a-z0-9_]*")
KEBAB = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*")
_NUMBER_HEAD = re.compile(r"^[+-]?[\d.,/ -]*\d[\d.,/]*")


@dataclass(slots=True)
class Sink:
    """Where faults are gathered while documents are read."""

    found: list[tuple[Document, KeyPath, bool, str, str, str, dict[str, object]]] = field(
        default_factory=list
    )

    def note(
        self, doc: Document, path: KeyPath, code: str, owner: str, shown: str, *, at_key: bool, **data: object
    ) -> None:
        """Note one fault; its line, column and did-you-mean are worked out at the end.

        `near` in the data is a word and the names it may have been meant for.
        """
        if not self.full:
            self.found.append((doc, path, at_key, code, owner, shown, data))

    @property
    def full(self) -> bool:
        """Whether so many faults are noted that no more are."""
        return len(self.found) >= MOST_FAULTS

    def faults(self) -> list[Fault]:
        """Return every fault, placed, in file order."""
        placed = []
        for doc, path, at_key, code, owner, shown, data in self.found:
            line, column = doc.position(path, key=at_key)
            word, names = cast("tuple[object, Collection[str]]", data.pop("near", ("", ())))
            data["hint"] = did_you_mean(word, names) if isinstance(word, str) else ""
            placed.append(Fault(code, doc.path, line, column, owner, shown, data))
        return sorted(placed, key=lambda f: (str(f.file), f.line, f.column))


def given(raw: object) -> str:
    """Name a raw value for a sentence, short and printable."""
    if isinstance(raw, dict):
        return "a table"
    if isinstance(raw, list):
        return f"a list of {len(raw)}" if raw else "an empty list"
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, frozenset):
        return "' and '".join(sorted(raw)).join("''")
    text = "".join(c if c.isprintable() else "?" for c in str(raw)[:60])
    return f"'{text}'"


def _thing(wanted: str) -> str:
    """Return what is wanted without saying so: the sentence about a wrong type says it itself."""
    return wanted.split(" is wanted")[0]


def shown_path(path: KeyPath) -> str:
    """Write a path inside an entry as `when.all[2].below`, counting from 1."""
    text = ""
    for part in path:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if text else part
    return text


class Table:
    """One table of a document, read key by key."""

    __slots__ = ("_known", "data", "doc", "inside", "owner", "path", "sink")

    def __init__(
        self, doc: Document, path: KeyPath, data: dict[str, Any], owner: str, sink: Sink, inside: KeyPath = ()
    ) -> None:
        self.doc, self.path, self.data, self.owner, self.sink = doc, path, data, owner, sink
        self.inside = inside
        """The path as a person counts it, from the entry on."""
        self._known: set[str] = set()

    def fault(self, code: str, at: KeyPath = (), *, at_key: bool = False, **data: object) -> None:
        """Note a fault at a key of this table."""
        shown = shown_path((*self.inside, *at))
        self.sink.note(self.doc, (*self.path, *at), code, self.owner, shown, at_key=at_key, **data)

    def has(self, key: str) -> bool:
        """Return whether the key is there; it then counts as known."""
        self._known.add(key)
        return key in self.data

    def unknown(self, code: str, at: KeyPath, raw: object, names: Collection[str]) -> None:
        """Note that a raw id is none of those there are, with a did-you-mean."""
        self.fault(code, at, id=given(raw).strip("'"), near=(raw, names))

    def mismatch(self, at: KeyPath, this: str, own: str, that: str, wanted: str) -> None:
        """Note that two things are measured in units that do not go together."""
        plain = "plain numbers"
        self.fault("wrong-dimension", at, this=this, given=own or plain, that=that, wanted=wanted or plain)

    def raw(self, key: str, wanted: str = "") -> Any:
        """Return a raw value, or None; `wanted` makes its absence a fault."""
        self._known.add(key)
        if key in self.data:
            return self.data[key]
        if wanted:
            self.fault("missing", at_key=True, wanted=wanted, key=key)
        return None

    def close(self, known: Collection[str] = ()) -> None:
        """Refuse every key that nobody asked for."""
        if len(self._known) >= len(self.data) and self._known >= self.data.keys():
            return
        names = self._known | set(known)
        for key in self.data:
            if self.sink.full:
                return
            if key not in names:
                self.sink.note(
                    self.doc, (*self.path, key), "unknown-key", self.owner,
                    shown_path(self.inside), at_key=True, key=given(key)[1:-1], near=(key, names),
                )  # fmt: skip

    def table(self, key: str, wanted: str = "") -> Table | None:
        """Return an inner table, or None."""
        raw = self.raw(key, wanted)
        if raw is None:
            return None
        if not isinstance(raw, dict):
            self.fault("wrong-type", (key,), wanted=_thing(wanted or "a table"), given=given(raw))
            return None
        return self.inner((key,), raw)

    def inner(self, key: KeyPath, raw: dict[str, Any]) -> Table:
        """Return a reader of a table inside this one."""
        return Table(self.doc, (*self.path, *key), raw, self.owner, self.sink, (*self.inside, *key))

    def items(self, key: str, wanted: str) -> list[Any]:
        """Return a list, bounded."""
        raw = self.raw(key, wanted)
        return [] if raw is None else self.listed((key,), raw, wanted)

    def listed(self, key: KeyPath, raw: object, wanted: str, least: int = 1) -> list[Any]:
        """Return a raw value as a list, bounded."""
        if not isinstance(raw, list) or len(raw) < least:
            self.fault("wrong-type", key, wanted=_thing(wanted), given=given(raw))
            return []
        if len(raw) > MOST_LIST:
            self.fault("too-many", key, count=len(raw), most=MOST_LIST)
            return raw[:MOST_LIST]
        return raw

    def sentence(self, key: str, wanted: str = "a sentence is wanted") -> str:
        """Return a text with something in it, free of control characters, bounded."""
        raw = self.raw(key, wanted)
        if raw is None:
            return ""
        if not isinstance(raw, str):
            self.fault("wrong-type", (key,), wanted="a text", given=given(raw))
            return ""
        if not raw.strip():
            self.fault("empty", (key,))
        elif len(raw) > MOST_TEXT:
            self.fault("too-long", (key,), count=len(raw), most=MOST_TEXT)
        elif not raw.isprintable():
            self.fault("control-character", (key,))
        return raw.strip()

    def id(self, key: str, pattern: re.Pattern[str], wanted: str) -> str:
        """Return an id of a certain shape."""
        raw = self.raw(key, f"an id is wanted, {wanted}")
        if raw is None:
            return ""
        if not isinstance(raw, str) or len(raw) > MOST_ID or not pattern.fullmatch(raw):
            self.fault("bad-id", (key,), given=given(raw), wanted=wanted)
            return ""
        return raw

    def word(self, key: str, words: Sequence[str], wanted: str = "") -> str:
        """Return one of several words, or nothing."""
        raw = self.raw(key, wanted)
        return "" if raw is None else self.match((key,), raw, words)

    def match(self, key: KeyPath, raw: object, words: Sequence[str]) -> str:
        """Hold a raw value against several words; nothing when it is none of them."""
        if isinstance(raw, str) and raw in words:
            return raw
        self.fault("not-a-word", key, given=given(raw), wanted=", ".join(words), near=(raw, words))
        return ""

    def text(self, key: str, wanted: str) -> str:
        """Return a short text that other entries are called by, or nothing."""
        raw = self.raw(key)
        if raw is None or isinstance(raw, str):
            return raw or ""
        self.fault("wrong-type", (key,), wanted=wanted, given=given(raw))
        return ""

    def flag(self, key: str) -> bool:
        """Return true or false; absent means false."""
        raw = self.raw(key)
        if raw is None or isinstance(raw, bool):
            return bool(raw)
        self.fault("wrong-type", (key,), wanted="true or false", given=given(raw))
        return False

    def whole(self, key: str, wanted: str, most: int = 10_000) -> int:
        """Return a whole number from 0 up."""
        raw = self.raw(key, wanted)
        if raw is None:
            return 0
        if isinstance(raw, bool) or not isinstance(raw, int) or not 0 <= raw <= most:
            self.fault("wrong-type", (key,), wanted=f"a whole number from 0 to {most}", given=given(raw))
            return 0
        return raw

    def quantity(self, key: KeyPath, raw: object, symbol: str, *, difference: bool = False) -> float | None:
        """Read a quantity into SI; None after a fault. A difference ignores a scale's own zero."""
        if isinstance(raw, bool) or not isinstance(raw, str | int | float):
            self.fault("wrong-type", key, wanted="a number with its unit", given=given(raw))
            return None
        if not isinstance(raw, str) and not math.isfinite(raw):
            self.fault("not-finite", key, given=given(raw))
            return None
        try:
            value = parse(raw, symbol)
            if difference and unit(symbol).dimension == "temperature":
                rest = _NUMBER_HEAD.sub("", raw) if isinstance(raw, str) else ""
                value -= parse(f"0 {rest}".strip(), symbol)
        except (UnitError, OverflowError) as error:
            self.fault("bad-quantity", key, why=str(error) or "that is too large")
            return None
        if not math.isfinite(value):
            self.fault("not-finite", key, given=given(raw))
            return None
        return value

    def pair(self, key: str, symbol: str, wanted: str) -> tuple[float, float] | None:
        """Read two rising quantities."""
        raw = self.raw(key, wanted)
        if raw is None:
            return None
        if not isinstance(raw, list) or len(raw) != 2:
            self.fault("wrong-type", (key,), wanted="a pair [lowest, highest]", given=given(raw))
            return None
        low, high = (self.quantity((key, i), end, symbol) for i, end in enumerate(raw))
        if low is None or high is None:
            return None
        if not low < high:
            self.fault("range-order", (key,))
            return None
        return low, high
