"""More rooms of the bay: the trial, the sheets, and what if; each opened lazily."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from textual.screen import Screen

    from interview.conversation import State
    from interview.screens.bay.app import BayApp
    from interview.screens.bay.desk import Desk, Step
    from interview.screens.bay.whatif import Change
    from interview.session import Session


class Annexe:
    """Opens the rooms that come after the talk, and takes back what they were left with."""

    desk: Desk

    if TYPE_CHECKING:

        def step(self, step: Step) -> None:
            """Let the desk hear something."""

        def tell(self, text: str, *, alert: bool = False) -> None:
            """Tell something in the line above the keys."""

    @property
    def _opener(self) -> BayApp:
        return cast("BayApp", cast("Screen[None]", self).app)

    # The trial

    def action_balls(self) -> None:
        """Note the balls of a trial; clubs that were not hit yet are asked for first."""
        from interview.screens.bay.clubs import reading_trial, usual_trial
        from interview.screens.kit.prompt import PromptScreen

        subject = self.desk.state.session.subject
        if hurts(self.desk.state):
            self.tell(self.desk.conversation.wording.say("balls.halted", "fitter"), alert=True)
        elif hit := tuple(dict.fromkeys(shot.club for shot in subject.shots if shot.outcome is not None)):
            self._open_balls(hit)
        else:
            hint = "Current club first, with semicolons between; of a new one kind and loft."
            screen = PromptScreen("Clubs of the trial", hint, usual_trial(self.desk.state), reading_trial)
            self._opener.push_screen(screen, self._named_clubs)

    def _named_clubs(self, text: str | None) -> None:
        """Take the clubs of a trial into the session, and begin it."""
        from interview.screens.bay.clubs import read_trial, with_trial_club

        if not text:
            return
        subject, facts = self.desk.state.session.subject, self.desk.conversation.base.facts
        known = {one.name for one in subject.owned} | {one.name for one in subject.trial_clubs}
        clubs = read_trial(text)
        for club in clubs:
            if club["name"] not in known:
                self.step(partial(with_trial_club, facts, club))
        self._open_balls(tuple(str(club["name"]) for club in clubs))

    def _open_balls(self, clubs: tuple[str, ...]) -> None:
        """Open the trial, as far as it has got."""
        from interview.screens.bay.balls import BallsScreen
        from rules.evidence.protocol import MOST_CLUBS, resumed

        state, conversation = self.desk.seen, self.desk.conversation
        protocol = resumed(state.session.subject, clubs[:MOST_CLUBS])
        facts = dict(conversation.base.facts)
        self._opener.push_screen(BallsScreen(state, protocol, conversation.wording, facts, self.step))

    # The sheets

    def action_papers(self) -> None:
        """Show the sheets of the fitting as it stands."""
        from interview.screens.bay.papers import PapersScreen

        make, desk = self._opener.sheets, self.desk
        if make is None:
            self.tell("The sheets are made by 'turfpair sheet'.", alert=True)
            return
        outcome, session = desk.state.outcome, desk.state.session
        self._opener.push_screen(PapersScreen(partial(make, outcome, session), self._opener.store.sheets))

    def action_keep(self) -> None:
        """Keep a golfer's ticket for good, which he has to agree to."""
        if self.desk.seen.session.record.expires is None:
            self.tell("This session has no day on which it is forgotten.")
            return
        self.step(_for_good)
        self.tell("It is kept for good; without the golfer's consent, 'turfpair sessions forget' it.")

    # What if

    def action_what_if(self) -> None:
        """Try other answers on a copy."""
        self.open_what_if("")

    def open_what_if(self, text: str) -> None:
        """Try other answers on a copy, beginning with one that was typed."""
        from interview.screens.bay.whatif import WhatIfScreen

        desk = self.desk
        self._opener.push_screen(WhatIfScreen(desk.conversation, desk.state, text), self._tried)

    def _tried(self, changes: tuple[Change, ...] | None) -> None:
        """Make the changes of the copy his own."""
        for change in changes or ():
            self.step(change)


def _for_good(session: Session) -> Session:
    """Return the session without the day on which it is forgotten."""
    return replace(session, record=replace(session.record, expires=None))


def hurts(state: State) -> bool:
    """Say whether a caution for the body stops the hitting."""
    return any(one.topic == "body" and one.kind == "caution" for one in state.outcome.notices)
