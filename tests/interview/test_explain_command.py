"""`turfpair explain` and `recommend --study`, as a person and as a program read them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from interview.commands.main import main
from interview.views.contract import Recommendation

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
SAMPLE = str(SAMPLES / "fast-and-centred.toml")


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """What explain prints as JSON for the pairing, worked out once."""
    import contextlib
    import io

    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert main(["explain", SAMPLE, "--json"]) == 0
    return json.loads(out.getvalue())


def test_the_ledger_and_the_differences_add_up(told: Any) -> None:
    assert sum(line["points"] for line in told["because"]) == pytest.approx(told["score"], abs=1e-9)
    why_not = told["why_not"]
    assert sum(one["points"] for one in why_not["differences"]) == pytest.approx(why_not["margin"], abs=1e-9)
    assert why_not["margin"] > 0


def test_a_study_is_told_whole(told: Any) -> None:
    assert told["would_change"]
    assert all(one["pick"] != told["pick"] for one in told["would_change"])
    assert {one["fact"] for one in told["would_change"]}.isdisjoint(told["unchanged_by"])
    assert 0 <= told["sure"]["share"] <= told["sure"]["near"] <= 1
    assert told["sure"]["standard_error"] > 0
    assert any(one["changes_pick"] for one in told["leans"])
    assert told["nearly"]
    assert told["rules_changed_since"] is None


@pytest.mark.parametrize("name", ["fast-and-centred", "dreads-every-wood", "marks-overrule-handicap"])
def test_an_amount_is_explained_against_another(
    name: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("rules.inquiry.study.study", lambda *_, **__: None)
    assert main(["explain", str(SAMPLES / f"{name}.toml"), "longer.length", "--instead", "43.5 in"]) == 0
    said = capsys.readouterr().out
    assert "WHY NOT 43.5 in" in said
    assert max(map(len, said.splitlines())) <= 80


def test_no_sentence_repeats_and_no_jargon_reaches_a_customer(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("rules.inquiry.study.study", lambda *_, **__: None)
    assert main(["explain", str(SAMPLES / "hates-hybrids.toml")]) == 0
    said = capsys.readouterr().out
    points = [part for part in said.replace("\n    ", " ").splitlines() if part.startswith("  - ")]
    assert len(points) == len(set(points)) > 2
    for word in ("points", "thousandth", "fairway-", "hybrid-2", "[", "MOI", "swing weight"):
        assert word not in said


def test_changed_rules_are_said(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("rules.inquiry.study.study", lambda *_, **__: None)
    old = tmp_path / "old.toml"
    old.write_text(
        Path(SAMPLE).read_text(encoding="utf-8") + '\n[record]\nrules_digest = "0ld"\n', encoding="utf-8"
    )
    assert main(["explain", str(old)]) == 0
    assert "rules have changed since" in capsys.readouterr().out
    assert main(["explain", SAMPLE]) == 0
    assert "rules have changed" not in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["longer.colour"], "there is no decision"),
        (["pairing", "--instead", "moon"], "no pair is called"),
        (["longer.length", "--instead", "90 kg"], "mass"),
        (["shorter.shaft", "--instead", "none-such"], "was no candidate"),
    ],
)
def test_what_there_is_not_is_one_sentence(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["explain", SAMPLE, *words]) == 2
    err = capsys.readouterr().err
    assert says in err
    assert len(err.strip().splitlines()) == 1


def test_a_studied_recommendation_keeps_the_promise(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["recommend", SAMPLE, "--json", "--study"]) == 0
    printed = capsys.readouterr().out
    Recommendation.model_validate_json(printed)
    found = json.loads(printed)
    assert 0 <= found["pairing"]["sure"] <= 1
    assert found["pairing"]["steady"] in (True, False)
    changes = {one["decision"]: one["would_change"] for one in found["decisions"]}
    assert changes["pairing"]
    assert all(one["changes_pick"] in (True, False) for one in found["assumptions"])


def test_a_length_is_told_by_half_inches_and_a_face_lie_by_lie(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("rules.inquiry.study.study", lambda *_, **__: None)
    sample = str(SAMPLES / "thin-off-tight-turf.toml")
    assert main(["explain", sample, "longer.length"]) == 0
    said = capsys.readouterr().out
    assert max(map(len, said.splitlines())) <= 80
    rows = [line for line in said.splitlines() if line.endswith((" g", " g !"))]
    assert len(rows) == 7
    assert [line.startswith("  >") for line in rows].count(True) == 1
    assert "from answers, not from marks on a face" in " ".join(said.split())
    assert main(["explain", sample, "shorter.head", "--units", "metric"]) == 0
    out = capsys.readouterr().out
    assert max(map(len, out.splitlines())) <= 80
    said = " ".join(out.split())
    assert "> tight fairway" in said
    assert "asks for a head whose centre of mass projects" in said
    assert "Off a tee this face gives up" in said
    for decision, key in (("longer.length", "lengths"), ("longer.head", "face")):
        assert main(["explain", sample, decision, "--json"]) == 0
        found = json.loads(capsys.readouterr().out)
        assert found[key]
        assert found["face" if key == "lengths" else "lengths"] is None


def test_a_customer_is_told_what_an_inch_and_a_face_cost_in_one_sentence(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("rules.inquiry.study.study", lambda *_, **__: None)
    sample = str(SAMPLES / "dreads-every-wood.toml")
    for decision, begins in (
        ("longer.length", "An inch longer would"),
        ("longer.head", "This face costs you"),
    ):
        assert main(["explain", sample, decision]) == 0
        said = " ".join(capsys.readouterr().out.split())
        assert begins in said
        assert "HALF INCH" not in said
        assert "LIE BY LIE" not in said
