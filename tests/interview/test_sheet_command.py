"""`turfpair sheet`: text or a page, by path, id or ticket, and one sentence for every fault."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest

from interview.commands.main import main
from interview.session import ticket_code
from rules.shelf.start import start_shop

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
THIN = str(SAMPLES / "thin-off-tight-turf.toml")
Out = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def _own_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TURFPAIR_SESSIONS", str(tmp_path / "sessions"))
    monkeypatch.delenv("TURFPAIR_CATALOGUE", raising=False)


@pytest.mark.parametrize(("reader", "first"), [("golfer", "YOUR TWO CLUBS"), ("workshop", "WORKSHOP SHEET")])
def test_a_sheet_as_text(capsys: Out, reader: str, first: str) -> None:
    assert main(["sheet", THIN, "--for", reader]) == 0
    said = capsys.readouterr()
    assert said.out.startswith(first)
    assert said.err == ""
    assert ticket_code("thin-off-tight-turf") in said.out


def test_a_page_is_written_whole(tmp_path: Path, capsys: Out) -> None:
    file = tmp_path / "sheet.html"
    for reader in ("golfer", "workshop"):
        assert main(["sheet", THIN, "--for", reader, "--html", str(file)]) == 0
        assert capsys.readouterr().out == f"Wrote {file}: one page, A4 or Letter.\n"
        assert file.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
        assert file.read_text(encoding="utf-8").rstrip().endswith("</html>")
    assert stat.S_IMODE(file.stat().st_mode) & 0o400
    assert [path.name for path in tmp_path.iterdir() if path.suffix == ".tmp"] == []


def test_a_session_of_the_store_by_id_and_by_ticket(tmp_path: Path, capsys: Out) -> None:
    folder = tmp_path / "sessions"
    folder.mkdir()
    (folder / "pat.toml").write_text(Path(THIN).read_text().replace("thin-off-tight-turf", "pat"))
    for name in ("pat", ticket_code("pat")):
        assert main(["sheet", name, "--for", "golfer"]) == 0
        assert "session pat" in " ".join(capsys.readouterr().out.split())


def test_the_sheet_of_a_shop_of_ones_own(tmp_path: Path, capsys: Out) -> None:
    start_shop(tmp_path / "shop")
    file = tmp_path / "shop" / "shop.toml"
    file.write_text(file.read_text().replace("Demo shop (invented stock)", "Our own shop"))
    assert main(["sheet", THIN, "--for", "workshop", "--catalogue", str(tmp_path / "shop")]) == 0
    assert "Our own shop" in capsys.readouterr().out


def test_units_are_asked_for_or_the_sessions(capsys: Out) -> None:
    assert main(["sheet", THIN, "--for", "workshop", "--units", "metric"]) == 0
    assert "104.8 ±0.2 cm" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["sheet"], "SESSION"),
        (["sheet", THIN], "--for"),
        (["sheet", THIN, "--for", "grandmother"], "invalid choice"),
        (["sheet", "nobody", "--for", "golfer"], "there is no session or ticket 'nobody'"),
        (["sheet", "no.toml", "--for", "golfer"], "no.toml"),
        (["sheet", THIN, "--for", "golfer", "--html", "x.toml"], "a name ending in .html is wanted"),
        (["sheet", THIN, "--for", "golfer", "--html", "/nowhere/at/all/x.html"], "could not be written to"),
    ],
)
def test_bad_input_is_one_line_and_status_2(
    words: list[str], said: str, capsys: Out, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(words) == 2
    streams = capsys.readouterr()
    assert said in streams.err
    assert streams.err.count("\n") == 1
    assert streams.out == ""
    assert list(tmp_path.iterdir()) == []


def test_impossible_readings_still_print_a_sheet(tmp_path: Path, capsys: Out) -> None:
    file = tmp_path / "odd.toml"
    file.write_text(
        Path(THIN).read_text() + '\n[readings."longer"]\ntotal = "200 g"\nbalance_point = "31 in"\n'
    )
    assert main(["sheet", str(file), "--for", "workshop"]) == 0
    assert "Not used: the longer club's total reads 200 g" in " ".join(capsys.readouterr().out.split())
    file.write_text(Path(THIN).read_text() + '\n[readings."longer"]\ntotal = "2 g"\n')
    assert main(["sheet", str(file), "--for", "workshop"]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_the_session_is_not_written(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_bytes(Path(THIN).read_bytes())
    before = file.stat().st_mtime_ns
    main(["sheet", str(file), "--for", "golfer"])
    assert file.stat().st_mtime_ns == before
    assert not (tmp_path / "sessions").exists()
