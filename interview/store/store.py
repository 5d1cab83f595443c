"""The store of sessions: a folder of files, each found by its id or by the code on its ticket."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from interview.session.identity import checked_id, is_id, read_ticket, ticket_code
from interview.session.reading import load
from interview.session.record import Session
from interview.store.draft import Draft
from interview.store.faults import AlreadyThere, CannotKeep, CannotLook, Lapsed, NoSuchSession
from interview.store.files import digest, locked, private_folder, sweep_folder
from interview.store.listing import Entry, local_day, moment_of, read_entry
from rules.paths import typed_path

if TYPE_CHECKING:
    from rules.engine.language import Fact

_DAMAGED = "damaged"
"""Folder inside the store for files that could not be read and were kept aside."""
_SHEETS, _READERS = "sheets", ("golfer", "workshop")
"""Folder beside the store for the pages written from it, and whose pages there are."""


class Store:
    """The sessions kept in one folder. Reading never changes a file, however damaged it is.

    A ticket whose day is over is neither listed, found nor opened, also while it waits to be deleted.
    """

    def __init__(self, folder: Path, today: Callable[[], date] = local_day) -> None:
        self.folder = folder
        self._today = today

    def file(self, id: str) -> Path:
        """Return where the session of this id is or would be; BadId when it cannot be an id."""
        return self.folder / f"{checked_id(id)}.toml"

    @property
    def sheets(self) -> Path:
        """Return the folder for pages written of the sessions: beside the store, its owner's alone."""
        return self.folder.absolute().with_name(_SHEETS)

    def pages(self, id: str) -> tuple[Path, ...]:
        """Return the pages of a session that are in that folder."""
        files = (self.sheets / f"{checked_id(id)}-{reader}.html" for reader in _READERS)
        return tuple(file for file in files if os.path.lexists(file))

    def ids(self) -> tuple[str, ...]:
        """Return every id, in order of the alphabet; CannotLook where the folder may not be listed."""
        try:
            names = os.listdir(self.folder)
        except FileNotFoundError:
            return ()
        except OSError as error:
            raise CannotLook(self.folder, error) from None
        stems = (name.removesuffix(".toml") for name in names if name.endswith(".toml"))
        return tuple(sorted(stem for stem in stems if is_id(stem)))

    def entries(self) -> tuple[Entry, ...]:
        """Return what each session is about, last changed first; damaged ones say so."""
        today = self._today()
        return tuple(entry for entry in self._all() if not entry.lapsed(today))

    def _all(self) -> tuple[Entry, ...]:
        """Return the entries of every file, lapsed tickets too."""
        found = [entry for id in self.ids() if (entry := read_entry(self.file(id))) is not None]
        return tuple(sorted(found, key=lambda e: (e.changed, e.id), reverse=True))

    def find(self, text: str) -> tuple[Entry, ...]:
        """Return the sessions in which every word of a text occurs, or whose ticket has this code."""
        words = text.casefold().split()
        code = read_ticket(text)
        return tuple(
            entry
            for entry in self.entries()
            if (words and all(word in entry.words for word in words)) or ticket_code(entry.id) == code
        )

    def locate(self, text: str) -> Path:
        """Return the file that SESSION on a command line means: a path, an id or a ticket's code.

        A path ends in `.toml` or holds a separator, and may not exist. NoSuchSession when an id or a
        code finds nothing, Lapsed when it is of a ticket whose day is over.
        """
        if text.endswith(".toml") or "/" in text or os.sep in text:
            return self._readable(typed_path(text))
        return self._readable(self.file(self.named(text)))

    def _readable(self, file: Path) -> Path:
        """Return a file that may still be read; Lapsed for a ticket of this store that may not."""
        entry = read_entry(file) if self.holds(file) else None
        if entry is not None and entry.expires is not None and entry.lapsed(self._today()):
            raise Lapsed(ticket_code(entry.id), entry.expires)
        return file

    def named(self, text: str) -> str:
        """Return the id that an id or a ticket's code stands for; NoSuchSession when there is none."""
        ids = self.ids()
        if text in ids:
            return text
        code = read_ticket(text)
        found = next((id for id in ids if code is not None and ticket_code(id) == code), None)
        if found is None:
            raise NoSuchSession(text, ids)
        return found

    def holds(self, file: Path) -> bool:
        """Return whether a file belongs to this store."""
        return file.resolve().parent == self.folder.resolve()

    def open(self, text: str, facts: Mapping[str, Fact], *, in_place: bool = False) -> Draft:
        """Open a session for change. A file outside the store is copied at its first change.

        `in_place` writes to the file itself instead. Raises NoSuchSession, FileProblem or SessionFaults.
        """
        file = self.locate(text)
        seen = _seen(file)
        session = load(file, facts)
        inside = self.holds(file)
        if inside:  # the name is what everybody finds it by
            session = replace(session, id=file.stem if is_id(file.stem) else session.id)
        return Draft(session, file, seen, self.folder, copy=not inside and not in_place)

    def begin(self, session: Session) -> Draft:
        """Begin a session; its file appears with its first change.

        A damaged file of its id is kept aside first, with a notice; AlreadyThere when a sound one has it.
        """
        file = self.file(session.id)
        draft = Draft(session, file, None, self.folder, copy=False)
        private_folder(self.folder)
        with locked(self.folder / ".lock"):
            entry = read_entry(file)
            if entry is not None and not entry.damaged:
                raise AlreadyThere(session.id)
            if entry is not None:
                aside = self._set_aside(file)
                draft.notices.append(f"the damaged file {file.name} is kept aside as {aside}")
        return draft

    def _set_aside(self, file: Path) -> Path:
        """Move a damaged file out of the way, never over another; the lock is held."""
        folder = self.folder / _DAMAGED
        private_folder(folder)
        number = 1
        while os.path.exists(aside := folder / f"{file.stem}-{number}.toml"):
            number += 1
        try:
            os.rename(file, aside)
        except OSError as error:
            raise CannotKeep(aside, error) from None
        return aside

    def forget(self, id: str) -> None:
        """Delete a session, its pages and whatever was kept aside of it; NoSuchSession when there is none."""
        file = self.file(id)
        aside = [p for p in (self.folder / _DAMAGED).glob(f"{id}-*.toml") if p.stem[len(id) + 1 :].isdigit()]
        if not os.path.lexists(file) and not aside:
            raise NoSuchSession(id, self.ids())
        with locked(self.folder / ".lock"):
            for path in (file, *aside, *self.pages(id), *self.folder.glob(f".{file.name}.*.tmp")):
                try:
                    path.unlink(missing_ok=True)
                except OSError as error:
                    raise CannotKeep(path, error) from None

    def old(self, before: datetime, today: date) -> tuple[Entry, ...]:
        """Return the sessions last changed before a moment, and those whose consent has run out."""
        return tuple(e for e in self._all() if e.changed < before or e.lapsed(today))

    def purge(self, before: datetime, today: date) -> tuple[Entry, ...]:
        """Forget the old sessions with their pages, and what was kept aside as long ago; return them."""
        gone = self.old(before, today)
        for entry in gone:
            with contextlib.suppress(NoSuchSession):  # another kiosk was quicker
                self.forget(entry.id)
        for path in (self.folder / _DAMAGED).glob("*.toml"):
            with contextlib.suppress(OSError):
                if moment_of(path.stat().st_mtime) < before:
                    path.unlink()
        if any(self.folder.glob(".*.tmp")):  # what a killed writer left is nobody's, and has no last day
            with locked(self.folder / ".lock"):
                sweep_folder(self.folder, ".toml")
        return gone


def _seen(file: Path) -> str | None:
    """Return the digest of a file that is about to be read; reading it tells what is wrong with it."""
    try:
        return digest(file)
    except CannotKeep:
        return None
