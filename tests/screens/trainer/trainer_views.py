"""Frozen views made by hand: an invented golfer's lesson, for screens of record."""

from __future__ import annotations

from interview.views.trainer.answers import CaseSheet, SaidLine, SaidTopic
from interview.views.trainer.cases import CaseLine, CasesView
from interview.views.trainer.change import ChangeView, FlipView, Shift
from interview.views.trainer.chart import ChartLine, FactView, InfluenceLine, InfluenceView, ReaderLine
from interview.views.trainer.edit import EditView, Effect, EntryLine, FieldLine
from interview.views.trainer.exercise import ChoiceLine, ExerciseView
from interview.views.trainer.marks import FactMark, MarkLine, RevealView
from interview.views.trainer.predict import PredictLine, PredictView
from interview.views.trainer.roll import DueLine, KindLine, RollLine, RollView, TraineeView
from interview.views.trainer.steps import ReadFact, RunningBar, StepView

CASES = CasesView(
    (
        CaseLine("digger-scattered", "Digger scattered", "A hybrid for him.", "tried", "71 %"),
        CaseLine("sweeper", "Sweeper", "No mark on the ground.", "due", "40 %"),
        CaseLine("thin", "Thin off tight turf [/b]", "More loft, a low face.", "new"),
    ),
    trainee="Ann [/b]", open=True, notes=True,
)  # fmt: skip
SHEET = CaseSheet(
    "Digger scattered",
    (
        SaidTopic("Golfer", (SaidLine("hand", "hand", "right"), SaidLine("handicap", "handicap", "22"))),
        SaidTopic("Speed", (SaidLine("driver_speed", "driver head speed", "92 mph, measured"),)),
        SaidTopic("Lies and turf", (SaidLine("lies", "lies", "tight fairway 10 %; rough 40 %; tee 50 %"),)),
    ),
    clubs=("his 5-wood: 18.8 deg, 42 in, D1, he dislikes it",),
    balls=("test 5-wood: 6 balls, 4 up, 2 thin",),
)  # fmt: skip
PREDICT = PredictView(
    "Digger scattered",
    (
        PredictLine("pairing", "pair", "", "5-wood 18.8° + 4-hybrid 22.5°", ("5-wood", "confidence")),
        PredictLine("longer.head", "head", "longer"),
        PredictLine("longer.length", "length", "longer", "41 in", ("handicap",)),
        PredictLine("shorter.length", "length", "shorter"),
    ),
)
REVEAL = RevealView(
    "Digger scattered",
    (
        MarkLine(
            "pairing", "pair", "", "5-wood 18.8° + 4-hybrid 22.5°", "5-wood 18.8° + 4-hybrid 22.5°", "sound",
            88, 100, 70,
            (FactMark("5-wood", 16, True), FactMark("turf", 0, True), FactMark("contact", 14, False)),
            ("The answer earns all.", "The reasons named earn 70 % of what reasons can."),
        ),
        MarkLine("longer.head", "head", "longer", "", "Heath 18.75 shallow", "blank", 0),
        MarkLine("longer.length", "length", "longer", "42 in", "40 3/4 in", "misjudged", 40, 0, 100),
        MarkLine("longer.tip", "tip", "longer", "as noted", "as noted", "luck", 60, 100, 0),
    ),
    overall=63, note="Look at the turf mark before you believe the story.",
)  # fmt: skip
STEP = StepView(
    at=3, count=21, decision="pairing", rule="longer-club-must-earn-its-slot",
    text="The two clubs would carry within 12 yd of each other, so one of them adds little.",
    read=(
        ReadFact("gap as a share of carry below 9 % (it is 8 %)", "holds"),
        ReadFact("type preference is wood (it is not known)", "absent"), ReadFact("gap: 12 yd"),
    ),
    bars=(
        RunningBar("5-wood 18.8° + 4-hybrid 22.5°", 2100, "2.10", -400, "-0.40", leads=True),
        RunningBar("5-wood 18.8° + 4-hybrid 21.5°", 1900, "1.90", -1200, "-1.20"),
        RunningBar("3-wood 15.2° + 5-wood 18.8°", -3100, "-3.10"),
        RunningBar("3-wood 13.5° + 5-wood 18.8°", 0, "0.00", out=True),
    ),
    teaches="Ask for the gap first.", source="common practice",
    other="A strong club off the tee is worth a slot even where the gap is small.",
    leans="Gaps that are smaller than the scatter are not seen on the course.", scale=4200,
)  # fmt: skip
CHANGE = ChangeView(
    "Turf mark", "divot", "bruise",
    pair=Shift("pair", "5-wood 18.8° + 4-hybrid 22.5°", "5-wood 18.8° + 4-hybrid 21.5°"),
    decisions=(Shift("head and face height, longer club", "Heath 18.75 shallow", "Meadow 19 mid"),),
    facts=(Shift("Attack angle", "-4.5 deg", "-2.5 deg"),),
    points=(Shift("5-wood 18.8° + 4-hybrid 22.5°", "+5.19", "+4.02"),), gained=("Mind the mat.",),
)  # fmt: skip
FLIP = FlipView(
    "Handicap", "22", (("30", "the pair stays", False), ("44", "5-wood 18.8° + 9-wood 23°", True)),
    ("Handicap 44 or more gives 5-wood 18.8° + 9-wood 23°.",), 100,
)  # fmt: skip
EXERCISE = ExerciseView(
    "Which fact decides this?", ("Which of these carried most of the length?", "The golfer: sweeper."),
    (ChoiceLine("handicap", "1", "handicap"), ChoiceLine("turf", "2", "turf mark")), number=4, right=2,
    done=4, given="turf", key="handicap", result=("Not so. Right is: handicap.", "handicap carried 61 %"),
)  # fmt: skip
CHART = (ChartLine("turf_mark", "Turf mark", 24, ("pairing",)), ChartLine("wind", "Wind", 3))
FACT = FactView(
    "Turf mark", "What the club leaves on the ground.", ("attack angle", "gap between the two"),
    (
        ("pairing", (ReaderLine("digs", "up to +3.00"), ReaderLine("a", "-1.00", "attack angle"))),
        ("cautions and advice", (ReaderLine("mind-the-mat", "advice"),)),
    ),
    InfluenceView(
        3, 3,
        (InfluenceLine("Sweeper", True, "", 5540), InfluenceLine("Digger", False, "playing length", 900)),
        ("It flips the pair in 1 of 3 cases and moves nothing in 1.",),
    ),
)  # fmt: skip
EDIT = EditView(
    EntryLine("digger-wants-sole", "head", "The wider the sole the sooner it stops digging.", True),
    (
        FieldLine("when.below", "below", "-3 deg", "attack angle", True),
        FieldLine("at.0.0", "at", "53 mm", "sole width"), FieldLine("because", "why it says so", "The wider"),
    ),
    source="common practice", teaches="Width first, camber second.", changes=1, golfer="Sweeper",
    here=(("Head and face height, longer club", "Heath 18.75 shallow", "Meadow 19 mid"),),
    everywhere=Effect(3, 3, (("Digger scattered", "same pair", "head and face height, longer club"),)),
)  # fmt: skip
ROLL = RollView(
    (RollLine("t1", "Ann [/b]", 12, 71, 2, True), RollLine("t2", "Bo", 0, None, 0)), folder="/home/a/class"
)
TRAINEE = TraineeView(
    "Ann [/b]", (KindLine("predictions", 9, 71, 100, 80), KindLine("scale readings", 3, 33, 100, 33)),
    (DueLine("predict:sweeper:pairing", "Sweeper: pair", "now"),), (DueLine("x", "Digger: tip", "in 3 d"),),
)  # fmt: skip
