"""Untold visitors, one after another through one process: nothing grows, and nothing is handed on."""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from random import Random

from interview.conversation import Conversation, State
from interview.kiosk.visit import Visit
from interview.session import Session
from interview.views.kiosk import page_of, painted
from interview.views.pictures import FULL

Walk = Callable[..., Visit]
VISITORS, WARM = 25, 15


def one(dice: Random, walk: Walk, conversation: Conversation) -> None:
    """One visitor who answers a few questions at random and walks away."""
    visit = walk("start", "answer:left" if dice.random() < 0.2 else "answer:right", "answer:no")
    for _ in range(dice.randint(1, 4)):
        page = page_of(conversation, visit)
        painted(page, page.first, 80, 24, FULL)
        tiles = [tile.press for tile in page.tiles if tile.press.startswith("answer:")]
        visit = walk(dice.choice(tiles) if tiles else "unknown", visit=visit)
        visit = walk("enter", visit=visit) if visit.marked else visit


def held() -> int:
    """Blocks of memory that are held once nothing is left to collect."""
    gc.collect()
    return sys.getallocatedblocks()


def test_memory_is_flat_and_nobody_is_left_behind(walk: Walk, conversation: Conversation) -> None:
    dice = Random(4)
    for _ in range(WARM):
        one(dice, walk, conversation)
    before = held()
    for _ in range(VISITORS):
        one(dice, walk, conversation)
    grown = (held() - before) / VISITORS
    assert [o for o in gc.get_objects() if isinstance(o, Session | State)] == []
    assert grown < 100, f"{grown:.0f} blocks a visitor: an interview holds tens of thousands"
