"""A session that is open, and where its changes go."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path

from interview.session.identity import is_id, numbered_id
from interview.session.record import Session
from interview.session.writing import session_text
from interview.store.files import digest, locked, private_folder, replace_file, sweep, text_digest
from interview.store.folders import state_folder


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
        if self._copy:
            return self._save_copy(session)
        with locked(self._lock()):
            now = digest(self._file)
            if now is None and self._seen is not None:
                self.notices.append(f"session '{self.id}' had been forgotten meanwhile and is kept again")
            elif now != self._seen:
                return self._save_beside(session)
            return self._write(session)

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
            original, id = self._file, self._free_id(session.id)
            self._file, self._seen, self._copy = self._home / f"{id}.toml", None, False
            self.notices.append(
                f"{original} is left as it is; changes are kept in the store as session '{id}'"
            )
            return self._write(replace(session, id=id))

    def _save_beside(self, session: Session) -> Session:
        """Keep our version beside one that somebody else wrote since we read it."""
        theirs = self._file
        id = self._free_id(session.id, taken=True)
        self._file, self._seen = theirs.with_name(f"{id}.toml"), None
        self.notices.append(
            f"somebody else changed {theirs.name} meanwhile; theirs stands and yours is kept as '{id}'"
        )
        return self._write(replace(session, id=id))

    def _free_id(self, id: str, *, taken: bool = False) -> str:
        """Return the first id of its family that no file has."""
        folder = self._home if self._copy else self._file.parent
        if not taken and not (folder / f"{id}.toml").exists():
            return id
        stem = id if is_id(id) else "session"
        number = 2
        while (folder / f"{numbered_id(stem, number)}.toml").exists():
            number += 1
        return numbered_id(stem, number)

    def _write(self, session: Session) -> Session:
        """Replace the file; the lock is held."""
        text = session_text(session)
        sweep(self._file)
        replace_file(self._file, text)
        self.session, self._seen = session, text_digest(text)
        return session
