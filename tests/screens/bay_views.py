"""Frozen views made by hand: an invented golfer's talk, standing and decisions, for pictures of record."""

from __future__ import annotations

import math

from interview.views.bay.parts import FigureRow, PartRow, PartsView, PartView
from interview.views.bay.reasons import (
    ContrastLine,
    ContrastView,
    NearLine,
    ReasonLine,
    ReasonsView,
    RivalName,
)
from interview.views.bay.standing import CandidateView, StandingView
from interview.views.bay.talk import AskView, QuestionView, TalkView, TopicView
from interview.views.bay.whatif import Beside, WhatIfView
from interview.views.pictures.beam import BeamView, Weight
from interview.views.pictures.distances import LadderView, RungOnLadder
from interview.views.pictures.face import FaceView, Mark, Met
from interview.views.pictures.flights import Arc, FlightsView

YARD, INCH = 0.9144, 0.0254


def question(
    id: str, key: str, title: str, standing: str = "open", said: str = "", up: bool = False
) -> QuestionView:
    return QuestionView(id, key, title, standing, said, up)  # type: ignore[arg-type]


HAND = question("hand", "1", "Hand", "known", "right")
HANDICAP = question("handicap", "2", "Handicap", "known", "18")
SPEED = question("driver_speed", "6", "Driver head speed", "known", "92 mph, measured")
TURF = question("turf", "c", "Turf", "unknown", "I don't know")
TALK = TalkView(
    topics=(
        TopicView("game", "Golfer", True, (HAND, HANDICAP, question("score", "3", "Usual score", "hidden"))),
        TopicView("speed", "Speed", True, (SPEED, question("fairway_speed", "7", "Wood speed", "needless"))),
        TopicView("lies", "Lies and turf", True, (question("lies", "b", "Lies", "skipped"), TURF)),
        TopicView("miss", "Strike and miss", True, (question("contact", "d", "Contact", up=True),)),
        TopicView("confidence", "Confidence", True, (question("deep_face", "i", "A tall face"),)),
        TopicView("bag", "Bag", False, (question("driver_loft", "r", "Driver loft", "dormant", "10.5 deg"),)),
        TopicView("swing", "Swing", False, (question("tempo", "x", "Start down"),)),
    ),
    said=(HAND, HANDICAP, SPEED, TURF),
    ask=AskView(
        id="contact", topic="Strike and miss", text="Contact, long clubs off turf?", hint="One or more: 2 4",
        choices=("centred", "thin", "fat", "toe", "heel", "low on the face"), said="", note="", stake=3.2,
        why="The strike pattern drives length and face height.", turn=5,
    ),
    ending="", answered=4, open=9, needless=2,
)  # fmt: skip

STANDING = StandingView(
    candidates=(
        CandidateView("a", "4-wood 17° + 7-wood 21°", "4w 17 + 7w 21", "leads", 6840, 9100, -2260),
        CandidateView("b", "5-wood 19° + 9-wood 23°", "5w 19 + 9w 23", "could_win", 5720, 9600, -3880),
        CandidateView("c", "3-wood 15.2° + 5-wood 19°", "3w 15.2 + 5w 19", "beaten", -910, 4200, -5110),
        CandidateView("d", "2-hybrid 17° + 4-hybrid 22°", "2h 17 + 4h 22", "out", -4000, 0, -4000),
    ),
    more=31, margin=1120, settled=False,
)  # fmt: skip


def part(id: str, text: str, settled: bool = True, by_hand: bool = False, stale: bool = False) -> PartView:
    return PartView(id, text, settled, by_hand, stale)


PARTS = PartsView(
    names=("4-wood 17°", "7-wood 21°"),
    rows=(
        PartRow("head", part("longer.head", "Meadow 17 mid", False), part("shorter.head", "Meadow 21 mid")),
        PartRow("length", part("longer.length", "42 in", by_hand=True), part("shorter.length", "41 1/2 in")),
        PartRow("balance", part("longer.balance", "D0.5"), part("shorter.balance", "D0.5", False)),
    ),
    figures=(
        FigureRow("carry", "186 yd", "170 yd"),
        FigureRow("apex", "79 ft", "89 ft"),
        FigureRow("add", "sole 5.5 g, toe 7 g, hosel 6.5 g", "rear 8 g"),
    ),
)

WHAT_IF = WhatIfView(
    changed=(Beside("handicap", "18", "5"),),
    pair=(
        Beside("pair", "4-wood 17° + 4-hybrid 21.5°", "4-wood 17° + 4-hybrid 22.5°"),
        Beside("ahead", "0.71", "0.53"),
    ),
    clubs=(
        ("longer", (Beside("club", "4-wood 17°", "4-wood 17°"), Beside("length", "42 in", "42 1/4 in"))),
        ("shorter", (Beside("add", "sole 6.5 g, hosel 6.5 g", "rear 8 g, hosel 6.5 g, toe 1 g"),)),
    ),
    gained=(), lost=("If they land together, one of them is not needed.",),
)  # fmt: skip

LADDER = LadderView(
    (
        RungOnLadder("driver", 205 * YARD, 205 * YARD, 205 * YARD, None, 22.0, False),
        RungOnLadder("4-wood 17°", 186 * YARD, 186 * YARD, 191 * YARD, 167 * YARD, 24.0, True),
        RungOnLadder("7-wood 21°", 170 * YARD, 170 * YARD, 174 * YARD, 158 * YARD, 27.0, True),
        RungOnLadder("longest iron", 152 * YARD, 147 * YARD, 157 * YARD, None, None, False),
    ),
    "imperial",
)


def arc(name: str, carry: float, apex: float) -> Arc:
    """A parabola: nothing here depends on a law of flight."""
    points = tuple((carry * s, 4 * apex * s * (1 - s)) for s in (i / 40 for i in range(41)))
    return Arc(name, points, carry, apex)


FLIGHTS = FlightsView((arc("4-wood 17°", 170.0, 24.0), arc("7-wood 21°", 155.0, 27.0)), "imperial")
FACE = FaceView(
    name="4-wood 17°", height=0.032, centre=0.0175,
    lies=(
        Met("tight fairway", 0.3, 0.015, 0.017), Met("fairway", 0.5, 0.018, 0.022),
        Met("tee", 0.2, 0.028, 0.032),
    ),
    marks=(Mark(-0.006, 0.016), Mark(0.004, 0.02), Mark(0.0, 0.012)), pattern=(-0.001, 0.007, 0.0, 0.004),
    toe_is_right=False, system="imperial",
)  # fmt: skip
BEAM = BeamView(
    name="4-wood 17°", length=42 * INCH,
    weights=(
        Weight("grip", 0.050, 5 * INCH, 10.5 * INCH), Weight("shaft", 0.061, 21 * INCH, 41 * INCH),
        Weight("head", 0.212, 42.4 * INCH), Weight("heel", 0.009, 42.2 * INCH),
    ),
    knife=14 * INCH, balance_point=31.4 * INCH, reading=0.7, target=0.5, spread=1.3, total=0.332,
    inertia=0.266, system="imperial",
)  # fmt: skip


def line(rule: str, amount: int, said: str, text: str, other: str = "") -> ReasonLine:
    facts = (("handicap", "18"),)
    return ReasonLine(
        rule, text, amount, said, "common practice", "Ask for the gap first.", facts, other, "It helps."
    )


REASONS = ReasonsView(
    id="pairing", title="pairing", picked="4-wood 17° + 7-wood 21°", total="1.50 points", unit="",
    lines=(
        line("gets-up", 2500, "+2.50", "Off your lies about four in five of your balls get up.", "Not so."),
        line("new-clubs", -1500, "-1.50", "New clubs cost money and time to get used to."),
        line("step", 500, "+0.50", "The two are four degrees apart."),
        line("idle", 0, "+0.00", "It is calm where you play."),
    ),
    rivals=(
        RivalName("b", "5-wood 19° + 9-wood 23°", 5720, ""), RivalName("d", "2-hybrid + 4-hybrid", 0, "No."),
    ),
    near=(NearLine("digger", 3000, "+3.00", "Look at the turf.", ("turf mark is divot (it is brush)",)),),
    settled=False,
)  # fmt: skip
CONTRAST = ContrastView(
    mine="4-wood 17° + 7-wood 21°", theirs="5-wood 19° + 9-wood 23°", my_points=1500, their_points=300,
    lines=(
        ContrastLine("gets-up", 2500, 3000, "They get up."),
        ContrastLine("step", 500, -1200, "Four degrees apart."),
    ),
    shared=3, out="",
)  # fmt: skip
CLUB_LOFT = math.radians(17)
