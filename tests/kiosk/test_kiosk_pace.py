"""How long a visit takes, whether its progress tells the truth, and how it ends early."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest

from interview.conversation import Conversation
from interview.kiosk.asking import at_most_left
from interview.kiosk.enough import enough
from interview.kiosk.reception import Reception
from interview.kiosk.visit import Visit
from interview.views.kiosk import Page, page_of

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
TYPICAL = ("sweeper", "thin-off-tight-turf", "left-handed-slicer", "senior-smooth", "hates-hybrids")
WORDS_A_MINUTE = 238.0
"""Silent reading of English, adults (Brysbaert 2019, How many words do we read per minute?, Journal of Memory
and Language 109). From memory."""
THINK, POINT = 1.35, 1.1
"""Seconds to decide and to point (Card, Moran & Newell 1980, The keystroke-level model for user performance
time with interactive systems, Communications of the ACM 23). From memory."""
Walk = Callable[..., Visit]


def seconds(page: Page, presses: int) -> float:
    """The seconds that a page takes somebody who reads every word of it."""
    choices = () if page.shape == "keypad" else tuple(tile.text for tile in page.tiles)
    count = len(re.findall(r"[\w'’]+", " ".join([page.heading, *page.text, *choices])))
    return 60 * count / WORDS_A_MINUTE + THINK + POINT * presses


def presses_for(page: Page, said: object) -> list[str]:
    """What is pressed to say something; I don't know where nothing was said."""
    value = said["value"] if isinstance(said, dict) and "value" in said else said
    if value is None or (isinstance(value, dict) and "unknown" in value):
        return ["unknown"]
    if page.shape == "keypad":
        digits = re.sub(r"\D.*", "", str(value).lstrip("+-"))
        return [*(f"digit:{digit}" for digit in digits), "enter"] if digits else ["unknown"]
    if isinstance(value, list | dict):
        return [*(f"answer:{word}" for word in value), "enter"]
    return [f"answer:{value}"]


@pytest.mark.parametrize("name", TYPICAL)
def test_a_typical_golfer_needs_less_than_four_minutes(
    name: str, conversation: Conversation, walk: Walk
) -> None:
    """Without a question more there are some five seconds left: less than most questions take."""
    answers = tomllib.loads((SAMPLES / f"{name}.toml").read_text(encoding="utf-8"))["answers"]
    spent, visit = seconds(page_of(conversation, Visit()), 1), walk("start")
    while visit.place == "asking":
        assert visit.state is not None
        page, question = page_of(conversation, visit), visit.state.asking
        pressed = presses_for(page, answers.get(question or ""))
        spent += seconds(page, len(pressed))
        visit = walk(*pressed, visit=visit)
        assert visit.state is None or visit.state.asking != question, (question, visit.refusal)
    assert visit.place == "clubs"
    assert spent < 240, (
        f"{spent:.0f} s: leave a question to the fitter (LEFT_TO_THE_FITTER in interview/kiosk/asking.py),"
        " ask it only where it applies, or say something in fewer words"
    )


@pytest.mark.parametrize("seed", range(3))
def test_progress_never_promises_fewer_questions_than_come(
    seed: int, conversation: Conversation, walk: Walk
) -> None:
    dice, visit, promised = Random(seed), walk("start"), []
    while visit.place == "asking":
        assert visit.state is not None
        promised.append(at_most_left(conversation.base, visit.state))
        tiles = [t.press for t in page_of(conversation, visit).tiles if t.press.startswith("answer:")]
        safe = visit.state.asking == "pain" or not tiles or dice.random() < 0.3
        visit = walk("unknown" if safe else dice.choice(tiles), visit=visit)
        visit = walk("enter", visit=visit) if visit.marked else visit
    asked = len(promised)
    assert all(left >= asked - at for at, left in enumerate(promised)), promised
    assert all(after <= before for before, after in pairwise(promised)), promised
    assert promised[-1] <= 2


def test_a_visit_ends_early_once_nothing_it_could_ask_matters(
    conversation: Conversation, reception: Reception, walk: Walk
) -> None:
    answers = tomllib.loads((SAMPLES / "lesson-first.toml").read_text(encoding="utf-8"))["answers"]
    visit = walk("start")
    while visit.place == "asking" and not visit.enough:
        assert visit.state is not None
        pressed = presses_for(page_of(conversation, visit), answers.get(visit.state.asking or ""))
        visit = walk(*pressed, visit=visit)
        if visit.state is not None and len(visit.state.trail) >= 14 and enough(visit.state, lambda: False):
            visit = reception.foreseen(visit, visit.state)
    assert visit.enough
    assert visit.state is not None
    page = page_of(conversation, visit)
    assert page.progress.endswith("the last one")
    pick = visit.state.outcome.picked
    over = walk("unknown", visit=visit)
    assert over.place == "clubs"
    assert over.state is not None
    assert over.state.outcome.picked is not None
    assert pick is not None
    assert over.state.outcome.picked.id == pick.id
    assert walk("back", visit=visit).enough is False, "another answer may open it again"


def test_safety_is_never_cut_short(walk: Walk) -> None:
    visit = walk("start")
    assert visit.state is not None
    assert not enough(visit.state, lambda: False)


def test_looking_ahead_for_somebody_who_has_gone_stops_at_once(walk: Walk) -> None:
    visit = walk("start", "answer:right", "answer:no")
    assert visit.state is not None
    assert not enough(visit.state, lambda: True)
