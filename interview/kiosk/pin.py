"""The staff's PIN: stored as a salted scrypt hash, its tries limited and slowed.

A PIN is short, so whoever can read its file can find it out by trial; the file is its owner's alone, and
what protects a kiosk from a person at its screen is the waiting between tries.
"""

from __future__ import annotations

import base64
import contextlib
import hashlib
import hmac
import json
import math
import os
import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout

from rules.problems import Problem

SHORTEST, LONGEST = 6, 12
"""Digits of a PIN."""
_N, _R, _P = 2**14, 8, 5
"""Cost of scrypt (RFC 7914): one of the settings that the OWASP Password Storage Cheat Sheet lists as its
least, 16 MiB and about a tenth of a second a try. From memory."""
_SALT, _HASH = 16, 32
_FILE = "pin.json"
_LOCKED_FOR = 2.0
"""Seconds that a try waits for the tries at other kiosks before it."""


class PinProblem(Problem):
    """A PIN that cannot be taken, or a file of one that cannot be read."""


class BusyError(Exception):
    """Another kiosk looks at the PIN just now."""


def fault_of(pin: str) -> str | None:
    """Return what is wrong with a new PIN in one sentence, or None."""
    if not (pin.isascii() and pin.isdigit() and SHORTEST <= len(pin) <= LONGEST):
        return f"a PIN is {SHORTEST} to {LONGEST} digits and nothing else"
    steps = {int(after) - int(before) for before, after in pairwise(pin)}
    if len(set(pin)) < 3 or steps in ({1}, {-1}):
        return "that PIN is too easy to guess: use at least three different digits, not in a row"
    return None


@dataclass(frozen=True, slots=True)
class HashedPin:
    """A PIN as it is kept: its salt and its hash, never itself."""

    salt: bytes
    hash: bytes

    @classmethod
    def of(cls, pin: str) -> HashedPin:
        """Hash a new PIN; PinProblem when it is not fit to be one."""
        fault = fault_of(pin)
        if fault is not None:
            raise PinProblem(fault)
        salt = secrets.token_bytes(_SALT)
        return cls(salt, _hashed(pin, salt))

    def fits(self, pin: str) -> bool:
        """Return whether a typed PIN is the one, in a time that does not tell how near it came."""
        return hmac.compare_digest(self.hash, _hashed(pin[:LONGEST], self.salt))


def _hashed(pin: str, salt: bytes) -> bytes:
    return hashlib.scrypt(pin.encode(), salt=salt, n=_N, r=_R, p=_P, dklen=_HASH, maxmem=64 * 2**20)


class PinFile:
    """Where the hashed PIN and the count of wrong tries are kept, so that a restart forgives nothing."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / _FILE

    @property
    def exists(self) -> bool:
        """Return whether a PIN was ever set."""
        return self.path.exists()

    def set(self, pin: str) -> None:
        """Keep a new PIN and forgive all tries."""
        self._write(HashedPin.of(pin), 0, 0.0)

    def read(self) -> tuple[HashedPin, int, float]:
        """Return the PIN, how many wrong tries were made, and until when (Unix time) none is taken.

        Raises PinProblem when there is none or the file is damaged.
        """
        try:
            held: Any = json.loads(self.path.read_text(encoding="utf-8"))
            pin = HashedPin(_bytes(held["salt"], _SALT), _bytes(held["hash"], _HASH))
            return pin, int(held["tries"]), _moment(held["until"])
        except FileNotFoundError:
            raise PinProblem("no staff PIN is set: 'turfpair kiosk --set-pin' sets one") from None
        except (OSError, ValueError, ArithmeticError, RecursionError, KeyError, TypeError):
            raise PinProblem(
                f"{self.path} cannot be read: 'turfpair kiosk --set-pin' sets a new PIN"
            ) from None

    @contextlib.contextmanager
    def alone(self) -> Iterator[None]:
        """Keep other kiosks from looking at the PIN meanwhile; BusyError when one of them takes too long.

        Where no lock can be had, as on a full disk, it goes on without one.
        """
        lock = FileLock(self.path.with_suffix(".lock"), timeout=_LOCKED_FOR)
        try:
            lock.acquire()
        except Timeout:
            raise BusyError from None
        except OSError:
            yield
            return
        try:
            yield
        finally:
            lock.release()

    def note(self, tries: int, until: float) -> None:
        """Keep how many wrong tries were made and until when none is taken."""
        self._write(self.read()[0], tries, until)

    def _write(self, pin: HashedPin, tries: int, until: float) -> None:
        """Replace the file in one step, readable by its owner alone."""
        self.path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        held = {"salt": _text(pin.salt), "hash": _text(pin.hash), "tries": tries, "until": until}
        beside = self.path.with_suffix(".new")
        handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as out:
            json.dump(held, out)
            out.flush()
            os.fsync(out.fileno())
        os.replace(beside, self.path)


def _text(raw: bytes) -> str:
    return base64.b64encode(raw).decode()


def _moment(value: Any) -> float:
    seconds = float(value)
    if not math.isfinite(seconds):
        raise ValueError(value)
    return seconds


def _bytes(text: str, length: int) -> bytes:
    raw = base64.b64decode(text, validate=True)
    if len(raw) != length:
        raise ValueError(text)
    return raw
