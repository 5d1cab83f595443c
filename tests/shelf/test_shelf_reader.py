"""The reader of catalogues: strict where it must be, and every fault in one clear sentence."""

from __future__ import annotations

import math
import os
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.problems import Problem
from rules.shelf import DEMO, NoCatalogue, NoHeads, ShelfFaults, UnknownPart, catalogue_folder, load_shelf
from rules.shelf.faults import Fault


def _swap(file: Path, old: str, new: str) -> None:
    text = file.read_text()
    assert old in text
    file.write_text(text.replace(old, new, 1))


def _faults(folder: Path) -> tuple[Fault, ...]:
    with pytest.raises(ShelfFaults) as caught:
        load_shelf(folder)
    return caught.value.faults


BAD_VALUES = [
    ("heads.toml", 'loft = "15.25 deg"', 'loft = "15.25 mm"', "is a length", "loft"),
    ("heads.toml", 'mass = "205 g"', 'mass = "2050 g"', "lies between 150 g and 320 g", "mass"),
    ("heads.toml", 'kind = "fairway"', 'kind = "fareway"', "did you mean 'fairway'?", "kind"),
    ("heads.toml", 'hand = "right"', "hand = true", "one of right, left is wanted", "hand"),
    ("heads.toml", 'face_angle = "square"', 'face_angle = "9 deg closed"', "lies between", "face_angle"),
    ("heads.toml", 'lie = "56.75 deg"', "lie = []", "a number with a unit is wanted", "lie"),
    ("heads.toml", 'label = "Heath', 'label = "\\u001b[31mHeath', "without control characters", "label"),
    ("heads.toml", 'id = "heath-15"', 'id = "Heath 15"', "lowercase letters, digits and hyphens", "id"),
    ("heads.toml", "count = 3", "count = -3", "a whole number from 0", "count"),
    ("heads.toml", "restitution = 0.825", "restitution = nan", "is not a finite number", "restitution"),
    ("shafts.toml", 'taper = "no"', 'taper = "maybe"', "'yes' or 'no' is wanted", "taper"),
    ("shafts.toml", 'trim = [["14 deg", "0 in"], ["20', 'trim = [["24 deg", "0 in"], ["20', "rise", "trim"),
    ("shafts.toml", 'trim = [["14 deg", "0 in"],', 'trim = ["14 deg",', "pairs of loft and trim", "trim"),
    ("shafts.toml", 'flex = "L"', 'flex = "ladies"', "one of L, A, R, S, X", "flex"),
    ("grips.toml", 'core = "0.60 in"', 'core = "60 in"', "lies between", "core"),
    ("pieces.toml", 'fits = ["rear"', 'fits = ["rear", "rear"', "named twice", "fits"),
    ("pieces.toml", "count = 24", 'count = "many"', "a whole number", "count"),
    ("shop.toml", 'units = "imperial"', 'units = "yards"', "one of imperial, metric", "units"),
]


@pytest.mark.parametrize(("file", "old", "new", "said", "key"), BAD_VALUES)
def test_a_bad_value_is_refused_at_its_line(
    shop: Path, file: str, old: str, new: str, said: str, key: str
) -> None:
    _swap(shop / file, old, new)
    (fault,) = _faults(shop)
    assert said in fault.message
    assert (shop / file).read_text().splitlines()[fault.line - 1].startswith(f"{key} =")
    assert str(fault).startswith(f"{shop / file} line {fault.line}, column {fault.column}: ")
    assert "\n" not in str(fault)


def test_an_unknown_key_comes_with_the_nearest_one(shop: Path) -> None:
    _swap(shop / "heads.toml", "cg_depth =", "cg_dept =")
    (fault,) = _faults(shop)
    assert "'cg_dept' is not a key that is known here (did you mean 'cg_depth'?)" in fault.message
    assert fault.owner == "head[1] 'heath-15'"
    assert fault.column == 1


def test_what_cannot_be_assumed_is_asked_for(shop: Path) -> None:
    _swap(shop / "heads.toml", 'loft = "15.25 deg"\n', "")
    (fault,) = _faults(shop)
    assert fault.message == "'loft' is missing; it cannot be assumed"


def test_one_id_names_one_part_and_one_mass_one_piece(shop: Path) -> None:
    _swap(shop / "shafts.toml", 'id = "easy-52"', 'id = "easy-46"')
    _swap(shop / "pieces.toml", 'mass = "1 g"', 'mass = "0.0005 kg"')
    shaft, piece = _faults(shop)
    assert shaft.message == "shaft[1] 'easy-46' has the same id"
    assert piece.message == "piece[1] '0.5 g' has the same mass"


def test_every_fault_is_told_in_one_go(shop: Path) -> None:
    _swap(shop / "heads.toml", 'loft = "15.25 deg"', "loft = 99")
    _swap(shop / "heads.toml", 'mass = "205 g"', 'mass = "heavy"')
    _swap(shop / "grips.toml", 'size = "standard"', 'size = "big"')
    faults = _faults(shop)
    assert [fault.file.name for fault in faults] == ["heads.toml", "heads.toml", "grips.toml"]
    with pytest.raises(ShelfFaults, match=r"\(2 more; `turfpair shop check` lists them all\)"):
        load_shelf(shop)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('name = "rear", capacity', 'nama = "rear", capacity', "'nama' is not a key"),
        ('capacity = "14.5 g"', 'capacity = "14.5 mm"', "is a length"),
        ('name = "toe"', 'name = "rear"', "two are called 'rear'"),
        ('"rear", capacity = "14.5 g", toeward = "0 mm",', '"crown", capacity = "9 g",', "toeward wanted"),
    ],
)
def test_a_bad_port_is_refused(shop: Path, old: str, new: str, said: str) -> None:
    _swap(shop / "heads.toml", old, new)
    assert any(said in fault.message for fault in _faults(shop))


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("shop.toml", 'name = "', "name = 5 #", "text is wanted"),
        ("pieces.toml", "fits = [", 'fits = "rear" # [', "a list of port names is wanted"),
        ("shafts.toml", 'taper = "no"', 'taper = "perhaps"', "'yes' or 'no' is wanted"),
        ("heads.toml", 'face_angle = "', 'face_angle = "30 deg closed" # "', "cannot be"),
    ],
)
def test_a_value_of_the_wrong_sort_is_told_what_is_wanted(
    shop: Path, file: str, old: str, new: str, said: str
) -> None:
    _swap(shop / file, old, new)
    assert any(said in fault.message for fault in _faults(shop))


def test_a_face_and_a_taper_are_read_as_people_write_them(shop: Path) -> None:
    first = load_shelf(shop)
    text = (shop / "heads.toml").read_text(encoding="utf-8")
    typed = re.search(r'face_angle = "[^"]*"', text)
    assert typed is not None
    for face, degrees in (('"1 deg open"', -1.0), ('"square"', 0.0), ('"0.5 deg"', 0.5), ("1", 1.0)):
        (shop / "heads.toml").write_text(text.replace(typed[0], f"face_angle = {face}", 1), encoding="utf-8")
        changed = [b for a, b in zip(first.heads, load_shelf(shop).heads, strict=True) if a != b]
        assert {round(math.degrees(head.face_angle), 6) for head in changed} <= {degrees}
    _swap(shop / "shafts.toml", 'taper = "no"', "taper = false")
    assert load_shelf(shop).shafts == first.shafts


@pytest.mark.parametrize("ports", ['"rear"', '["rear"]', "[{}]", "[" + "{}," * 9 + "]"])
def test_ports_of_another_shape_are_refused(shop: Path, ports: str) -> None:
    (shop / "heads.toml").write_text(
        f'[[head]]\nid = "a"\nkind = "hybrid"\nhand = "left"\nloft = 20\nports = {ports}\n'
    )
    assert all("port" in str(fault) for fault in _faults(shop))


def _make_folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


SPOILERS: list[tuple[Callable[[Path], object], str]] = [
    (lambda file: file.unlink(), "this file of the catalogue is missing"),
    (lambda file: file.write_text(""), "this file is empty"),
    (lambda file: file.write_bytes(b"\x7fELF\x00\xff\xfe"), "not a text file"),
    (lambda file: file.write_text("[[head]\n"), "not valid TOML"),
    (_make_folder, "this is a folder"),
    (lambda file: file.write_text("head = 3\n"), "a list of tables is wanted"),
    (lambda file: file.write_text("heads = []\n"), "did you mean 'head'?"),
    (lambda file: file.write_text("[[head]]\n" * 2001), "at most 2000 of [[head]] are read"),
    (lambda file: file.rename(file.with_name("head.toml")), "did you mean 'heads.toml'?"),
]


@pytest.mark.parametrize(("spoil", "said"), SPOILERS)
def test_a_file_that_cannot_be_used_says_why(shop: Path, spoil: Callable[[Path], object], said: str) -> None:
    spoil(shop / "heads.toml")
    assert any(said in str(fault) for fault in _faults(shop))


def test_a_byte_order_mark_does_no_harm(shop: Path) -> None:
    before = load_shelf(shop)
    file = shop / "heads.toml"
    file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes())
    assert load_shelf(shop).digest == before.digest


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read anything")
def test_a_folder_that_may_not_be_read_says_so(shop: Path) -> None:
    shop.chmod(0)
    try:
        with pytest.raises(NoCatalogue, match="cannot be read"):
            load_shelf(shop)
    finally:
        shop.chmod(0o755)


def test_a_folder_that_is_none_says_what_to_do(tmp_path: Path) -> None:
    with pytest.raises(NoCatalogue, match="no such folder; `turfpair shop init FOLDER`"):
        load_shelf(tmp_path / "nowhere")
    (tmp_path / "file").write_text("")
    with pytest.raises(NoCatalogue, match="this is a file"):
        load_shelf(tmp_path / "file")
    with pytest.raises(NoCatalogue, match="cannot be read"):
        load_shelf(Path("nul\0l"))


def test_no_head_for_a_hand_says_where_to_add_one(shop: Path) -> None:
    text = (shop / "heads.toml").read_text()
    (shop / "heads.toml").write_text(text[: text.index("# The left-hand")])
    with pytest.raises(NoHeads, match=r"heads.toml line 1: no left-hand head is in stock; add a \[\[head"):
        load_shelf(shop).heads_for("left")
    assert len(load_shelf(shop).heads_for("right")) == 25


def test_a_head_of_which_none_is_left_is_not_proposed(shop: Path) -> None:
    _swap(shop / "heads.toml", "count = 3", "count = 0")
    _swap(shop / "shafts.toml", "count = 4", "count = 0")
    shelf = load_shelf(shop)
    assert "heath-15" not in {head.id for head in shelf.heads_for("right")}
    assert "easy-46" not in {shaft.id for shaft in shelf.shafts_for("fairway")}
    assert shelf.head("heath-15").count == 0


def test_what_nobody_counts_is_always_there(shop: Path) -> None:
    _swap(shop / "heads.toml", "count = 3\n", "")
    assert load_shelf(shop).head("heath-15").count is None
    assert load_shelf(shop).head("heath-15").in_stock


def test_the_digest_follows_meaning_not_writing(shop: Path) -> None:
    before = load_shelf(shop).digest
    file = shop / "grips.toml"
    first, *rest = file.read_text().split("[[grip]]")
    file.write_text("[[grip]]".join([first, *(f"{part.rstrip()}\n\n" for part in reversed(rest))]))
    _swap(shop / "heads.toml", 'mass = "205 g"', 'mass = "0.205 kg"')
    assert load_shelf(shop).digest == before == load_shelf(DEMO).digest
    _swap(shop / "heads.toml", 'mass = "0.205 kg"', 'mass = "206 g"')
    assert load_shelf(shop).digest != before


def test_an_overlay_replaces_by_id_and_adds(tmp_path: Path) -> None:
    (tmp_path / "heads.toml").write_text(
        '[[head]]\nid = "heath-15"\nkind = "fairway"\nhand = "right"\nloft = "15.5 deg"\n'
        '[[head]]\nid = "new-20"\nkind = "hybrid"\nhand = "left"\nloft = "20 deg"\n'
    )
    (tmp_path / "shop.toml").write_text('[calibration]\nsetback = "0.8 in"\nlearned_from = "six clubs"\n')
    demo, shelf = load_shelf(), load_shelf(None, [tmp_path])
    assert len(shelf.heads) == len(demo.heads) + 1
    assert shelf.head("heath-15").label == "heath-15"
    assert shelf.shop.name == demo.shop.name
    assert shelf.shop.calibration.setback == pytest.approx(0.8 * 0.0254)
    assert shelf.shop.calibration.assumed == {"glue_and_ferrule", "ruler_offset"}


def test_a_part_asked_for_by_a_wrong_name_is_met_with_the_nearest() -> None:
    shelf = load_shelf()
    for find, name in ((shelf.head, "heath15"), (shelf.shaft, "evn-64"), (shelf.grip, "cord48")):
        with pytest.raises(UnknownPart, match="did you mean"):
            find(name)


def test_which_catalogue_is_meant(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TURFPAIR_CATALOGUE", "/elsewhere")
    assert catalogue_folder(None) == Path("/elsewhere")
    assert catalogue_folder("/here") == Path("/here")
    monkeypatch.delenv("TURFPAIR_CATALOGUE")
    assert catalogue_folder(None) is None


_DEMO_TEXT = {
    name: (DEMO / f"{name}.toml").read_text() for name in ("heads", "shafts", "grips", "pieces", "shop")
}


def _outcome(folder: Path) -> str:
    """Return what a person is told; anything but a Problem goes through and fails the test."""
    try:
        return load_shelf(folder).digest
    except Problem as problem:
        return str(problem)


@settings(max_examples=40, deadline=None)
@given(
    name=st.sampled_from(sorted(_DEMO_TEXT)),
    cut=st.floats(0, 1),
    noise=st.text(max_size=12)
    | st.sampled_from(["]", '"', "= 3\n", "\n[[head]]\n", "{ x = [", "nan", "1e999"]),
)
def test_no_damage_ends_in_anything_but_a_sentence(
    tmp_path_factory: pytest.TempPathFactory, name: str, cut: float, noise: str
) -> None:
    folder = tmp_path_factory.mktemp("damaged")
    for each, text in _DEMO_TEXT.items():
        at = int(len(text) * cut)
        spoilt = text[:at] + noise + text[at + 1 :] if each == name else text
        (folder / f"{each}.toml").write_text(spoilt, encoding="utf-8", errors="replace")
    assert "\n" not in _outcome(folder)
