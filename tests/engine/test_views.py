"""Views of facts, candidates that are read late, and what the parts of a ledger carry."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rules.engine import ABSENT, Candidate, RuleBase, View, assumed, known
from rules.engine.amounts import NoStart
from rules.engine.faults import MisreadView, UnknownName, did_you_mean
from rules.engine.sides import Side
from rules.engine.truth import MAY, MUST, best_word, word
from rules.engine.views import point

WORDS = frozenset(("a", "b"))


@pytest.mark.parametrize(
    ("view", "is_known"),
    [
        (known("a"), True), (View("a", WORDS, "open", "derived"), True),
        (View("a", WORDS, "open", "assumed"), False), (View("a", None, "unknown", "said"), False),
        (View("a", None, "known", "assumed"), False), (View(None, WORDS, "known", "said"), False),
        (ABSENT, False), (View(None, WORDS, "open", "derived"), False),
    ],
)  # fmt: skip
def test_known_is_said_measured_or_follows_from_it(view: View, is_known: bool) -> None:
    assert view.known == is_known


def test_a_view_carries_what_it_was_made_of() -> None:
    assert known(2.0, "measured", 0.1) == View(2.0, (2.0, 2.0), "known", "measured", 0.1)
    assert known("a") == View("a", frozenset("a"), "known", "said", 0.0)
    assert assumed("a", WORDS, open=True, spread=2.0) == View("a", WORDS, "open", "assumed", 2.0)
    assert assumed("a", WORDS, open=False) == View("a", frozenset("a"), "unknown", "assumed", 0.0)
    assert assumed(3.0, open=False, spread=0.5) == View(3.0, (3.0, 3.0), "unknown", "assumed", 0.5)
    assert assumed(3.0, open=True) == View(3.0, None, "open", "assumed", 0.0)
    assert View(1.0) == View(1.0, None, "known", "said", 0.0)
    assert View(None, None, "unknown", "assumed") == ABSENT
    assert point(WORDS) == (WORDS, WORDS)


def test_a_fact_tells_what_an_answer_leaves_possible(garden: RuleBase) -> None:
    assert garden.facts["grown"].point(3.0) == (3.0, 3.0)
    assert garden.facts["soil"].point("loam") == frozenset(("loam",))
    assert garden.facts["bears"].point(WORDS) == (WORDS, WORDS)


def test_a_candidate_made_late_is_made_once() -> None:
    made = []

    def views() -> dict[str, View]:
        made.append(1)
        return {"grown": known(3.0)}

    late = Candidate("late", views)
    assert made == []
    assert late.views["grown"].best == late.views["grown"].best == 3.0
    assert made == [1]


@pytest.mark.parametrize(
    ("truth", "could", "best"),
    [
        (MAY, "undetermined", "absent"), (MAY << 3, "undetermined", "absent"),
        (MAY | MUST, "holds", "absent"), ((MAY | MUST) << 3, "fails", "absent"),
        (4, "absent", "holds"), (32, "absent", "fails"), (0, "absent", "absent"),
    ],
)  # fmt: skip
def test_every_bit_of_a_truth_is_named(truth: int, could: str, best: str) -> None:
    assert (word(truth), best_word(truth)) == (could, best)


def test_what_was_asked_wrongly_is_kept(garden: RuleBase) -> None:
    unknown = UnknownName("rule", "x" * 70 + "fruit", ["fruit"])
    assert (unknown.what, unknown.id) == ("rule", "x" * 70 + "fruit")
    assert str(unknown) == f"there is no rule '{'x' * 60}' in this rule base"
    misread = MisreadView("soil", "y" * 50, ["loam"])
    assert (misread.fact, misread.value) == ("soil", "y" * 50)
    assert str(misread) == f"'{'y' * 40}' is no value of 'soil'"
    assert NoStart(garden.decisions["distance"]).decision is garden.decisions["distance"]
    for call in (
        lambda: garden.rule("x"),
        lambda: garden.notices("nowhere", {}),
        lambda: garden.amount("x", {}),
    ):
        with pytest.raises(UnknownName):
            call()
    with pytest.raises(
        UnknownName, match="there is no scope 'gardn' in this rule base; did you mean 'garden'"
    ):
        garden.notices("gardn", {})


def test_what_is_asked_for_in_vain_is_called_what_it_is(garden: RuleBase) -> None:
    calls: dict[str, Callable[[], object]] = {
        "rule": lambda: garden.without("x"),
        "assumption": lambda: garden.with_assumptions({"x": 1.0}),
        "decision": lambda: garden.choose("x", {}, []),
        "scope": lambda: garden.notices("x", {}),
    }
    for what, call in calls.items():
        with pytest.raises(UnknownName, match=f"^there is no {what} 'x' in this rule base$"):
            call()


def test_the_nearest_word_is_meant_and_only_when_it_is_near() -> None:
    assert did_you_mean("laom", ["loam", "sand"]) == "; did you mean 'loam'?"
    assert did_you_mean("gravel", ["loam", "sand"]) == ""
    assert did_you_mean("", []) == ""
    assert did_you_mean("abcde", ["abcxx", "abcdx"]) == "; did you mean 'abcdx'?"
    assert did_you_mean("abcde", ["abcxy"]) == "; did you mean 'abcxy'?"  # 3 of 5 letters: just near enough
    assert did_you_mean("abcdef", ["abcxyz"]) == ""  # 3 of 6 is not


def test_a_pinned_amount_keeps_its_evaluation_and_says_so(garden: RuleBase) -> None:
    views = {"grown": known(19.0), "soil": known("sand")}
    decided = garden.amount("distance", views)
    pinned = decided.pinned(6.0, lambda system: f"Set by hand ({system}).")
    line = pinned.lines[-1]
    assert (line.kind, line.rule, line.adjust, line.points) == ("pinned", None, -2000, 0)
    assert line.text("metric") == "Set by hand (metric)."
    assert (pinned.low, pinned.high, pinned.start, pinned.pick_si) == (6000, 6000, 4000, 6.0)
    assert pinned.view("grown") is views["grown"]
    assert pinned.view("nowhere") is ABSENT
    assert pinned.outcome is decided.outcome
    assert pinned.lines[:-1] == decided.lines
    assert [quiet.rule.id for quiet in garden.amount("distance", {}).silent] == [
        "roots-reach-far", "sand-lets-roots-run",
    ]  # fmt: skip


def test_a_notice_is_said_in_the_units_asked_for(garden: RuleBase, celsius: object) -> None:
    (told,) = garden.notices("garden", {"light.shade": known(0.5)})
    assert told.text() == told.text("metric") == "The place lies in shade for 50 % of the day."
    assert (told.kind, told.topic) == ("advise", "ground")


def test_a_standing_is_found_by_its_id(garden: RuleBase, trees: list[Candidate]) -> None:
    choice = garden.choose("tree", {}, trees)
    fig = choice.standing("fig")
    assert fig is not None
    assert (fig.candidate.id, fig.place) == ("fig", 2)
    assert choice.standing("oak") is None
    assert repr(fig) == "Standing('fig', 0)"
    assert choice.settled == choice.settled
    alone = garden.choose("tree", {}, trees[:1])
    assert (alone.runner_up, alone.margin) == (None, None)


def test_where_everything_comes_from(garden: RuleBase) -> None:
    found = garden.sources
    assert set(found) == {*garden.facts, *garden.assumptions, *garden.decisions, *garden.rules}
    assert found["tall"].cite == "from talks over the fence"
    assert found["soil"].cite is None


def test_known_numbers_and_words_are_read_at_one_look(
    monkeypatch: pytest.MonkeyPatch, garden: RuleBase
) -> None:
    """The slow way, fact by fact, is for what is open, absent, assumed or asked whether it is known."""

    def slow(*_: object) -> None:
        raise AssertionError("read one by one")

    monkeypatch.setattr(Side, "_one_by_one", slow)
    tree = Candidate("one", {"grown": known(19.0), "hardy": known(250.0), "bears": known(frozenset())})
    shared = {"frost": known(260.0), "soil": known("sand"), "wishes": known(frozenset(("fruit",)))}
    assert garden.choose("tree", shared, [tree]).standings[0].points == -3500
    assert garden.amount("distance", {"grown": known(19.0), "soil": known("sand")}).pick == 8000
    monkeypatch.setattr(Side, "_told", slow)
    assert garden.fast_amount("distance", {"grown": 19.0, "soil": "sand"}) == 8.0
