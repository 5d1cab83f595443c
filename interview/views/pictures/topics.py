"""The map of the interview: its topics, and in each a sign for every question."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, cast

from interview.views.pictures.ink import (
    Ink,
    Picture,
    Role,
    Row,
    clipped,
    fitted,
    legend,
    padded,
    row,
    width_of,
)

if TYPE_CHECKING:
    from interview.views.bay.talk import QuestionView, TalkView, TopicView
    from interview.views.pictures.glyphs import Glyphs


def sign(question: QuestionView, glyphs: Glyphs) -> str:
    """Return the sign of how a question stands."""
    signs = {
        "known": glyphs.known, "unknown": glyphs.closed, "open": glyphs.open, "skipped": glyphs.skipped,
        "needless": glyphs.needless, "dormant": glyphs.dormant, "hidden": " ",
    }  # fmt: skip
    return signs[question.standing]


def topic_strip(talk: TalkView, width: int, glyphs: Glyphs) -> Picture:
    """Return the map as a strip: the spine of the interview in the first row, the rest in the second."""
    rows = []
    for spine in (True, False):
        parts = [_topic(topic, glyphs) for topic in talk.topics if topic.spine is spine]
        rows.append(_joined(parts, width))
    return tuple(rows)


def _joined(parts: Iterable[Row], width: int) -> Row:
    """Return several pieces in one row, as many as fit, a little apart."""
    inks: list[Ink] = []
    for part in parts:
        if sum(len(ink.text) for ink in inks) + width_of(part) > width and inks:
            break
        inks += [*part.inks, Ink(" ")]
    return fitted(Row(tuple(inks)), width)


def _topic(topic: TopicView, glyphs: Glyphs) -> Row:
    """Return one topic: its name, marked where the talk is, and a sign for each question."""
    mark, role = (glyphs.cursor, "head") if topic.up else (" ", "dim")
    name = Ink(f"{mark}{topic.short}", cast("Role", role))
    return row(name, " ", *(Ink(sign(one, glyphs), _role(one)) for one in topic.shown))


def _role(question: QuestionView) -> Role:
    """Return the role of a question's sign."""
    if question.up:
        return "strong"
    return "plain" if question.standing in ("known", "unknown", "open", "skipped") else "dim"


def topic_list(talk: TalkView, width: int, glyphs: Glyphs) -> Picture:
    """Return the whole map, a row a question: its key, its sign, its name and what was said to it."""
    return tuple(one for topic in talk.topics for one in _topic_rows(topic, width, glyphs))


def _topic_rows(topic: TopicView, width: int, glyphs: Glyphs) -> Iterator[Row]:
    """Yield the rows of one topic."""
    yield row(Ink(topic.title, "head"))
    title = max(6, min(32, width - 20))
    for one in topic.questions:
        quiet = one.standing in ("hidden", "needless", "dormant")
        yield row(
            Ink(f"{one.key:>2} ", "key"),
            Ink(f"{sign(one, glyphs)} "),
            Ink(padded(one.title, title), "dim" if quiet else "plain"),
            " ",
            Ink(clipped(one.said or _word(one), max(1, width - title - 7)), "strong" if one.said else "dim"),
            target=one.id,
        )


def _word(question: QuestionView) -> str:
    """Return how a question without an answer stands."""
    words = {
        "needless": "cannot matter",
        "skipped": "skipped",
        "hidden": "does not apply",
        "open": "open",
    }
    return words.get(question.standing, "")


def topic_key(width: int, glyphs: Glyphs) -> Picture:
    """Return what the signs of the map mean."""
    pairs = (
        (glyphs.known, "known"), (glyphs.closed, "not known"), (glyphs.open, "open"),
        (glyphs.skipped, "skipped"), (glyphs.needless, "cannot matter"), (glyphs.dormant, "not in use"),
    )  # fmt: skip
    return legend(pairs, width)
