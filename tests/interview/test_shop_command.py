"""`turfpair shop`: beginning a catalogue of one's own, and looking it over."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from interview.commands.main import main
from rules.shelf import load_shelf


def test_a_shop_is_begun_and_in_order(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "mine"
    assert main(["shop", "init", str(folder)]) == 0
    assert f"wrote {folder / 'heads.toml'}" in capsys.readouterr().out
    assert main(["shop", "check", str(folder)]) == 0
    out = capsys.readouterr().out.splitlines()
    assert out[0] == (
        f"Demo shop (invented stock), {folder}: 34 heads (25 right-hand, 9 left-hand), 17 shafts, 8 grips,"
        " 8 masses of piece"
    )
    assert out[-1] == "The catalogue is in order."
    assert any("setback was not measured; 0.6 in is assumed, between 0 in and 1.4 in" in line for line in out)


def test_a_shelf_of_one_of_each_is_counted_in_the_singular(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "mine"
    main(["shop", "init", str(folder)])
    for part in ("heads", "shafts", "grips", "pieces"):
        file = folder / f"{part}.toml"
        entries = re.split(r"(?m)^(?=\[\[)", file.read_text(encoding="utf-8"))
        file.write_text("".join(entries[:2]), encoding="utf-8")
    capsys.readouterr()
    main(["shop", "check", str(folder)])
    said = capsys.readouterr().out.splitlines()[0]
    assert said.endswith(": 1 head (1 right-hand, 0 left-hand), 1 shaft, 1 grip, 1 mass of piece")


def test_a_folder_that_holds_something_is_not_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    assert main(["shop", "init", str(tmp_path)]) == 2
    err = capsys.readouterr().err
    assert err.count("\n") == 1
    assert "nothing is written over" in err
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]


def test_a_catalogue_at_fault_answers_no_with_a_line_for_each_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "mine"
    main(["shop", "init", str(folder)])
    heads = folder / "heads.toml"
    heads.write_text(heads.read_text().replace('loft = "21 deg"', 'loft = "21 mm"'))
    capsys.readouterr()
    assert main(["shop", "check", str(folder)]) == 1
    out = capsys.readouterr().out.splitlines()
    assert len(out) == 3
    assert out[0].startswith(f"wrong: {heads} line ")
    assert "head[4] 'heath-21': loft: '21 mm' is a length; an angle is wanted" in out[0]
    assert out[-1] == "2 things are wrong; nothing can be built from this catalogue until mended."


def test_what_the_audit_finds_answers_no(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "mine"
    main(["shop", "init", str(folder)])
    heads = folder / "heads.toml"
    heads.write_text(heads.read_text().replace('cg_up_face = "16.7 mm"', 'cg_up_face = "36.7 mm"', 1))
    capsys.readouterr()
    assert main(["shop", "check", str(folder)]) == 1
    out = capsys.readouterr().out.splitlines()
    assert out[1].startswith("wrong: head heath-15: its centre of mass projects above the top of its face")
    assert out[-1] == "1 thing is wrong."


def test_the_catalogue_meant_is_the_folder_then_the_option_then_the_environment(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("named", "option", "environment"):
        main(["shop", "init", str(tmp_path / name)])
    monkeypatch.setenv("TURFPAIR_CATALOGUE", str(tmp_path / "environment"))
    capsys.readouterr()
    for words, meant in (
        ([str(tmp_path / "named"), "--catalogue", str(tmp_path / "option")], "named"),
        (["--catalogue", str(tmp_path / "option")], "option"),
        ([], "environment"),
    ):
        assert main(["shop", "check", *words]) == 0
        assert str(tmp_path / meant) in capsys.readouterr().out.splitlines()[0]
    monkeypatch.delenv("TURFPAIR_CATALOGUE")
    assert main(["shop", "check"]) == 0
    assert str(load_shelf().folder) in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["check", "nowhere-at-all"], "no such folder; `turfpair shop init FOLDER`"),
        ([], "init|check|book"),
        (["init"], "FOLDER"),
        (["sell", "pat"], "invalid choice"),
    ],
)
def test_bad_usage_is_one_line_and_status_2(
    words: list[str],
    said: str,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["shop", *words]) == 2
    streams = capsys.readouterr()
    assert said in streams.err
    assert streams.err.count("\n") == 1
    assert streams.out == ""


def test_no_name_in_a_catalogue_steers_a_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "my\x1b[31mshop"
    main(["shop", "init", str(folder)])
    shop = folder / "shop.toml"
    shop.write_text(shop.read_text().replace("imperial", "\\u001b]0;owned\\u0007"))
    main(["shop", "check", str(folder)])
    streams = capsys.readouterr()
    assert "\x1b" not in streams.out + streams.err
