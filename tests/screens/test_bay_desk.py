"""The desk: kept before anything is worked out, newest first, and never two answers for one question."""

from __future__ import annotations

import threading
import time
from dataclasses import replace
from pathlib import Path

import pytest

from interview.conversation import Answered, Conversation, NotKnown, PassedOver, WentBack, WentTo
from interview.screens.bay.desk import Desk, Job, sit_down
from interview.screens.bay.faces import urgent
from interview.session import begin, load, with_override
from interview.store import Store
from rules.facts.answers import Answer
from rules.facts.subject import Subject
from rules.fitting import Outcome
from rules.problems import Problem

LEFT = {"hand": Answer("left")}


@pytest.fixture
def desk(conversation: Conversation, store: Store) -> Desk:
    return sit_down(conversation, store.begin(begin("desk")))


def finish(desk: Desk, job: Job | None) -> None:
    assert job is not None
    state = desk.run(job)
    assert state is not None
    assert desk.accept(job, state)


def test_an_answer_is_heard_at_once_and_worked_out_later(desk: Desk) -> None:
    job = desk.hear(Answered("handicap", "18", None))
    assert job is not None
    assert desk.busy
    assert desk.seen.session.subject.answers["handicap"].value == 18
    assert "handicap" not in desk.state.session.subject.answers
    finish(desk, job)
    assert not desk.busy
    assert desk.state.session.subject.answers["handicap"].value == 18
    assert "handicap" not in desk.state.open


def test_an_answer_to_another_question_does_not_hold_up_the_one_on_the_screen(desk: Desk) -> None:
    """A fitter types on: the question was on the screen all along. Its own answer holds the next one up."""
    assert desk.state.asking == "hand"
    desk.hear(Answered("handicap", "18", None))
    mine = Answered("hand", "left", desk.state.turn)
    assert not desk.waits(mine)
    job = desk.hear(mine)
    assert desk.waits(Answered("pain", "no", desk.state.turn))
    assert desk.hear(NotKnown("hand", desk.state.turn)) is None
    finish(desk, job)
    answers = desk.state.session.subject.answers
    assert (answers["hand"].value, answers["handicap"].value) == ("left", 18)
    assert desk.state.asking == "pain"


def test_what_was_said_is_on_the_disk_before_the_road_is_run(desk: Desk, conversation: Conversation) -> None:
    kept: list[bool] = []

    def watch(subject: Subject) -> Outcome:
        kept.append("handicap" in load(desk.draft.file, conversation.base.facts).subject.answers)
        return conversation.fit(subject)

    desk.conversation = replace(desk.conversation, fit=watch)
    finish(desk, desk.hear(Answered("handicap", "18", None)))
    assert kept == [True]


def test_one_key_press_answers_one_question(desk: Desk) -> None:
    """Three presses of one key before anything is worked out are one answer, not three."""
    turn, up = desk.state.turn, desk.state.asking
    assert up is not None
    first = desk.hear(NotKnown(up, turn))
    assert desk.hear(NotKnown(up, turn)) is None
    assert desk.hear(PassedOver(up, turn)) is None
    finish(desk, first)
    assert len(desk.state.session.subject.answers) == 1


def test_a_newer_answer_overtakes_an_older_run_and_both_stand(desk: Desk, conversation: Conversation) -> None:
    runs: list[int] = []

    def count(subject: Subject) -> Outcome:
        runs.append(1)
        return conversation.fit(subject)

    desk.conversation = replace(desk.conversation, fit=count)
    older = desk.hear(Answered("hand", "right", desk.state.turn))
    newer = desk.hear(Answered("tempo", "smooth", None))
    assert older is not None
    assert desk.run(older) is None, "overtaken before it began"
    finish(desk, newer)
    assert len(runs) == 1, "the road was run once for both"
    assert {"hand", "tempo"} <= set(desk.state.session.subject.answers)
    assert desk.state.asking not in ("hand", "tempo")


def test_an_overtaken_result_is_not_accepted(desk: Desk) -> None:
    older = desk.hear(Answered("hand", "right", None))
    assert older is not None
    worked = desk.run(older)
    newer = desk.hear(Answered("hand", "left", None))
    assert worked is not None
    assert not desk.accept(older, worked)
    finish(desk, newer)
    assert desk.state.session.subject.answers["hand"].value == "left"


def test_two_threads_run_one_road_at_a_time(desk: Desk, conversation: Conversation) -> None:
    inside: list[int] = []
    most: list[int] = []

    def slow(subject: Subject) -> Outcome:
        inside.append(1)
        most.append(len(inside))
        time.sleep(0.02)
        inside.pop()
        return conversation.fit(subject)

    desk.conversation = replace(desk.conversation, fit=slow)
    jobs = [desk.hear(Answered("handicap", str(n), None)) for n in (10, 11, 12)]
    threads = [threading.Thread(target=desk.run, args=(job,)) for job in jobs if job]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert max(most) == 1
    assert load(desk.draft.file, conversation.base.facts).subject.answers["handicap"].value == 12


def test_looking_changes_nothing_and_needs_no_work(desk: Desk) -> None:
    assert desk.hear(WentTo("tempo")) is None
    assert desk.state.asking == "tempo"
    assert desk.hear(WentBack(desk.state.turn)) is None
    assert desk.state.asking == "hand"
    assert not desk.draft.file.exists()


def test_skipping_is_kept_and_asks_on(desk: Desk) -> None:
    finish(desk, desk.hear(PassedOver("hand", desk.state.turn)))
    assert desk.state.session.record.skipped == ("hand",)
    assert desk.state.asking != "hand"
    assert desk.draft.file.exists()


def test_what_cannot_be_done_is_taken_back(desk: Desk) -> None:
    def refuses(subject: Subject) -> Outcome:
        raise Problem("not today")

    finish(desk, desk.hear(Answered("tempo", "smooth", None)))
    desk.conversation = replace(desk.conversation, fit=refuses)
    job = desk.hear(Answered("handicap", "18", None))
    assert job is not None
    with pytest.raises(Problem):
        desk.run(job)
    desk.drop(job)
    assert not desk.busy
    assert set(desk.seen.session.subject.answers) == {"tempo"}


def test_an_override_that_no_answer_fits_any_more_never_loses_the_answer(
    desk: Desk, conversation: Conversation
) -> None:
    """The pair a fitter took is made of heads for the right hand; then the golfer turns out a left-hander."""
    facts = conversation.base.facts
    pairs = desk.state.outcome.pairs
    left = desk.conversation.fit(replace(desk.state.session.subject, answers=LEFT))
    gone = next(id for id in pairs if id not in left.pairs)
    finish(desk, desk.hear(lambda s: with_override(s, facts, "pairing", gone)))
    finish(desk, desk.hear(Answered("hand", "left", None)))
    assert desk.state.session.subject.answers["hand"].value == "left"
    assert [one.followed for one in desk.state.outcome.overridden] == [False]
    assert any("cannot be followed any more" in text for text in urgent(desk.state))


def test_keep_all_keeps_what_was_heard_and_not_yet_worked_out(
    desk: Desk, conversation: Conversation, tmp_path: Path
) -> None:
    desk.hear(Answered("handicap", "18", None))
    desk.keep_all()
    assert load(desk.draft.file, conversation.base.facts).subject.answers["handicap"].value == 18
