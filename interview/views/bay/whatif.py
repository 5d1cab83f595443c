"""What if, side by side: the fitting as it is beside the same with answers changed on a copy."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.bay.parts import parts_view
from interview.views.bay.questions import said_text

if TYPE_CHECKING:
    from interview.conversation import Conversation, State
    from interview.views.bay.parts import PartsView
    from rules.fitting import Outcome
    from rules.units import System

NONE = "no pair"
_OPEN = "open"


@dataclass(frozen=True, slots=True)
class Beside:
    """One thing as it is and as it would be."""

    title: str
    now: str
    then: str

    @property
    def moved(self) -> bool:
        """Whether it is otherwise on the copy."""
        return self.now != self.then


@dataclass(frozen=True, slots=True)
class WhatIfView:
    """Both fittings, line by line."""

    changed: tuple[Beside, ...]
    """Answers that differ, in words."""
    pair: tuple[Beside, ...]
    """The pair and its lead."""
    clubs: tuple[tuple[str, tuple[Beside, ...]], ...]
    """Of each club its name among the two, and what was decided of it and follows."""
    gained: tuple[str, ...]
    """Cautions and advice that come up."""
    lost: tuple[str, ...]
    """Those that are no longer said."""

    @property
    def same(self) -> bool:
        """Whether nothing comes out otherwise."""
        lines = (*self.pair, *(line for _, of in self.clubs for line in of))
        return not any(line.moved for line in lines)


def whatif_view(conversation: Conversation, now: State, then: State) -> WhatIfView:
    """Return a fitting beside its copy."""
    system = now.session.units
    here, there = parts_view(now.outcome, system), parts_view(then.outcome, system)
    said = _said(now.outcome, system), _said(then.outcome, system)
    return WhatIfView(
        changed=tuple(_changed(conversation, now, then)),
        pair=(
            Beside("pair", _pair(here), _pair(there)),
            Beside("ahead", _lead(now.outcome), _lead(then.outcome)),
        ),
        clubs=tuple(
            (role, tuple(_club(role, here, there)))
            for role in ("longer", "shorter")
            if here.rows or there.rows
        ),
        gained=tuple(text for text in said[1] if text not in said[0]),
        lost=tuple(text for text in said[0] if text not in said[1]),
    )


def _changed(conversation: Conversation, now: State, then: State) -> Iterator[Beside]:
    """Yield the answers that differ."""
    before, after = now.session.subject.answers, then.session.subject.answers
    for id in dict.fromkeys((*before, *after)):
        if before.get(id) != after.get(id):
            texts = [said_text(conversation, state, id) or _OPEN for state in (now, then)]
            yield Beside(conversation.base.facts[id].title, texts[0], texts[1])


def _pair(view: PartsView) -> str:
    return " + ".join(view.names) if view.rows else NONE


def _lead(outcome: Outcome) -> str:
    """Return how far the rules' own pick is ahead, in points."""
    margin = outcome.pairing.margin if outcome.pairing else None
    return "" if margin is None else f"{margin / 1000:.2f}"


def _club(role: str, here: PartsView, there: PartsView) -> Iterator[Beside]:
    """Yield what was decided of one club, and what follows, on either side."""
    at = 0 if role == "longer" else 1
    yield Beside("club", here.names[at] or NONE, there.names[at] or NONE)
    now, then = (_lines(view, role) for view in (here, there))
    for title in dict.fromkeys((*now, *then)):
        yield Beside(title, now.get(title, ""), then.get(title, ""))


def _lines(view: PartsView, role: str) -> dict[str, str]:
    """Return the lines of one club by their titles."""
    decided = {one.title: getattr(one, role).text for one in view.rows}
    return decided | {one.title: getattr(one, role) for one in view.figures}


def _said(outcome: Outcome, system: System) -> tuple[str, ...]:
    """Return what is said beside a recommendation."""
    return tuple(dict.fromkeys(one.text(system) for one in outcome.notices))
