"""`turfpair shop learn`: finished clubs teach the calibration, and only the shop's own file remembers."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from interview.commands.main import main
from interview.session import load
from rules.fitting import fit, load_house
from rules.shelf import load_shelf
from rules.shelf.start import start_shop
from rules.units import UNITS
from rules.workbench.shared import bill

SAMPLES = Path(__file__).parents[2] / "sample_sessions"
INCH, GRAM = UNITS["in"].factor, UNITS["g"].factor
Out = pytest.CaptureFixture[str]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TURFPAIR_SESSIONS", str(tmp_path / "sessions"))
    folder = tmp_path / "shop"
    start_shop(folder)
    return folder


def read_session(tmp_path: Path, sample: str, off: float = 0.0) -> Path:
    """A sample with readings of clubs whose heads sit 0.3 in nearer the length mark, `off` points wrong."""
    house = load_house()
    source = SAMPLES / f"{sample}.toml"
    outcome = fit(house, load(source, house.base.facts).subject)
    text = source.read_text()
    for sign, club in zip((1, -1), outcome.clubs, strict=True):
        build = club.build
        if build is None or bill(club) is None:
            continue
        real = replace(build, head=replace(build.head, setback=build.head.setback - 0.3 * INCH)).reading
        wrong = sign * off * 49.61 * GRAM * INCH / real.total
        text += (
            f'\n[readings."{club.role}"]\n'
            f'total = "{real.total / GRAM:.2f} g"\n'
            f'balance_point = "{(real.balance_point + wrong) / INCH:.4f} in"\n'
            f'length = "{build.length / INCH:.4f} in"\n'
        )
    file = tmp_path / f"{sample}.toml"
    file.write_text(text)
    return file


def test_finished_clubs_teach_the_setback(shop: Path, tmp_path: Path, capsys: Out) -> None:
    files = [str(read_session(tmp_path, name)) for name in ("thin-off-tight-turf", "hates-hybrids")]
    before = (shop / "shop.toml").read_text()
    assert main(["shop", "learn", *files, "--catalogue", str(shop)]) == 0
    out = capsys.readouterr().out
    assert "From 4 finished clubs:" in out
    assert "setback           0.30 in" in out
    assert (shop / "shop.toml").read_text() == before
    assert main(["shop", "learn", *files, "--catalogue", str(shop), "--keep"]) == 0
    learned = load_shelf(shop).shop.calibration
    assert learned.setback / INCH == pytest.approx(0.3, abs=0.02)
    assert "setback" not in learned.assumed
    assert "thin-off-tight-turf longer" in learned.learned_from


def test_the_rest_of_the_file_stays(shop: Path, tmp_path: Path, capsys: Out) -> None:
    file = shop / "shop.toml"
    file.write_text(file.read_text() + 'ruler_offset = "0.1 in"\n')
    before = tomllib.loads(file.read_text())
    session = str(read_session(tmp_path, "thin-off-tight-turf"))
    assert main(["shop", "learn", session, "--catalogue", str(shop), "--keep"]) == 0
    after = tomllib.loads(file.read_text())
    assert {k: v for k, v in after.items() if k != "calibration"} == {
        k: v for k, v in before.items() if k != "calibration"
    }
    assert after["calibration"]["ruler_offset"] == "0.1 in"
    assert "# The built-in demo shop itself." in file.read_text()


def test_what_was_learned_is_told_when_the_shop_is_checked(shop: Path, tmp_path: Path, capsys: Out) -> None:
    main(["shop", "check", str(shop)])
    assert "calibrated by" not in capsys.readouterr().out
    session = str(read_session(tmp_path, "thin-off-tight-turf"))
    main(["shop", "learn", session, "--catalogue", str(shop), "--keep"])
    main(["shop", "check", str(shop)])
    assert "Its sums are calibrated by: thin-off-tight-turf longer" in capsys.readouterr().out


def test_a_shop_without_a_calibration_gets_one_and_a_bare_number_stays(
    shop: Path, tmp_path: Path, capsys: Out
) -> None:
    file, session = shop / "shop.toml", str(read_session(tmp_path, "thin-off-tight-turf"))
    file.write_text(file.read_text().split("[calibration]")[0])
    assert main(["shop", "learn", session, "--catalogue", str(shop), "--keep"]) == 0
    kept = tomllib.loads(file.read_text())
    assert set(kept["calibration"]) == {"setback", "glue_and_ferrule", "learned_from"}
    file.write_text(file.read_text() + "ruler_offset = 0.1\n")
    assert main(["shop", "learn", session, "--catalogue", str(shop), "--keep"]) == 0
    assert tomllib.loads(file.read_text())["calibration"]["ruler_offset"] == 0.1


def test_the_demo_shop_learns_nothing(tmp_path: Path, capsys: Out) -> None:
    session = str(read_session(tmp_path, "thin-off-tight-turf"))
    assert main(["shop", "learn", session, "--keep"]) == 2
    assert "shop init" in capsys.readouterr().err


def test_a_calibrated_shop_builds_to_it(shop: Path, tmp_path: Path, capsys: Out) -> None:
    session = str(read_session(tmp_path, "thin-off-tight-turf"))
    main(["shop", "learn", session, "--catalogue", str(shop), "--keep"])
    capsys.readouterr()
    load_house.cache_clear()  # each command is a process of its own
    main(["sheet", str(SAMPLES / "thin-off-tight-turf.toml"), "--for", "workshop", "--catalogue", str(shop)])
    said = " ".join(capsys.readouterr().out.split())
    assert "mark: 0.3" in said
    assert "in, learned here" in said


def test_clubs_that_disagree_are_not_kept(shop: Path, tmp_path: Path, capsys: Out) -> None:
    before = (shop / "shop.toml").read_text()
    session = str(read_session(tmp_path, "thin-off-tight-turf", off=3.0))
    assert main(["shop", "learn", session, "--catalogue", str(shop), "--keep"]) == 2
    assert "miss their own fit by" in capsys.readouterr().err
    assert (shop / "shop.toml").read_text() == before


def test_nothing_read_and_the_demo_are_one_sentence(shop: Path, tmp_path: Path, capsys: Out) -> None:
    plain = str(SAMPLES / "thin-off-tight-turf.toml")
    assert main(["shop", "learn", plain, "--catalogue", str(shop)]) == 2
    assert "none of these sessions holds readings" in capsys.readouterr().err
    assert main(["shop", "learn", plain, "--keep"]) == 2
    assert "demo shop is never written" in capsys.readouterr().err
