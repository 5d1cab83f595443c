"""Gathers the entries of a folder and its overlays by id, before any is read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from rules.engine.document import Document, FileProblem, read_toml
from rules.engine.faults import Fault, RuleBaseFaults
from rules.engine.reading.table import Sink, Table, given

ENTRIES = ("fact", "assumption", "decision", "rule")
BASE_KEYS = ("schema", "name", "scopes", "topics", "largest_cliff", "off")
BASE_FILE = "base.toml"
MOST_FILES = 200
MOST_BYTES = 4_000_000
"""Bytes of all files of one folder together."""
MOST_ENTRIES = {"fact": 1000, "assumption": 1000, "decision": 100, "rule": 3000}


@dataclass(slots=True)
class Gathered:
    """Every entry by kind and id, in the order declared, and the tables of base.toml."""

    sink: Sink = field(default_factory=Sink)
    broken_files: list[Fault] = field(default_factory=list)
    entries: dict[str, dict[str, Table]] = field(default_factory=lambda: {kind: {} for kind in ENTRIES})
    base: Table | None = None
    changed: dict[tuple[str, str], Table] = field(default_factory=dict)
    """What an overlay has replaced or switched off so far."""


def gather(folder: Path, overlays: Sequence[Path]) -> Gathered:
    """Read every file of the folder and its overlays."""
    gathered = Gathered()
    for layer, place in enumerate((folder, *overlays)):
        documents = list(_documents(place, gathered.broken_files))
        for document in documents:
            _take(gathered, document, layer)
        for document in documents:
            _switch_off(gathered, document, layer)
    if gathered.base is None and not gathered.broken_files:
        raise RuleBaseFaults((Fault("no-base", folder, 0, 0, "", "", {}),))
    return gathered


def _documents(folder: Path, broken: list[Fault]) -> Iterator[Document]:
    """Yield the documents of a folder by name; files that cannot be read become faults."""
    try:
        if not folder.is_dir():
            code = "not-folder" if folder.exists() else "no-folder"
            raise RuleBaseFaults((Fault(code, folder, 0, 0, "", "", {}),))
        files = sorted(path for path in folder.iterdir() if path.suffix == ".toml")
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        raise RuleBaseFaults((Fault("closed-folder", folder, 0, 0, "", "", {"why": why}),)) from None
    if not files:
        raise RuleBaseFaults((Fault("no-files", folder, 0, 0, "", "", {}),))
    if len(files) > MOST_FILES:
        counts = {"count": len(files), "most": MOST_FILES}
        raise RuleBaseFaults((Fault("too-many-files", folder, 0, 0, "", "", counts),))
    if sum(path.stat().st_size for path in files if path.is_file()) > MOST_BYTES:
        raise RuleBaseFaults((Fault("too-much", folder, 0, 0, "", "", {"most": MOST_BYTES}),))
    for path in files:
        try:
            yield read_toml(path)
        except FileProblem as problem:
            if problem.code != "empty":
                data = {"why": problem.message}
                broken.append(Fault("bad-quantity", path, problem.line, problem.column, "", "", data))


def _take(gathered: Gathered, document: Document, layer: int) -> None:
    """Take the entries of one document."""
    top = Table(document, (), document.data, "", gathered.sink)
    is_base = document.path.name == BASE_FILE
    for key, raw in document.data.items():
        if key in ENTRIES:
            _take_entries(gathered, top, layer, key, raw)
        elif key == "off" and not (is_base and _plain(raw)):
            top.fault("off-elsewhere", (key,), at_key=True)
        elif not (is_base and key in BASE_KEYS):
            top.fault("unknown-table", (key,), at_key=True, near=(key, (*ENTRIES, *BASE_KEYS)))
    if is_base and layer == 0:
        gathered.base = top
    elif is_base and "schema" in document.data:
        read_schema(top)


def _take_entries(gathered: Gathered, top: Table, layer: int, kind: str, raw: Any) -> None:
    """Take the entries of one array of tables, replacing those of the layers below."""
    if not isinstance(raw, list):
        wanted = f"a list of tables, each under [[{kind}]],"
        top.fault("wrong-type", (kind,), at_key=True, wanted=wanted, given=given(raw))
        return
    for index, data in enumerate(raw):
        if not isinstance(data, dict):
            top.fault("wrong-type", (kind, index), at_key=True, wanted="a table", given=given(data))
        elif len(gathered.entries[kind]) >= MOST_ENTRIES[kind]:
            top.fault("too-many", (kind, index), at_key=True, count=len(raw), most=MOST_ENTRIES[kind])
            return
        else:
            id = data.get("id")
            usable = isinstance(id, str) and id.isprintable() and len(id) < 100
            name = f"{kind} '{id}'" if usable else f"{kind}[{index + 1}]"
            table = Table(top.doc, (kind, index), data, name, gathered.sink)
            _place(gathered, kind, id if isinstance(id, str) else f"\0{top.doc.path}{index}", table, layer)


def _place(gathered: Gathered, kind: str, id: str, table: Table, layer: int) -> None:
    """Put one entry under its id; twice in one layer is a fault, and so are two overlays on one id."""
    known = gathered.entries[kind]
    before, changed = known.get(id), gathered.changed.get((kind, id))
    folder = table.doc.path.parent
    if before is not None and (layer == 0 or (changed is not None and changed.doc.path.parent == folder)):
        table.fault("duplicate", ("id",), what=kind, id=id, where=place(before))
    elif changed is not None:
        table.fault("overlay-conflict", ("id",), id=id, where=place(changed))
    else:
        known[id] = table
        if layer:
            gathered.changed[kind, id] = table


def place(table: Table) -> str:
    """Name where a table stands."""
    line, _ = table.doc.position(table.path, key=True)
    return f"{table.doc.path.name} line {line}"


def _plain(off: object) -> bool:
    """Say whether something is a list of ids, or meant for one, and neither absent nor a table."""
    entries = off if isinstance(off, list) else [off]
    return off is not None and not any(isinstance(entry, dict) for entry in entries)


def _switch_off(gathered: Gathered, document: Document, layer: int) -> None:
    """Switch off the ids that an overlay names."""
    if document.path.name != BASE_FILE or not _plain(document.data.get("off")):
        return
    top = Table(document, (), document.data, "", gathered.sink)
    if layer == 0:
        top.fault("off-in-base", ("off",), at_key=True)
        return
    for index, id in enumerate(top.items("off", "a list of ids to switch off")):
        kinds = [kind for kind in ENTRIES if isinstance(id, str) and id in gathered.entries[kind]]
        if not kinds:
            known = [i for kind in ENTRIES for i in gathered.entries[kind]]
            top.unknown("off-unknown", ("off", index), id, known)
        for kind in kinds:
            before = gathered.changed.get((kind, id))
            if before is not None:
                top.fault("overlay-conflict", ("off", index), id=id, where=place(before))
            else:
                gathered.changed[kind, id] = top
                del gathered.entries[kind][id]


def read_schema(table: Table) -> None:
    """Refuse every schema but 1."""
    raw = table.raw("schema", "write schema = 1")
    if raw is not None and (isinstance(raw, bool) or raw != 1):
        table.fault("bad-schema", ("schema",), given=given(raw))
