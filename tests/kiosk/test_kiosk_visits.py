"""Visits without a screen: consent, tickets, going back, the young, and nothing left of anybody."""

from __future__ import annotations

import gc
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from interview.conversation import Conversation, State
from interview.kiosk.asking import LEFT_TO_THE_FITTER
from interview.kiosk.idle import IdleClock
from interview.kiosk.reception import Reception
from interview.kiosk.visit import Visit
from interview.session import Session, load, read_ticket
from interview.store import CannotKeep, Store
from rules.fitting import House

Walk = Callable[..., Visit]
NONSENSE = (
    "", "quit", "left", "answer:", "answer:nonsense", "digit:x", "digit:١", "next", "yes", "finish",
    "guardian",
)  # fmt: skip


def files(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_nothing_is_on_the_disk_until_somebody_agrees(to_the_end: Walk, walk: Walk, tmp_path: Path) -> None:
    before = files(tmp_path)
    ended = to_the_end(handicap="17", driver_carry="193", miss="left")
    consent = walk("next", "next", "next", visit=ended)
    assert consent.place == "consent"
    assert files(tmp_path) == before
    left = walk("no", visit=consent)
    assert (left.place, left.state, left.note) == ("welcome", None, "nothing_kept")
    assert files(tmp_path) == before


def test_a_ticket_holds_the_answers_a_date_and_no_name(
    to_the_end: Walk, walk: Walk, shelf: Store, house: House
) -> None:
    said = to_the_end(handicap="17", age_band="adult", driver_carry="193")
    ticket = walk("next", "next", "next", "yes", visit=said).ticket
    assert ticket is not None
    assert read_ticket(ticket.code.lower()) == ticket.code
    assert ticket.until == date(2026, 6, 3)
    kept = load(shelf.locate(ticket.code), house.base.facts)
    assert kept.record.consent
    assert kept.record.expires == ticket.until
    assert kept.record.rules_digest == house.base.digest
    assert kept.voice == "customer"
    assert kept.note == ""
    assert kept.subject.answers["handicap"].value == 17
    assert set(kept.record.skipped) <= set(LEFT_TO_THE_FITTER), "left open for the fitter to ask"
    assert shelf.open(ticket.code, house.base.facts).session == kept, "the fitter opens it by its code"


def test_a_junior_cannot_agree_for_himself(to_the_end: Walk, walk: Walk, tmp_path: Path) -> None:
    before = files(tmp_path)
    consent = walk("next", "next", "next", visit=to_the_end(age_band="junior"))
    assert walk("yes", visit=consent).place == "consent"
    assert files(tmp_path) == before
    assert walk("guardian", visit=consent).place == "ticket"


def test_a_ticket_that_cannot_be_kept_is_told_and_can_be_tried_again(
    to_the_end: Walk, walk: Walk, monkeypatch: pytest.MonkeyPatch, shelf: Store
) -> None:
    consent = walk("next", "next", "next", visit=to_the_end())
    with monkeypatch.context() as full:
        full.setattr(Store, "begin", _full)
        told = walk("yes", visit=consent)
    assert (told.place, told.note) == ("consent", "not_kept")
    assert walk("yes", visit=told).place == "ticket"


def _full(store: Store, session: Session) -> Any:
    raise CannotKeep(store.folder, OSError(28, "No space left on device"))


def test_lapsed_tickets_are_purged_and_nothing_else(
    to_the_end: Walk, walk: Walk, reception: Reception, shelf: Store, pass_time: Callable[[float], None]
) -> None:
    walk("next", "next", "next", "yes", visit=to_the_end())
    (shelf.folder / "fitters-own.toml").write_text('schema = 1\nid = "fitters-own"\nvoice = "fitter"\n')
    pass_time(30 * 86400.0)
    reception.purge()
    assert len(shelf.ids()) == 2, "on its last day it is still there"
    pass_time(86400.0)
    reception.purge()
    assert shelf.ids() == ("fitters-own",)


def test_going_back_loses_nothing(walk: Walk) -> None:
    at = walk("start", "answer:left", "answer:no", "digit:2", "digit:1", "enter", "answer:senior")
    back = walk("back", "back", visit=at)
    assert back.state is not None
    assert back.state.asking == "handicap"
    again = walk("enter", visit=back)
    assert again.state is not None
    answers = again.state.session.subject.answers
    assert {id: answers[id].value for id in ("hand", "handicap", "age_band")} == {
        "hand": "left", "handicap": 21, "age_band": "senior",
    }  # fmt: skip


def test_several_choices_are_marked_again_on_the_way_back(to_the_end: Walk, walk: Walk) -> None:
    at = walk("start", "answer:right", "answer:no", "unknown", "unknown", "unknown", "unknown", "unknown")
    while at.state and at.state.asking != "contact":
        at = walk("unknown", visit=at)
    on = walk("answer:thin", "answer:heel", "enter", visit=at)
    assert walk("back", visit=on).marked == {"thin", "heel"}
    assert walk("back", "why", "here", visit=on).marked == {"thin", "heel"}


def test_nothing_chosen_is_told_and_changes_nothing(walk: Walk) -> None:
    at = walk("start", "answer:right", "answer:no")
    told = walk("enter", visit=at)
    assert (told.note, told.state) == ("choose_first", at.state)


def test_a_number_that_cannot_be_is_told_and_asked_again(walk: Walk) -> None:
    told = walk("start", "answer:right", "answer:no", "digit:9", "digit:9", "enter")
    assert told.refusal
    assert told.state is not None
    assert told.state.asking == "handicap"


def test_pain_stops_and_keeps_nothing(walk: Walk, tmp_path: Path) -> None:
    before = files(tmp_path)
    stopped = walk("start", "answer:right", "answer:yes")
    assert stopped.place == "stopped"
    assert walk("next", visit=stopped).place == "stopped"
    assert walk("back", visit=stopped).place == "asking", "a slip of the finger"
    assert walk("finish", visit=stopped) == Visit()
    assert files(tmp_path) == before


def test_i_do_not_know_to_everything_still_ends_in_two_clubs(to_the_end: Walk) -> None:
    ended = to_the_end()
    assert ended.place == "clubs"
    assert ended.state is not None
    assert len(ended.state.outcome.clubs) == 2


def test_the_way_out_is_the_pin_and_a_wrong_one_is_no_way_out(walk: Walk) -> None:
    digits = [f"digit:{digit}" for digit in "918273"]
    assert walk("staff", "digit:1", "enter").place == "staff"
    assert walk("staff", "enter").place == "staff"
    assert walk("staff", *digits, "enter").place == "left"
    assert walk("staff", *digits, "back") == Visit()


@pytest.mark.parametrize(
    "pressed",
    [
        "",
        "quit",
        "left",
        "answer:",
        "answer:nonsense",
        "digit:x",
        "digit:١",
        "next",
        "yes",
        "finish",
        "guardian",
    ],
)
def test_a_word_that_means_nothing_changes_nothing(walk: Walk, pressed: str) -> None:
    at = walk("start")
    after = walk(pressed, visit=at)
    assert (after.place, after.state and after.state.session) == ("asking", at.state and at.state.session)
    assert walk(pressed) == Visit()


def test_nothing_of_a_visitor_is_left_when_he_is_gone(to_the_end: Walk, walk: Walk) -> None:
    def one() -> Visit:
        return walk("next", "next", "next", "no", visit=to_the_end(handicap="23"))

    one()
    gc.collect()
    assert [o for o in gc.get_objects() if isinstance(o, Session | State)] == []


def test_a_restless_kiosk_asks_after_a_minute_and_forgets_a_quarter_later() -> None:
    idle = IdleClock(0.0)
    assert [idle.due(59.9), idle.due(60.0), idle.due(74.9), idle.due(75.0)] == [
        "nothing",
        "ask",
        "nothing",
        "forget",
    ]


def test_a_stray_touch_does_not_hand_the_answers_on() -> None:
    idle = IdleClock(0.0)
    idle.touched(30.0)
    assert [idle.due(89.0), idle.due(90.0)] == ["nothing", "ask"]
    idle.touched(100.0)
    assert idle.due(105.0) == "forget"
    idle.back(106.0)
    assert idle.due(150.0) == "nothing"
    assert IdleClock(0.0).seconds_left(5.0) == 15


def test_questions_left_to_the_fitter_are_not_asked(to_the_end: Walk) -> None:
    ended = to_the_end()
    assert ended.state is not None
    assert not set(ended.state.session.subject.answers) & set(LEFT_TO_THE_FITTER)
    assert not set(ended.state.trail) & set(LEFT_TO_THE_FITTER)


def test_the_interview_is_the_same_one(conversation: Conversation, walk: Walk) -> None:
    at = walk("start")
    assert at.state is not None
    assert at.state.asking == conversation.start(at.state.session).asking
