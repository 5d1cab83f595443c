"""Reads where something comes from; a source without its parts is refused."""

from __future__ import annotations

import re

from rules.engine.language import Source
from rules.engine.reading.table import Table, given

_NEEDS: dict[str, tuple[str, ...]] = {
    "published": ("author", "year", "title", "place"),
    "common_practice": (),
    "memory": ("note",),
    "assumption": ("note",),
}
"""What each kind of source must hold; every kind may hold a note."""
_RULES_OF = re.compile(r"rules_of_[a-z_]{2,30}")
"""The written rules of a game or trade, by its name."""
_RULES_NEED = ("rule", "edition")
_PLAIN = Source("common_practice", {})
_KIND_WANTED = "the kind of source is wanted: " + ", ".join((*_NEEDS, "rules_of_..."))
_WANTED = "where it comes from is wanted, such as source = { kind = 'common_practice' }"


def read_source(table: Table) -> Source:
    """Read the `source` of an entry."""
    source = table.table("source", _WANTED)
    if source is None:
        return _PLAIN
    if source.data == {"kind": "common_practice"}:
        return _PLAIN
    raw = source.raw("kind")
    is_rules = isinstance(raw, str) and _RULES_OF.fullmatch(raw) is not None
    kind = str(raw) if is_rules else source.word("kind", (*_NEEDS, "rules_of_..."), _KIND_WANTED)
    needs = _RULES_NEED if is_rules else _NEEDS.get(kind, ())
    parts: dict[str, str | int] = {}
    for key in dict.fromkeys((*needs, "note")):
        raw = source.raw(key)
        if raw is None:
            continue
        if (
            isinstance(raw, bool)
            or not isinstance(raw, str | int)
            or not str(raw).strip()
            or len(str(raw)) > 400
        ):
            source.fault("wrong-type", (key,), wanted="a short text", given=given(raw))
        else:
            parts[key] = raw
    lacking = [key for key in needs if not source.has(key)]
    if lacking:
        source.fault("bad-source", at_key=True, kind=kind, wanted=" and ".join(lacking))
    source.close(("author", "year", "title", "place", "rule", "edition") if not kind else ())
    return Source(kind, parts)
