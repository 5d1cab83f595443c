"""`turfpair rules check` and `turfpair rules show`."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.commands.main import main
from interview.session.reading import load as load_session

HERE = Path(__file__).parent


def ran(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, list[str], list[str]]:
    status = main(["rules", *map(str, words)])
    out, err = capsys.readouterr()
    return status, out.splitlines(), err.splitlines()


def test_a_clean_base_exits_0(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = ran(capsys, "check", HERE / "garden")
    assert (status, err) == (0, [])
    assert out[0].startswith(
        "Which tree for this garden: 8 rules, 8 facts, 3 assumptions, 2 decisions; digest "
    )
    assert out[-1] == "Nothing to find fault with."


def test_findings_exit_1_and_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = ran(capsys, "check", HERE / "audited")
    assert (status, err) == (1, [])
    assert out[-1] == "22 findings."
    assert "rule 'never-speaks': it can never speak: no grown height fits all that it asks" in out


def test_faults_exit_2_with_every_one_listed(capsys: pytest.CaptureFixture[str], garden_folder: Path) -> None:
    (garden_folder / "spoilt.toml").write_text('rulle = 1\n[[rule]]\nid = "x"\n')
    status, out, err = ran(capsys, "check", garden_folder)
    assert status == 2
    assert len(out) == 6
    assert "line 1, column 1: rulle: this is no table of a rule base; did you mean 'rule'?" in out[0]
    assert err == ["turfpair: 6 faults; nothing was loaded"]
    status, out, err = ran(capsys, "check", garden_folder / "nowhere")
    assert (status, len(out), len(err)) == (2, 1, 1)


def test_escapes_in_a_base_never_reach_the_terminal(
    capsys: pytest.CaptureFixture[str], garden_folder: Path
) -> None:
    (garden_folder / "spoilt.toml").write_text('"\\u001b[31mred" = 1\n')
    _, out, err = ran(capsys, "check", garden_folder)
    assert all("\x1b" not in line for line in (*out, *err))


def test_show_reads_aloud_and_lists(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = ran(capsys, "show", "gap-least")
    assert status == 0
    assert out[0].startswith("assumption gap-least: 6 %")
    status, out, _ = ran(capsys, "show", "tall", "--rules", HERE / "garden", "--units", "metric")
    assert out[0] == "assumption tall: 12 m, plausibly 8 m to 15 m"
    status, out, _ = ran(capsys, "show", "--rules", HERE / "garden")
    assert [line for line in out if not line.startswith(" ")] == [
        "decisions:",
        "rules:",
        "facts:",
        "assumptions:",
    ]
    status, out, err = ran(capsys, "show", "gap-lest")
    assert (status, out) == (2, [])
    assert err == [
        "turfpair: there is no rule, fact, assumption or decision 'gap-lest' in this rule base;"
        " did you mean 'gap-least'?"
    ]


RULE = """
[[rule]]
id = "never-mind-the-pace"
decision = "balance"
scope = "rung"
when.any = [{ fact = "tempo", is = "smooth" }, { fact = "tempo", is_not = "smooth" }]
effect = { adjust = "1 points" }
because = "Because every swing has some tempo or other."
teaches = "This one is here to be found out."
source = { kind = "common_practice" }
"""


def test_witnesses_are_sessions_that_load(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, house: object
) -> None:
    overlay = tmp_path / "overlay"
    overlay.mkdir()
    (overlay / "extra.toml").write_text(RULE)
    status, out, _ = ran(capsys, "check", overlay, "--witnesses", tmp_path / "shown")
    assert status == 1
    (file,) = (tmp_path / "shown").glob("*-always-never-mind-the-pace.toml")
    session = load_session(file, house.base.facts)  # type: ignore[attr-defined]
    assert "tempo" in session.written["answers"]
    assert "speaks whatever the facts" in session.note
    assert any(line == f"wrote {file}" for line in out)
    status, _, err = ran(capsys, "check", overlay, "--witnesses", tmp_path / "shown")
    assert (status, len(err)) == (2, 1)
