"""A page of each voice, whole, from an outcome made by hand: no change of a rule moves these.

`tests/golden.py` tells how a page is written anew.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from interview.session.record import VOICES
from interview.views.club import BenchView, ClubView, GripView, PortView, ShaftView
from interview.views.decisions import PARTS, ROLES, DecisionView
from interview.views.facts import FactView
from interview.views.gaps import GapsView
from interview.views.leans import LeanView
from interview.views.lines import LineView, said
from interview.views.notices import NoticeView
from interview.views.outcome import OutcomeView
from interview.views.outcome_text import text_of
from interview.views.pairing import PairingView, RivalView
from interview.views.sources import PRACTICE, OtherSchool, SourceView
from interview.views.study import Study
from rules.bench.ports import Place
from rules.ladder.rung import Flown
from rules.overrides import Overridden
from rules.units import parse
from tests import golden

HERE = Path(__file__).parent
HANDBOOK = SourceView("published", "A. Author (2001), A handbook of clubs, a publisher")
HOUSE = SourceView("assumption", "house value")


def si(text: str, symbol: str) -> float:
    return parse(text, symbol)


def points(id: str, text: str, teaches: str, amount: int, source: SourceView = PRACTICE) -> LineView:
    return LineView(id, text, source, points=amount, teaches=teaches)


def adjusts(id: str, text: str, amount: int, teaches: str = "") -> LineView:
    return LineView(id, text, PRACTICE, adjust=amount, teaches=teaches)


def flown(ball_speed: str, carry: str, expected: str, apex: str, usable: float) -> Flown:
    """Fly a ball whose carry by the first law is given; the second law flies it for the band."""
    launched = (si(ball_speed, "mph"), si("12 deg", "deg"), si("4300 rpm", "rpm"), 1.2)
    return Flown(40.0, *launched, si(carry, "yd"), si(expected, "yd"), si(apex, "ft"), 0.7, usable, 0.85)


LONGER = ClubView(
    role="longer",
    id="fairway-17",
    kind="fairway",
    state="altered",
    label="4-wood",
    owned="[b]old faithful[/b]",
    loft=si("16.5 deg", "deg"),
    length=si("42 in", "in"),
    target=1.0,
    flown=flown("122 mph", "182 yd", "151 yd", "74 ft", 0.62),
    cut=si("1 in", "in"),
    put_back=si("9.3 g", "g"),
    told_balance=0.9,
    loft_known="said",
)
SHORTER = ClubView(
    role="shorter",
    id="hybrid-20.5",
    kind="hybrid",
    state="new",
    label="4-hybrid",
    owned=None,
    loft=si("20.75 deg", "deg"),
    length=si("39.5 in", "in"),
    target=0.5,
    flown=flown("114 mph", "163 yd", "144 yd", "76 ft", 0.97),
    head="reed-20",
    head_label="Reed 20.75 wide",
    face_height=si("33.5 mm", "mm"),
    lie=si("59 deg", "deg"),
    face_angle=si("0.5 deg", "deg"),
    bore=si("0.37 in", "in"),
    shaft=ShaftView(
        "oak-80",
        "Oak 80 R",
        si("80 g", "g"),
        "R",
        si("0.37 in", "in"),
        si("1.25 in", "in"),
        si("2.5 in", "in"),
        si("72 g", "g"),
    ),
    grip=GripView("moss-48", "Moss 48 standard", si("48 g", "g"), "standard"),
    bench=BenchView(
        0.62,
        si("352 g", "g"),
        si("30.6 in", "in"),
        0.26,
        si("228 g", "g"),
        si("13.7 g", "g"),
        si("13.5 g", "g"),
        (
            PortView("heel", si("9.5 g", "g"), (si("7 g", "g"), si("2.5 g", "g"))),
            PortView("rear", si("4 g", "g"), (si("4 g", "g"),)),
        ),
        0.12,
        2.6,
        Place(-si("1.1 mm", "mm"), -si("0.4 mm", "mm"), 0.0),
        calibrated=False,
    ),
)
PAIR = (
    points("trusts", "You trust a hybrid more than a wood.", "Ask it standing over the ball.", 3000),
    points(
        "scatters",
        "You find the ball all over the face, and the hybrid is shorter.",
        "Short club, short miss.",
        2000,
        HANDBOOK,
    )._replace(contested=OtherSchool("A big head forgives more.", "Length scatters, size only forgives.")),
    points("new-club", "A new club costs 59.4 % of your patience.", "Level pairs: the owned one wins.", -750),
    points("silent", "This moves nothing.", "Never shown.", 0),
)
LENGTHS = {
    "longer": DecisionView(
        "longer.length",
        "playing length",
        "amount",
        (
            adjusts("start", "It starts from the usual length, 42.29 in.", 0),
            adjusts("heel", "You strike toward the heel.", -250, "Heel marks say too long."),
            adjusts("rounding", "It is rounded to 42 in.", -40),
        ),
        42000,
        "42 in",
        "in",
        42290,
    ),
    "shorter": DecisionView(
        "shorter.length",
        "playing length",
        "amount",
        (
            adjusts("start", "It starts from the usual length, 39.75 in.", 0),
            adjusts("heel", "You strike toward the heel.", -250, "Heel marks say too long."),
        ),
        39500,
        "39 1/2 in",
        "in",
        39750,
    ),
}


def decisions() -> dict[str, DecisionView]:
    """Return every decision: the pair and the lengths with ledgers, the rest with nothing to say."""
    made = {"pairing": DecisionView("pairing", "pairing", "choice", PAIR, "own+hybrid-20.5", score=4250)}
    for role in ROLES:
        for part in PARTS:
            only = said("only-one", "It is the only one that will do.")
            made[f"{role}.{part}"] = DecisionView(
                f"{role}.{part}", part, "choice", (only,), "x", "the one", score=0
            )
        made[f"{role}.length"] = LENGTHS[role]
    return made


def caution(rule: str, topic: str, text: str) -> NoticeView:
    return NoticeView(rule, topic, text, f"The lesson of {rule}.", PRACTICE, None)


def fact(id: str, title: str, value: Any, unit: str = "", how: str = "assumed") -> FactView:
    return FactView(
        id, title, "number" if unit else "choice", unit, value, how, 0.0, how == "assumed", asked=True
    )


CAUTIONS = (
    caution("eyes", "bench", "Eye protection always."),
    caution("glue", "bench", "Glue wants a day."),
    caution("one-swinger", "bay", "One swinger in a bay."),
    caution("enough", "bag", "One of them is enough."),
    caution("lesson", "fit", "A fitting is not a lesson."),
    caution("marks", "evidence", "Your strikes were taken from your answers."),
)
VIEW = OutcomeView(
    pairing=PairingView(
        "own+hybrid-20.5",
        "wood+wood",
        1240,
        False,
        (
            RivalView(
                "own+hybrid-20.5",
                "4-wood, owned and 4-hybrid",
                4250,
                False,
                "wood_and_hybrid",
                (0.29, 0.36),
            ),
            RivalView(
                "wood+wood",
                "4-wood and 7-wood",
                3010,
                False,
                "two_fairway_woods",
                (si("17 deg", "deg"), si("21 deg", "deg")),
            ),
        ),
    ),
    clubs=(LONGER, SHORTER),
    gaps=GapsView(si("205 yd", "yd"), si("182 yd", "yd"), si("163 yd", "yd"), None, iron_told=False),
    decisions=decisions(),
    facts={
        one.id: one
        for one in (
            fact("wind", "wind", "breezy"),
            fact("altitude", "altitude", si("300 ft", "ft"), "ft"),
            fact("height", "height", None, "in"),
            fact("handicap", "handicap", 14.0, "strokes", "said"),
        )
    },
    leans=(
        LeanView(
            "usual-wind",
            "Unless told otherwise, there is some wind.",
            "answer",
            "breezy",
            ("calm", "breezy"),
            "",
            HOUSE,
            question="wind",
        ),
        LeanView(
            "usual-altitude",
            "Most courses lie a little above the sea.",
            "answer",
            si("300 ft", "ft"),
            (0.0, si("2500 ft", "ft")),
            "ft",
            HOUSE,
            question="altitude",
        ),
        LeanView("spin", "How a ball leaves the face.", "physics", 0.2, (0.0, 0.3), "", HANDBOOK),
        LeanView(
            "setback",
            "Where a head's mass falls on the shaft.",
            "shelf",
            si("0.6 in", "in"),
            (0.0, si("1.4 in", "in")),
            "in",
            HOUSE,
            part="the bench",
        ),
    ),
    ruled_out=(),
    cautions=CAUTIONS,
    proofs=(
        caution("six", "prove", "Hit six balls off turf."),
        caution("gap", "prove", "See 19 yd between them."),
    ),
    overrides=(
        Overridden("longer.length", "41 3/4 in", "42 in", "he liked it", -0.5, 1.1, 1.2, stale=False),
    ),
    settled=False,
    worth_asking=("wind", "altitude", "height"),
    stakes={"wind": 2.0},
    hand="right",
    system="imperial",
    study=Study(),
)


@pytest.mark.parametrize("voice", VOICES)
def test_the_page_is_as_it_was_read(voice: Any) -> None:
    golden.held(HERE / f"golden_outcome_{voice}.txt", text_of(VIEW, voice) + "\n")


def test_a_settled_outcome_says_so_and_asks_nothing() -> None:
    page = text_of(VIEW._replace(settled=True, worth_asking=()), "fitter")
    assert "No open question can change anything any more." in page
    assert "Still worth asking" not in page
