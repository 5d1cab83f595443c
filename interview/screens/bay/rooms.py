"""The rooms that open from the bay: reasons, overrides, questions, sessions, help; each opened lazily."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, cast

from interview.conversation import WentTo
from interview.screens.bay.orders import BAY
from interview.session import with_club, with_details, with_override, without_club, without_override

if TYPE_CHECKING:
    from textual.screen import Screen

    from interview.screens.bay.app import BayApp
    from interview.screens.bay.desk import Desk, Step
    from interview.screens.bay.override import Taken
    from interview.screens.bay.side import SideColumn
    from interview.session import Session
    from interview.views.bay.deeper import Studies


class Rooms:
    """Opens other screens from the bay and takes back what they were left with."""

    desk: Desk
    studies: Studies

    if TYPE_CHECKING:

        @property
        def side(self) -> SideColumn:
            """Return the right column."""

        def step(self, step: Step, noted: str = "") -> None:
            """Let the desk hear something, and say how it was understood."""

        def action_home(self) -> None:
            """Go back to the line."""

        def show_talk(self) -> None:
            """Show what was said and the question that is up."""

        def tell(self, text: str, *, alert: bool = False) -> None:
            """Tell something in the line above the keys."""

    @property
    def _bay(self) -> BayApp:
        return cast("BayApp", cast("Screen[None]", self).app)

    # Reasons and overrides

    def action_why(self) -> None:
        """Give the reasons of what is looked at."""
        self.open_why(*self.side.looked_at())

    def open_why(self, decision: str, rival: str = "") -> None:
        """Give the reasons of a decision, against a rival where one is named."""
        from interview.screens.bay.why import WhyScreen

        if self.desk.state.outcome.picked is not None:
            then = partial(self._left_why, decision)
            self._bay.push_screen(WhyScreen(self.desk.state, decision, rival, self.studies), then)

    def _left_why(self, decision: str, value: str | None) -> None:
        """Go on to decide it by hand, if that was asked for."""
        if value is not None:
            self.open_override(decision, value)

    def action_take(self) -> None:
        """Decide by hand what is looked at."""
        self.open_override(*self.side.looked_at())

    def open_override(self, decision: str, value: str = "") -> None:
        """Ask for a value, a reason, and show the price."""
        from interview.screens.bay.override import OverrideScreen

        if self.desk.state.outcome.picked is not None and not self.desk.busy:
            screen = OverrideScreen(self.desk.conversation, self.desk.state, decision, value)
            self._bay.push_screen(screen, self._took)

    def _took(self, taken: Taken | None) -> None:
        """Take a decision by hand, or give it back."""
        if taken is not None:
            self.step(partial(self._with_taken, taken))

    def _with_taken(self, taken: Taken, session: Session) -> Session:
        """Return the session with a decision taken by hand, or given back."""
        facts = self.desk.conversation.base.facts
        if not taken.value:
            return without_override(session, facts, taken.decision)
        return with_override(session, facts, taken.decision, taken.value, taken.reason)

    # Lists

    def action_map(self) -> None:
        """Show every question; one key goes to one."""
        from interview.screens.bay import faces
        from interview.screens.kit.lists import ListScreen
        from interview.views.bay.questions import talk_view

        talk = talk_view(self.desk.conversation, self.desk.state)
        keys = {one.key: one.id for topic in talk.topics for one in topic.questions if one.key}
        screen = ListScreen("Questions: press a key to go to one", faces.question_map(talk), keys, ("f4",))
        self._bay.push_screen(screen, self._went_to)

    def _went_to(self, question: str | None) -> None:
        """Go to a question."""
        if question:
            self.step(WentTo(question))
            self.action_home()

    def action_help(self) -> None:
        """Show every key and what it does."""
        from interview.screens.bay import faces
        from interview.screens.kit.lists import ListScreen

        self._bay.push_screen(ListScreen("Help", faces.help_page(BAY), leave=("f1",)))

    def action_orders(self) -> None:
        """List everything that can be done."""
        from interview.screens.kit.lists import list_orders

        list_orders(cast("Screen[None]", self), BAY)

    # The session

    def action_sessions(self) -> None:
        """Begin, find, resume or copy a session."""
        from interview.screens.bay.sessions import SessionsScreen

        self._bay.push_screen(SessionsScreen(self._bay.store, self.desk.draft.id), self._chose_session)

    def _chose_session(self, target: str | None) -> None:
        """Open what was chosen."""
        if target:
            self._bay.open_session(target)

    def action_note(self) -> None:
        """Write whose fitting this is."""
        from interview.screens.kit.prompt import PromptScreen

        note = self.desk.seen.session.note.split("\n")[0]
        hint = "A name or a word to find this session by. It is kept in the session's file, and nowhere else."
        self._bay.push_screen(PromptScreen("Name or note", hint, note), self.take_note)

    def take_note(self, text: str | None) -> None:
        """Keep the note; further lines that it may have stay."""
        if text is not None:
            more = self.desk.seen.session.note.split("\n")[1:]
            note = "\n".join([text, *more])
            self.step(lambda session: with_details(session, note=note))

    def action_elsewhere(self) -> None:
        """Ask for another folder to keep the session in."""
        from interview.screens.kit.prompt import PromptScreen
        from interview.store import another_place

        hint = "A folder that can be written; this session is kept there from here on."
        self._bay.push_screen(
            PromptScreen("Keep elsewhere", hint, str(another_place())), self._kept_elsewhere
        )

    def _kept_elsewhere(self, folder: str | None) -> None:
        """Keep the session where that was said."""
        from interview.store import StoreProblem

        if not folder:
            return
        try:
            self.desk.keep_elsewhere(Path(folder))
        except StoreProblem as problem:
            self.tell(f"{problem}.", alert=True)
            return
        self.show_talk()
        self.tell(f"Kept in {self.desk.draft.file} from here on; open it by that name.")

    def action_units(self) -> None:
        """Change how quantities are shown."""
        other = "metric" if self.desk.seen.session.units == "imperial" else "imperial"
        self.step(lambda session: with_details(session, units=other))  # type: ignore[arg-type]

    def action_club(self) -> None:
        """Add a club of his own to the ladder."""
        from interview.screens.bay.clubs import reading
        from interview.screens.kit.prompt import PromptScreen

        hint = "Name first, then what is known: 3-wood, 15 deg, 43 1/4 in, D2, 330 g, 185 yd, liked; or gone"
        self._bay.push_screen(PromptScreen("A club already owned", hint, reading=reading), self.take_club)

    def take_club(self, text: str | None) -> None:
        """Add a club that is owned, from the line that tells of it, and say how it was understood."""
        from interview.screens.bay.clubs import read_club, reading

        if text:
            noted = f"Noted, {reading(text)[0]}."
            self.step(partial(_with_club, self.desk, read_club(text)), noted)


def _with_club(desk: Desk, club: dict[str, object], session: Session) -> Session:
    """Return the session with one more club that is owned, more known of one of that name, or it gone."""
    facts = desk.conversation.base.facts
    if "gone" in club:
        return without_club(session, facts, "owned", str(club["name"]))
    owned = session.written.get("owned", [])
    before: dict[str, object] = next((one for one in owned if one.get("name") == club["name"]), {})
    return with_club(session, facts, "owned", {**before, **club})
