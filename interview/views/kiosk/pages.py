"""From a visit to its page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.kiosk import asking, ending
from interview.views.kiosk.page import Page, Tile
from interview.views.kiosk.words import Say, day

if TYPE_CHECKING:
    from interview.conversation import Conversation
    from interview.kiosk.visit import Visit


def page_of(conversation: Conversation, visit: Visit, seconds_left: int = 0) -> Page:
    """Return what a visit shows. `seconds_left` are those until everything is forgotten."""
    say = Say(conversation.wording)
    if visit.cover:
        return _covering(conversation, visit, say, seconds_left)
    if visit.place == "asking":
        return asking.question(conversation, visit, say)
    if visit.place in ("clubs", "tries", "mind", "nothing") and visit.state is not None:
        return ending.outcome_page(visit, say)
    if visit.place == "consent":
        return _consent(conversation, visit, say)
    return {"stopped": _stopped, "ticket": _ticket, "staff": _staff}.get(visit.place, _welcome)(visit, say)


def _welcome(visit: Visit, say: Say) -> Page:
    """Nobody is there: what this is, and a tile to begin."""
    return Page(
        heading=say("welcome.heading"),
        text=("", say("welcome.text"), "", say("welcome.privacy"), ""),
        tiles=(Tile("start", say("welcome.start"), "1"),),
        foot=(Tile("staff", say("welcome.staff")),),
        above=say("brand"),
        notice=say(f"welcome.{visit.note}") if visit.note else "",
    )


def _covering(conversation: Conversation, visit: Visit, say: Say, seconds_left: int) -> Page:
    """What lies over a page."""
    if visit.cover == "why":
        return Page(
            heading=say("cover.why"),
            text=("", asking.why(conversation, visit), ""),
            tiles=(Tile("here", say("cover.here"), "1"),),
            above=say("brand"),
        )
    return Page(
        heading=say(f"cover.{visit.cover}"),
        text=("", say(f"cover.{visit.cover}_text", seconds=seconds_left), ""),
        tiles=(Tile("here", say("cover.here"), "1"), Tile("afresh", say("cover.afresh"), "2")),
        above=say("brand"),
    )


def _stopped(visit: Visit, say: Say) -> Page:
    """Swinging hurts: the fitting ends here."""
    return Page(
        heading=say("stopped.heading"),
        text=("", say("stopped.text"), "", say("stopped.mistake"), ""),
        tiles=(Tile("finish", say("ticket.finish"), "1"),),
        foot=(Tile("back", say("ask.back"), "B"),),
        above=say("brand"),
    )


def _consent(conversation: Conversation, visit: Visit, say: Say) -> Page:
    """Whether a ticket may be kept; the cursor stands on no."""
    answer = visit.state and visit.state.session.subject.answers.get("age_band")
    age = "unknown" if not answer or answer.unknown else answer.value
    tiles = []
    if age != "junior":
        tiles.append(Tile("yes", say("consent.yes"), "1"))
    if age == "junior":
        tiles.append(Tile("guardian", say("consent.yes_guardian"), "1"))
    elif age == "unknown":
        tiles.append(Tile("guardian", say("under_18"), "2"))
    tiles.append(Tile("no", say("consent.no"), str(len(tiles) + 1)))
    texts = [say("consent.text", until=day(visit.until))] if visit.until else []
    if age == "junior":
        texts.append(say("consent.guardian"))
    return Page(
        heading=say("consent.heading"),
        text=("", *texts, ""),
        tiles=tuple(tiles),
        foot=(Tile("back", say("ask.back"), "B"),),
        above=say("brand"),
        progress=say("progress.ending"),
        share=1.0,
        notice=say(f"consent.{visit.note}") if visit.note else "",
        cursor="no",
    )


def _ticket(visit: Visit, say: Say) -> Page:
    """The code to take along."""
    code, until = (visit.ticket.code, day(visit.ticket.until)) if visit.ticket else ("", "")
    return Page(
        heading=say("ticket.heading"),
        text=(say("ticket.text"), say("ticket.until", until=until), say("ticket.start"), ""),
        tiles=(Tile("finish", say("ticket.finish"), "1"),),
        above=say("brand"),
        code=code,
    )


def _staff(visit: Visit, say: Say) -> Page:
    """The staff's PIN; what is typed shows as stars."""
    return Page(
        heading=say("staff.heading"),
        text=(say("staff.text"),),
        tiles=asking.keypad(say, "staff.enter"),
        foot=(Tile("back", say("ask.back"), "B"),),
        above=say("brand"),
        entry="*" * len(visit.typed),
        notice=say(f"staff.{visit.note}", seconds=visit.seconds) if visit.note else "",
        shape="keypad",
        cursor="",
    )
