"""A whole lesson by keys: predict, be marked, walk the trace, change an answer, find the flip."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from interview.classroom import ClassBook
from interview.screens.kit.orders import SHOWN, bindings, shown
from interview.screens.trainer import orders as asked
from interview.screens.trainer.orders import COMMON
from interview.views.trainer.names import picked_name
from interview.views.trainer.said import said
from rules.engine import Amount
from rules.facts.answers import Answer
from rules.inquiry.ledgers import ledger
from rules.lessons.case import Case, LessonProblem, decided, with_answers
from rules.lessons.flipping import flips_of
from rules.lessons.steps import walk


def pair_of(case: Case) -> str:
    """The pair of a case as the screens name it."""
    assert case.outcome.picked is not None
    return picked_name(case, "pairing", case.outcome.picked.id, "imperial")


def length_of(case: Case) -> str:
    """The length of the longer club in words."""
    amount = ledger(case.outcome, "longer.length")
    assert isinstance(amount, Amount)
    return picked_name(case, "longer.length", amount.pick, "imperial")


async def test_a_case_is_predicted_marked_and_walked(open_lesson: Any, tmp_path: Path) -> None:
    book = ClassBook.open(tmp_path)
    trainee = book.add("Ann [/b] \\[x]")
    async with open_lesson(folder=tmp_path) as lesson:
        case: Case = lesson.desk.cases[0]
        lesson.desk.sit(trainee.id)
        assert case.note[:20] not in lesson.text()
        await lesson.press("f2")
        assert "A divot, strikes" in lesson.pane("detail"), "the note, once it is asked for"

        await lesson.press("enter")
        assert lesson.on == "PredictScreen"
        assert "92 mph, measured" in lesson.pane("detail")
        assert case.outcome.clubs[0].rung.spec.head is not None
        assert case.outcome.clubs[0].rung.spec.head.label not in lesson.text(), "nothing is given away"
        await lesson.press("f5")
        assert "Predict one decision at least" in lesson.pane("told")

        await _predict(lesson, case)
        await lesson.press("f5")
        assert lesson.on == "RevealScreen"
        assert f"decided {pair_of(case)}" in lesson.pane("detail")
        assert "NAMED, AND WHAT IT CARRIED" in lesson.pane("detail")
        await lesson.choose("longer.length")
        assert "No reason was named" in lesson.pane("detail")
        assert "THE TEACHING NOTE" in lesson.pane("detail")
        made = ClassBook.open(tmp_path).roll.of(trainee.id)
        assert {one.item for one in made} == {
            "predict:digger-scattered:pairing", "predict:digger-scattered:longer.length"
        }  # fmt: skip

        await lesson.choose("shorter.head")
        await lesson.press("enter")
        assert "No rule spoke on this" in lesson.pane("told")
        await lesson.choose("longer.length")
        await lesson.press("enter")
        await _walk(lesson, case)
        await lesson.press("escape", "escape", "f5")
        assert len(ClassBook.open(tmp_path).roll.of(trainee.id)) == 2, "marked again is no new attempt"
        await lesson.press("escape", "escape")
        assert "at the keys: Ann [/b] \\[x]" in lesson.text()


async def _predict(lesson: Any, case: Case) -> None:
    """Predict the pair with its reasons, and a length without."""
    await lesson.press("enter")
    await lesson.type(pair_of(case))
    await lesson.press("enter")
    assert lesson.on == "FactsScreen"
    for fact in ("five wood", "confidence in hy", "loft of the longest"):
        await lesson.type(fact if fact != "five wood" else "5-wood")
        await lesson.press("enter")
    await lesson.press("f5")
    assert lesson.desk.of_case(case)["pairing"].reasons == (
        "hits_five_wood", "confidence_lead", "longest_iron_loft"
    )  # fmt: skip

    await lesson.choose("longer.length")
    await lesson.press("enter")
    await lesson.type("99")
    assert "outside" in lesson.pane("reads")
    await lesson.press("enter")
    assert lesson.on == "PromptScreen", "what cannot be is not taken"
    await lesson.press(*["backspace"] * 2)
    await lesson.type("41 in")
    await lesson.press("enter", "escape")
    assert "2 of 17 predicted" in lesson.pane("heading")


async def _walk(lesson: Any, case: Case) -> None:
    """Walk the length of the longer club to its end, then on to what is contested."""
    screen, steps = lesson.app.screen, walk(case, "longer.length").steps
    assert lesson.on == "StepsScreen"
    assert f"step 1 of {len(steps)}" in lesson.text()
    await lesson.press(*["right"] * (len(steps) - 1))
    amount = ledger(case.outcome, "longer.length")
    assert screen.walk.step.did[0].running == amount.pick  # type: ignore[union-attr]
    assert length_of(case) in lesson.pane("list")
    await lesson.press("left")
    assert f"step {len(steps) - 1} of {len(steps)}" in lesson.text()
    await lesson.press("home")
    assert screen.walk.step.decision == "pairing"
    await lesson.press("left")
    assert screen.at == 0
    at = next(at for at, one in enumerate(screen.walk.steps) if one.contested)
    screen.at = at
    await lesson.settle()
    step, shows = screen.walk.step, lesson.pane("detail")
    assert "WHAT THE OTHER SCHOOL SAYS" in shows
    assert step.contested.other.split()[0] in shows
    assert step.contested.leans.split()[0] in shows
    assert step.rule.id in shows
    assert "WHAT IT READ" in shows
    assert "Source:" in shows
    await lesson.press("end")
    assert screen.walk.done
    await lesson.press("f3", "f2")
    assert screen.walk.step.decision == screen.decisions[-1]


async def test_one_answer_moves_and_the_flip_is_found(open_lesson: Any, tmp_path: Path) -> None:
    trainee = ClassBook.open(tmp_path).add("Bo")
    async with open_lesson(120, 40, tmp_path) as lesson:
        case = lesson.desk.cases[0]
        lesson.desk.sit(trainee.id)
        await lesson.press("enter", "enter")
        await lesson.type(pair_of(case))
        await lesson.press("enter", "escape", "f5", "f3")
        assert lesson.on == "ChangeScreen"
        await lesson.choose("handicap")
        await lesson.press("enter")
        await lesson.type("2")
        await lesson.press("enter")
        assert "Handicap 22 → 2" in lesson.pane("detail")
        other = with_answers(case, {"handicap": Answer(2.0)})
        ends = [length_of(one) for one in (case, other)]
        assert ends[0] != ends[1]
        assert " → ".join(ends) in lesson.pane("detail")
        await lesson.press("f2")
        assert "not asked" in lesson.pane("list")
        flips = flips_of(case, case.base.facts["turf_mark"]).flips
        word = str(next(one.to for one in flips if one.decision == "pairing"))
        await lesson.choose("turf_mark")
        await lesson.press("enter")
        await lesson.type(word)
        await lesson.press("enter")
        assert "The pair flips" in lesson.pane("detail")
        assert case.subject.answers["turf_mark"].value == "divot", "the case stays as it was"
        await lesson.press("delete")
        assert "The pair" not in lesson.pane("detail")

        await lesson.press("f4")
        assert lesson.on == "FlipScreen"
        assert "Turf mark is divot" in lesson.pane("list")
        await lesson.press("f5")
        assert "Guess first" in lesson.pane("told")
        await lesson.type("nonsense")
        await lesson.press("enter")
        assert "nonsense" in lesson.pane("told")
        assert lesson.app.screen.marks == ()
        await lesson.type(word)
        await lesson.press("enter")
        assert f"{word} gives" not in lesson.pane("list"), "nothing is told before it is asked"
        await lesson.press("f5")
        assert "That earns 100 %." in lesson.pane("list")
        assert f"Turf mark {word} gives" in lesson.pane("list")
        last = ClassBook.open(tmp_path).roll.of(trainee.id)[-1]
        assert (last.item, last.score) == ("flip:digger-scattered:turf_mark", 1.0)
        await lesson.press("f3")
        assert lesson.app.screen.marks == ()


def test_every_decision_of_a_case_can_be_shown(cases: tuple[Case, ...]) -> None:
    """Of every decision the last step of its walk stands at what was decided."""
    from interview.views.trainer.predicted import facts_of, options_of, predict_view
    from interview.views.trainer.walked import step_view

    for case in cases:
        view = predict_view(case, {}, "metric")
        assert [line.id for line in view.lines] == list(decided(case))
        for decision in decided(case):
            assert facts_of(case, decision, (), "metric")
            options = options_of(case, decision, None, "metric")
            kind = case.base.decisions[decision.rpartition(".")[2]].kind
            assert bool(options) == (kind == "choice")
            try:
                steps = walk(case, decision)
            except LessonProblem:
                continue
            last = step_view(case, steps.to(len(steps.steps) - 1), "imperial")
            assert last.at == last.count
            assert all(abs(one.after) <= last.scale for one in last.bars)
            assert sum(one.leads for one in last.bars) == 1


def test_orders_fit_the_line_of_keys_and_each_has_one_key() -> None:
    names = ("CASES", "PREDICT", "REVEAL", "STEPS", "CHANGE", "FLIP", "EXERCISE", "CHART", "EDIT", "ROLL")
    for name, orders in ((name, getattr(asked, name)) for name in names):
        assert len([one for one in orders if one.shown]) <= SHOWN, name
        line = "   ".join(f"{one.key_name} {one.label}" for one in shown(orders))
        assert len(line) <= 80, (name, line)
        keys = [key for one in (*orders, *COMMON) for key in one.key.split(",") if key]
        assert len(keys) == len(set(keys)), name
        assert len(bindings((*orders, *COMMON))) == len({one.id for one in (*orders, *COMMON)}), name
        assert all(
            re.fullmatch(r"f\d+|enter|escape|left|right|home|end|delete|tab|ctrl\+[qz]", k) for k in keys
        )
        assert said(f"{name.lower()}.help")
