"""A session that is open, and where its changes go."""

from __future__ import annotations

import hashlib
import os
from dataclasses import replace
from pathlib import Path

from interview.folders import state_folder
from interview.session.identity import is_id, numbered_id
from interview.session.record import Session
from interview.session.writing import session_text
from interview.store.files import (
    digest,
    locked,
    private_folder,
    replace_file,
    sweep,
    sweep_folder,
    text_digest,
    unbroken,
)
from rules.paths import typed_path


class Draft:
    """An open session: keeps each change at once, never over somebody else's.

    `session` is the version last read or kept. `notices` gathers sentences the person should see (a
    copy was made, somebody else had changed the file); whoever shows them empties it.
    """

    def __init__(self, session: Session, file: Path, seen: str | None, home: Path, *, copy: bool) -> None:
        self.session = session
        self.notices: list[str] = []
        self._file = file
        self._seen = seen
        """Digest of the file as we last read or wrote it; None for one that does not exist yet."""
        self._home = home
        self._copy = copy
        self._swept = False
        self.moved = False
        """Whether it is kept elsewhere than in the store."""

    @property
    def file(self) -> Path:
        """The file that holds the session, or will once something is changed."""
        return self._file

    @property
    def id(self) -> str:
        """The session's id, which changes when a version has to be kept beside another."""
        return self.session.id

    def save(self, session: Session) -> Session:
        """Keep a new version and return it, renamed if it had to be kept beside another's.

        Nothing is written when nothing changed. Raises CannotKeep or Busy; the old version stands then.
        """
        if session == self.session:
            return session
        with unbroken():
            return self._save_copy(session) if self._copy else self._save(session)

    def _save(self, session: Session) -> Session:
        """Keep a new version where the session is, or beside what somebody else has put there."""
        with locked(self._lock()):
            now = digest(self._file)
            if now is not None and now != self._seen:
                return self._save_beside(session)
            forgotten = now is None and self._seen is not None
            kept = self._write(session, self._file)
        if forgotten:
            self.notices.append(f"session '{self.id}' had been forgotten meanwhile and is kept again")
        return kept

    def elsewhere(self, folder: Path, session: Session) -> Session:
        """Keep a version in another folder, and every later one there too; return it.

        For a place that can no longer be written. Raises CannotKeep or Busy; the place then stays what
        it was.
        """
        home = typed_path(folder).absolute()
        private_folder(home)
        with unbroken(), locked(home / ".lock"):
            id = self._free_id(session.id, home)
            kept = self._write(replace(session, id=id), home / f"{id}.toml")
        self._home, self._copy, self.moved = home, False, True
        return kept

    def _lock(self) -> Path:
        """Return the lock of the folder; a file outside the store is locked from the state folder."""
        if self._file.resolve().parent == self._home.resolve():
            return self._home / ".lock"
        name = hashlib.sha256(str(self._file.resolve()).encode()).hexdigest()[:16]
        return state_folder() / "locks" / f"{name}.lock"

    def _save_copy(self, session: Session) -> Session:
        """Keep the first change to a file outside the store as a session of the store."""
        private_folder(self._home)
        with locked(self._home / ".lock"):
            original, id = self._file, self._free_id(session.id, self._home)
            kept = self._write(replace(session, id=id), self._home / f"{id}.toml")
        self._copy = False
        self.notices.append(
            f"changes to {original} are kept in the store as session '{id}'; the file is left as it is"
        )
        return kept

    def _save_beside(self, session: Session) -> Session:
        """Keep our version beside one that somebody else wrote since we read it."""
        theirs = self._file
        id = self._free_id(session.id, theirs.parent, taken=True)
        kept = self._write(replace(session, id=id), theirs.with_name(f"{id}.toml"))
        self.notices.append(
            f"somebody else changed {theirs.name} meanwhile; theirs stands and yours is kept as '{id}'"
        )
        return kept

    def _free_id(self, id: str, folder: Path, *, taken: bool = False) -> str:
        """Return the first id of its family that no file of a folder has."""
        if not taken and not os.path.exists(folder / f"{id}.toml"):
            return id
        stem = id if is_id(id) else "session"
        number = 2
        while os.path.exists(folder / f"{numbered_id(stem, number)}.toml"):
            number += 1
        return numbered_id(stem, number)

    def _write(self, session: Session, file: Path) -> Session:
        """Replace a file, which is the session's from then on; the lock is held."""
        text = session_text(session)
        if not self._swept:
            self._sweep(file)
        replace_file(file, text)
        self._file, self.session, self._seen = file, session, text_digest(text)
        return session

    def _sweep(self, file: Path) -> None:
        """Take away what killed writers left: of all sessions where the lock is the store's, else of this."""
        self._swept = True
        if file.resolve().parent == self._home.resolve():
            sweep_folder(self._home, ".toml")
        else:
            sweep(file.resolve())
