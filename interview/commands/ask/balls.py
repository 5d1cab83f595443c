"""Six balls with each club, line by line: one key a ball, and what it changes told at once."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.session import with_club, with_shots, without_shot
from interview.text import one_line
from interview.views.outcome_text.page import Page
from interview.views.trial.live import live_lines
from interview.views.trial.said import Told
from rules.evidence.ball_text import read_ball
from rules.evidence.protocol import Protocol, ProtocolProblem, resumed
from rules.evidence.summary import Condition
from rules.facts.reading import SubjectProblem

if TYPE_CHECKING:
    from interview.commands.ask.talk import LineTalk

_ENDS = ("stop", "done", "end", "quit", "back")
_GROUNDS = ("turf", "mat", "tee")
_ORDERS = {"undo": "_undo", "more": "_more", "help": "_help", "?": "_help"}
_MOST = 6
"""Clubs of an earlier trial that are taken up again."""
_NEW_CLUB = re.compile(
    r"^(?P<name>.+?)\s*[=:]?\s*(?P<kind>\b(?:fairway|hybrid)\b)?"
    r"\s*(?P<loft>\b\d{1,2}(?:\.\d+)?)?\s*(?:deg|degrees)?$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Named:
    """A club as it was named: one of the session's, or a new one with what was told of it."""

    name: str
    kind: str | None = None
    """None for a club of the session."""
    loft: str | None = None
    """In degrees; None where it was not told."""

    @property
    def row(self) -> dict[str, object]:
        """Return a new club as the session file holds it."""
        loft = {"loft": f"{self.loft} deg"} if self.loft else {}
        return {"name": self.name, "kind": self.kind, **loft}


class LineBalls:
    """A trial in progress, over the lines of an interview; every ball is kept at once."""

    def __init__(self, talk: LineTalk) -> None:
        self.talk = talk
        self.protocol: Protocol | None = None
        self._chosen: str | None = None
        """The club that somebody said is hit next, whosever turn it is."""

    def run(self) -> None:
        """Log balls until everybody has had enough, or there are no more lines."""
        if self._hurts():
            self._say("halted")
            return
        self.protocol = self._begun()
        if self.protocol is None:
            self._say("no_clubs")
            return
        self._say("begin")
        self.talk.lines.say(self._phrase("safety"))
        self._announce()
        while (line := self.talk.lines.ask()) is not None:
            text = one_line(line, 200)
            if text.lower() in _ENDS or (not text and self.protocol.finished):
                return
            try:
                self._do(text)
            except (ProtocolProblem, SubjectProblem) as problem:
                self.talk.lines.say(f"{problem}.")
            self._announce()

    def _phrase(self, key: str, **values: object) -> str:
        return self.talk.conversation.wording.say(f"balls.{key}", self.talk.state.session.voice, **values)

    def _say(self, key: str, **values: object) -> None:
        self.talk.lines.say(self._phrase(key, **values))

    def _hurts(self) -> bool:
        """Say whether an answer stops the hitting."""
        notices = self.talk.state.outcome.notices
        return any(notice.topic == "body" and notice.kind == "caution" for notice in notices)

    def _begun(self) -> Protocol | None:
        """Take the trial up where the session left it, or ask which clubs; None when none is named."""
        subject = self.talk.state.session.subject
        hit = tuple(dict.fromkeys(shot.club for shot in subject.shots if shot.outcome is not None))
        if hit:
            return resumed(subject, hit[:_MOST])
        self._say("which")
        while (line := self.talk.lines.ask()) is not None:
            if not line.strip() or line.strip().lower() in _ENDS:
                return None
            try:
                return Protocol(self._clubs(line))
            except (ProtocolProblem, SubjectProblem) as problem:
                self.talk.lines.say(f"{problem}.")
        return None

    def _clubs(self, line: str) -> tuple[str, ...]:
        """Read the clubs of a trial; new ones are taken into the session. ProtocolProblem."""
        parts = [part for part in re.split(r"\s*[;,]\s*", one_line(line, 400)) if part]
        subject = self.talk.state.session.subject
        names = [club.name for club in subject.owned] + [club.name for club in subject.trial_clubs]
        known = {name.lower(): name for name in names}
        named = [named_club(part, known) for part in parts]
        for club in named:
            if club.kind is not None:
                facts = self.talk.conversation.base.facts
                self.talk.take(with_club(self.talk.state.session, facts, "trial_clubs", club.row))
        return tuple(club.name for club in named)

    def _do(self, text: str) -> None:
        """Do what one line asks for; anything that is no order is a ball."""
        assert self.protocol is not None
        word, _, rest = text.partition(" ")
        word = word.lower()
        if word in _GROUNDS and not rest:
            self._ground(self.protocol.on(word, indoors=self.protocol.indoors))  # type: ignore[arg-type]
        elif word in ("indoors", "outdoors") and not rest:
            self._ground(self.protocol.on(self.protocol.surface, indoors=word == "indoors"))
        elif word == "club" and rest:
            self._choose(rest)
        elif word in _ORDERS:
            getattr(self, _ORDERS[word])()
        elif text:
            self._struck(text)

    def _more(self) -> None:
        """Ask for six more with each club."""
        assert self.protocol is not None
        self.protocol = self.protocol.extended()
        self._say("more")

    def _help(self) -> None:
        self._say("begin")

    def _choose(self, text: str) -> None:
        """Let another club be hit next; one that is new to the trial joins it."""
        assert self.protocol is not None
        (name, *_) = self._clubs(text)
        if name not in self.protocol.clubs:
            self.protocol = self.protocol.with_club(name)
        self._chosen = name
        self._say("swap", club=name)

    def _ground(self, protocol: Protocol) -> None:
        """Note what is hit from here on, and say so."""
        self.protocol = protocol
        told = Told.on(Page(80), self.talk.state.session.voice, self.talk.units)
        self._say("surface", ground=told.ground(Condition(protocol.surface, protocol.indoors)))

    def _struck(self, text: str) -> None:
        """Take a ball, keep it, and tell what it changes."""
        assert self.protocol is not None
        after = self.protocol.struck(read_ball(text), self._chosen)
        state, facts = self.talk.state, self.talk.conversation.base.facts
        self.talk.take(with_shots(state.session, facts, [after.last_row()]))
        self.protocol, self._chosen = after, None
        now = self.talk.state
        for line in live_lines(state.outcome, now.outcome, after, now.session.voice, self.talk.units):
            self.talk.lines.say(line)

    def _undo(self) -> None:
        """Take the last ball of this trial back, in the session too."""
        assert self.protocol is not None
        shots = self.talk.state.session.subject.shots
        places = [i for i, s in enumerate(shots) if s.outcome is not None and s.club in self.protocol.clubs]
        if not places or not self.protocol.balls:
            self._say("nothing_to_undo")
            return
        facts = self.talk.conversation.base.facts
        self.talk.take(without_shot(self.talk.state.session, facts, places[-1]))
        self.protocol = self.protocol.undone()
        self._say("undone")

    def _announce(self) -> None:
        """Say whose ball is next."""
        assert self.protocol is not None
        turn = self.protocol.next
        if self._chosen is not None:
            return
        if turn is None:
            self._say("done")
            return
        if turn.new_block and self.protocol.balls:
            self._say("swap", club=turn.club)
        self._say("turn", club=turn.club, ball=turn.ball, of=turn.of, left=turn.left_in_block)


def named_club(text: str, known: dict[str, str]) -> Named:
    """Read one club: one that is known by its name, or a new one with its kind and, if told, its loft.

    A new club's kind may stand in its name (`demo hybrid`, `my 5-wood`). ProtocolProblem when it says none.
    """
    plain = " ".join(text.split())
    if plain.lower() in known:
        return Named(known[plain.lower()])
    match = _NEW_CLUB.match(plain)
    assert match is not None
    name, kind, loft = match["name"].strip(" =:"), match["kind"], match["loft"]
    if name.lower() in known:
        return Named(known[name.lower()])
    if kind is None:
        kind = "hybrid" if "hybrid" in name.lower() else "fairway" if "wood" in name.lower() else None
    if kind is None:
        raise ProtocolProblem(
            f"'{plain[:40]}' is not a club of this session; add fairway or hybrid, and its loft"
        )
    return Named(name, kind.lower(), loft)
