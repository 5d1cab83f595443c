"""What would you ask next? An interview is stopped half-way, and the program's own choice is the key."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import TYPE_CHECKING

from rules.facts.answers import UNKNOWN
from rules.fitting import fit
from rules.lessons.exercises.exercise import Exercise, Figure, Name, Option, Row

if TYPE_CHECKING:
    from rules.facts.answers import Answer
    from rules.lessons.case import Case
    from rules.questions import Questions

OPTIONS = 4
"""Answers to choose from, where there are that many."""
FEWEST = 3
"""With fewer there is nothing to choose."""


def asking(case: Case, id: str, seed: int) -> Exercise | None:
    """Ask what to ask next where the interview has come to a topic; None where nothing is worth asking.

    Earlier topics are done with: what was not answered there is closed. Of the topic itself some answers
    are known, of later ones none.
    """
    dice = Random(f"asking {case.id} {seed}")
    topics = list(case.base.topics)
    dice.shuffle(topics)
    for topic in topics:
        told = _told(case, topic, dice)
        answers = {**_closed(case, topic), **{one: case.subject.answers[one] for one in told}}
        found = fit(case.house, replace(case.subject, answers=answers)).questions
        if not found.worth_asking or _topic(case, found.worth_asking[0]) != topic:
            continue
        others = _others(case, found)
        if len(others) >= FEWEST - 1:
            chosen = [found.worth_asking[0], *dice.sample(others, min(OPTIONS - 1, len(others)))]
            dice.shuffle(chosen)
            return _exercise(case, id, told, found, chosen)
    return None


def _told(case: Case, topic: str, dice: Random) -> tuple[str, ...]:
    """Return the answers that are in: all of earlier topics, and up to half of this one."""
    order = case.base.topics.index(topic)
    earlier = [id for id in case.subject.answers if _order(case, id) < order]
    here = [id for id in case.subject.answers if _order(case, id) == order]
    some = dice.sample(here, dice.randint(0, len(here) // 2))
    return tuple(id for id in case.base.facts if id in {*earlier, *some})


def _closed(case: Case, topic: str) -> dict[str, Answer]:
    """Return every question of earlier topics as asked and not known."""
    order = case.base.topics.index(topic)
    return {id: UNKNOWN for id, fact in case.base.facts.items() if fact.ask and _order(case, id) < order}


def _order(case: Case, id: str) -> int:
    """Return the place of a question's topic."""
    return case.base.topics.index(_topic(case, id))


def _others(case: Case, questions: Questions) -> list[str]:
    """Return the questions that are plainly not next: needless ones, and weaker ones of the same topic."""
    key = questions.worth_asking[0]
    weaker = [
        id
        for id in questions.worth_asking[1:]
        if _topic(case, id) == _topic(case, key)
        and questions.stakes.get(id, 0.0) < questions.stakes.get(key, 0.0)
    ]
    return [*questions.needless, *weaker]


def _topic(case: Case, id: str) -> str:
    ask = case.base.facts[id].ask
    return ask.topic if ask else ""


def _exercise(
    case: Case, id: str, told: tuple[str, ...], questions: Questions, chosen: list[str]
) -> Exercise:
    """Put the exercise together."""
    ranked = sorted(chosen, key=lambda one: (one in questions.needless, -questions.stakes.get(one, 0.0)))
    rows = []
    for one in ranked:
        stake = Figure(questions.stakes.get(one, 0.0), "", difference=True)
        what = "needless" if one in questions.needless else "always" if _always(case, one) else "stake"
        rows.append(Row(what, {"fact": Name("fact", one), "points": stake}))
    return Exercise(
        id=id,
        kind="asking",
        case=case.id,
        topic="asking",
        values={"topic": Name("topic", _topic(case, questions.worth_asking[0]))},
        options=tuple(Option(one, {"fact": Name("fact", one)}) for one in chosen),
        key=questions.worth_asking[0],
        working=tuple(rows),
        told=told,
    )


def _always(case: Case, id: str) -> bool:
    """Say whether a question is asked whatever is settled."""
    ask = case.base.facts[id].ask
    return ask is not None and ask.always
