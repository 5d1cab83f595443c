"""What a kiosk proposes is on the shelf: parts that are booked for somebody are left alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.commands.main import main
from interview.kiosk.interview import Interviews
from interview.kiosk.reception import Reception
from interview.kiosk.visit import Visit
from interview.session import begin
from rules.fitting import load_house
from rules.shelf.start import start_shop

SAMPLE = Path(__file__).parents[2] / "sample_sessions" / "thin-off-tight-turf.toml"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    folder = tmp_path / "shop"
    start_shop(folder)
    return folder


def heads_left(interviews: Interviews) -> dict[str, int | None]:
    house = interviews().start(begin("now")).outcome.house
    return {head.id: head.count for head in house.shelf.heads}


def test_booked_heads_are_not_proposed_to_the_next_visitor(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    interviews = Interviews(load_house(None, shop))
    first = interviews()
    before = heads_left(interviews)
    assert interviews() is first, "while nothing is booked, the interview is the same"
    assert main(["shop", "book", str(SAMPLE), "--catalogue", str(shop)]) == 0
    booked = [line for line in capsys.readouterr().out.splitlines() if line.startswith("  head ")]
    after = heads_left(interviews)
    assert sum(after[id] != count for id, count in before.items()) == len(booked) == 2
    (shop / "bookings.toml").write_text("broken [", encoding="utf-8")
    assert heads_left(interviews) == after, "a file that cannot be read changes nothing"


def test_each_visit_begins_on_what_is_left(reception: Reception, shop: Path) -> None:
    interviews = Interviews(load_house(None, shop))
    begun: list[int] = []
    reception._afresh = lambda: begun.append(1) or interviews()  # type: ignore[func-returns-value]
    reception.press(Visit(), "start")
    reception.press(Visit(), "start")
    assert len(begun) == 2
    assert reception.conversation is interviews()
