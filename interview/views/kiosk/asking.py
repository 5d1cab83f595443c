"""The page of one question: its words, its tiles with their pictures, and how far the interview is."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from interview.conversation import answer_text
from interview.kiosk.asking import at_most_left, scale, way
from interview.views.kiosk.drawings import balls, drawing
from interview.views.kiosk.page import Page, Tile
from interview.views.outcome_text.quantities import spelled
from rules.units import words

if TYPE_CHECKING:
    from interview.conversation import Conversation, State
    from interview.kiosk.visit import Visit
    from interview.views.kiosk.words import Say
    from interview.wording.words import Asked
    from rules.engine.language import Fact

_SCALES = {"confidence_fairway": "confidence", "confidence_hybrid": "confidence"}
"""Questions that share the words of their steps."""


def question(conversation: Conversation, visit: Visit, say: Say) -> Page:
    """Return the page of the question on the screen."""
    state = cast("State", visit.state)
    fact = conversation.base.facts[cast(str, state.asking)]
    asked = conversation.wording.asked(fact, "customer", state.hand)
    how = way(fact)
    left = 1 if visit.enough else at_most_left(conversation.base, state)
    number = len(state.trail) + 1
    tiles = keypad(say, "ask.enter", _signs(fact)) if how == "number" else _choices(fact, asked, visit, say)
    if how == "several":
        tiles = (*tiles, Tile("enter", say("ask.enter"), "T"))
    return Page(
        heading=asked.text,
        text=tuple(_texts(conversation, fact, asked, visit, say)),
        tiles=tiles,
        foot=_foot(state, say),
        above=conversation.wording.topic(fact.ask.topic if fact.ask else "", "customer"),
        progress=say(_progress(left, visit), number=number, left=left - 1),
        share=(number - 1) / max(1, number - 1 + left),
        entry=visit.typed if how == "number" else None,
        notice=_notice(fact, visit, say),
        shape="keypad" if how == "number" else "tiles",
        cursor=_cursor(fact, state),
    )


def why(conversation: Conversation, visit: Visit) -> str:
    """Return why the question on the screen is asked."""
    state = cast("State", visit.state)
    fact = conversation.base.facts[cast(str, state.asking)]
    return conversation.wording.asked(fact, "customer", state.hand).why


def _texts(conversation: Conversation, fact: Fact, asked: Asked, visit: Visit, say: Say) -> list[str]:
    """Return what stands below a question: how to answer, and what was said before."""
    state = cast("State", visit.state)
    how = way(fact)
    found = {"several": [say("ask.several")], "number": [asked.hint]}.get(how, [])
    answer = state.session.subject.answers.get(fact.id)
    if answer is not None and how != "several":
        said = answer_text(fact, asked, answer, conversation.wording, state.session.units)
        found = [*found, say("ask.before", answer=said)]
    return found


def _choices(fact: Fact, asked: Asked, visit: Visit, say: Say) -> tuple[Tile, ...]:
    """Return the choices as tiles, numbered from 1."""
    state = cast("State", visit.state)
    if way(fact) == "scale":
        return tuple(_step(fact, number, state, say) for number in scale(fact))
    answer = state.session.subject.answers.get(fact.id)
    said = {answer.value} if fact.kind == "choice" and answer and not answer.unknown else visit.marked
    return tuple(
        Tile(
            f"answer:{one.word}",
            one.text,
            str(at) if at < 10 else "",
            drawing(fact.id, one.word, state.hand),
            one.word in cast("frozenset[str]", said),
        )
        for at, one in enumerate(asked.choices, 1)
    )


def _step(fact: Fact, number: int, state: State, say: Say) -> Tile:
    """Return one step of a scale; its key is its own number."""
    key = f"scale.{_SCALES.get(fact.id, fact.id)}.{number}"
    answer = state.session.subject.answers.get(fact.id)
    marked = answer is not None and not answer.unknown and answer.value == number
    picture = balls(number, 6) if fact.id == "airborne_of_six" else ()
    return Tile(f"answer:{number}", say(key) if say.has(key) else str(number), str(number), picture, marked)


def keypad(say: Say, enter: str, extra: str = "") -> tuple[Tile, ...]:
    """Return a keypad of three columns, with a tile that takes what was typed; `extra` signs come last."""
    digits = tuple(Tile(f"digit:{digit}", digit, digit) for digit in "123456789")
    last = (Tile("rub", say("ask.rub")), Tile("digit:0", "0", "0"), Tile("enter", say(enter)))
    return (*digits, *last, *(Tile(f"digit:{sign}", sign, sign) for sign in extra))


def _progress(left: int, visit: Visit) -> str:
    """Return the phrase that tells how many questions can still come."""
    return "progress.sure" if visit.enough else "progress.last" if left <= 1 else "progress.left"


def _signs(fact: Fact) -> str:
    """Return the signs beside the digits: a handicap may have a decimal, and be better than nought."""
    return ".+" if fact.range[0] < 0 else ""


def _foot(state: State, say: Say) -> tuple[Tile, ...]:
    """Return what can always be pressed."""
    tiles = [Tile("back", say("ask.back"), "B")] if state.trail else []
    tiles.append(Tile("unknown", say("ask.unknown"), "D"))
    tiles += [Tile("why", say("ask.why"), "W"), Tile("over", say("ask.over"), "S")]
    return tuple(tiles)


def _cursor(fact: Fact, state: State) -> str:
    """Return where the cursor begins: on what was said before; a question nobody answered has none."""
    answer = state.session.subject.answers.get(fact.id)
    if answer is None:
        return ""
    if answer.unknown:
        return "unknown"
    how = way(fact)
    if how == "scale":
        return f"answer:{round(cast(float, answer.value))}"
    return f"answer:{answer.value}" if how == "choice" else "enter"


def _notice(fact: Fact, visit: Visit, say: Say) -> str:
    """Return what must be told of the last press."""
    if visit.note:
        return say(f"ask.{visit.note}")
    if not visit.refusal:
        return ""
    if fact.kind != "number":
        return say("ask.unreadable")
    units = cast("State", visit.state).session.units
    low, high = (spelled(words(value, fact.unit, units)) for value in fact.range)
    return say("ask.outside", low=low, high=high)
