"""Ids and ticket codes: what a session is called on disk and on paper."""

from __future__ import annotations

import hashlib
import re
from datetime import datetime

from interview.session.faults import BadId

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_LONGEST = 64
_RESERVED = re.compile(r"(?:con|prn|aux|nul|(?:com|lpt)[0-9])")
"""Names that one widely used operating system keeps for devices."""
_BASE32 = "0123456789abcdefghjkmnpqrstvwxyz"
"""Digits and letters of Crockford's base 32 (D. Crockford, "Base 32"): no I, L, O or U to misread."""
_MISREAD = str.maketrans({"o": "0", "i": "1", "l": "1"})
_TICKET_BITS = 40


def checked_id(text: str) -> str:
    """Return an id that is fit to be a file name on every system, or raise BadId."""
    fits = len(text) <= _LONGEST and _ID.fullmatch(text) and not _RESERVED.fullmatch(text)
    if not fits:
        raise BadId(text)
    return text


def is_id(text: str) -> bool:
    """Return whether a text may be a session's id."""
    try:
        checked_id(text)
    except BadId:
        return False
    return True


def new_id(now: datetime, token: str | None = None) -> str:
    """Make an id from the date and a few random letters, so that two bays never choose the same."""
    import secrets

    letters = token if token is not None else "".join(secrets.choice(_BASE32) for _ in range(6))
    return checked_id(f"{now:%Y-%m-%d-%H%M}-{letters}")


def numbered_id(id: str, number: int) -> str:
    """Return the id under which the `number`th version of a session is kept."""
    tail = f"-{number}"
    return checked_id(f"{id[: _LONGEST - len(tail)].rstrip('-')}{tail}")


def ticket_code(id: str) -> str:
    """Return the eight characters printed on a ticket, such as `K7M4-Q2XD`.

    They follow from the id alone (forty bits of its SHA-256), so nothing has to be stored with them,
    and they tell nothing of the golfer.
    """
    number = int.from_bytes(hashlib.sha256(id.encode()).digest()[: _TICKET_BITS // 8])
    letters = "".join(_BASE32[number >> shift & 31] for shift in range(_TICKET_BITS - 5, -1, -5)).upper()
    return f"{letters[:4]}-{letters[4:]}"


def read_ticket(text: str) -> str | None:
    """Return a typed ticket code as it is printed, or None when it cannot be one.

    Case, blanks and hyphens do not matter; O reads as nought, I and L as one.
    """
    letters = re.sub(r"[\s-]", "", text.lower()).translate(_MISREAD)
    if len(letters) != _TICKET_BITS // 5 or any(letter not in _BASE32 for letter in letters):
        return None
    return f"{letters[:4]}-{letters[4:]}".upper()
