"""The kiosk's own phrases, said in the customer's voice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.wording.words import words

if TYPE_CHECKING:
    from datetime import date

    from interview.wording.words import Words


class Say:
    """Says the phrases of `[say.kiosk]`."""

    def __init__(self, wording: Words) -> None:
        self._wording = wording

    def __call__(self, key: str, **values: object) -> str:
        """Return a phrase with its braces filled; WordingProblem when there is none."""
        return self._wording.say(f"kiosk.{key}", "customer", **values)

    def has(self, key: str) -> bool:
        """Return whether there is such a phrase."""
        found: object = self._wording.phrases.get("kiosk")
        for part in key.split("."):
            found = found.get(part) if isinstance(found, dict) else None
        return isinstance(found, str)


PAGE_PHRASES = ("open", "again", "full", "closed", "more", "noscript")
"""Keys of what a browser's page says of itself."""


def page_phrases() -> dict[str, str]:
    """Return what a browser's page says of itself while the kiosk says nothing."""
    say = Say(words())
    return {key: say(f"web.{key}") for key in PAGE_PHRASES}


def day(date: date) -> str:
    """Write a date as a person reads it, such as 3 June 2026."""
    return f"{date.day} {date:%B %Y}"
