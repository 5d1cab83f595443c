"""What would change a decision, what is enough for it, and what it leans on: a study as the bay shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry import changing
from interview.views.inquiry.asked import explained
from interview.views.inquiry.words import Words
from interview.views.outcome_text.page import Page

if TYPE_CHECKING:
    from rules.fitting import Outcome
    from rules.inquiry.study import Study
    from rules.units import System


class Studies:
    """Remembers the study of the outcome that was studied last, for every decision asks the same."""

    def __init__(self) -> None:
        self._outcome: Outcome | None = None
        self._study: Study | None = None

    def of(self, outcome: Outcome) -> Study | None:
        """Return what is known of an outcome; None where nothing is yet."""
        return self._study if self._outcome is outcome else None

    def keep(self, outcome: Outcome, study: Study) -> None:
        """Remember what is known of an outcome by now."""
        self._outcome, self._study = outcome, study


def deeper_text(outcome: Outcome, study: Study | None, decision: str, system: System, width: int) -> str:
    """Return what a study says of a decision in lines of so many letters, or what is still awaited."""
    if study is None or not study.complete:
        known = "" if study is None or study.sure is None else f"Sure {study.sure.share * 100:.0f} %. "
        return f"{known}Every fact is being swung over its range; that takes a few seconds."
    page = Page(width)
    changing.write(explained(outcome, decision, None, study, system), page, Words(outcome, system))
    return page.text
