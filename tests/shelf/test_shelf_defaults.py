"""What was not measured becomes an assumption with a range, and says so."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest

from rules.shelf import DEMO, Head, Shelf, ShelfFaults, UnknownPart, load_shelf
from rules.shelf.read_defaults import read_defaults

MM, DEG = 0.001, 3.141592653589793 / 180
LEAN = '[[head]]\nid = "{kind}-{loft}"\nkind = "{kind}"\nhand = "right"\nloft = "{loft} deg"\n'


@pytest.fixture
def lean(shop: Path) -> Shelf:
    """A cataloguer who wrote down nothing but what cannot be assumed."""
    (shop / "heads.toml").write_text(
        LEAN.format(kind="fairway", loft=17)
        + 'ports = [{ name = "rear", capacity = "12 g" },'
        + ' { name = "toe", capacity = "7 g", toeward = "25 mm" }]\n'
        + LEAN.format(kind="hybrid", loft=22)
    )
    (shop / "shafts.toml").write_text('[[shaft]]\nid = "bare"\nfor = "hybrid"\nflex = "R"\n')
    (shop / "grips.toml").write_text('[[grip]]\nid = "bare"\nsize = "standard"\n')
    (shop / "shop.toml").write_text('name = "Lean shop"\n')
    return load_shelf(shop)


def test_every_field_left_out_is_named(lean: Shelf) -> None:
    given = {"id", "label", "kind", "hand", "loft", "count", "ports", "assumed"}
    for head in lean.heads:
        assert head.assumed == {field.name for field in fields(Head)} - given
    assert lean.shaft("bare").assumed == {
        "mass", "raw_length", "balance", "tip", "taper", "parallel_tip", "mass_tolerance"
    }  # fmt: skip
    assert lean.grip("bare").assumed == {"mass", "length", "balance", "core"}
    assert lean.shop.assumed == {"units", "glue_bench_temperature", "swing_weight_tolerance"}
    assert lean.shop.calibration.assumed == {"setback", "glue_and_ferrule", "ruler_offset"}


def test_depth_and_inertia_are_the_usual_ones(lean: Shelf) -> None:
    """About 20 mm, 1500 and 2300 g*cm2 for a fairway wood; 13 mm, 1200, 2000 for a hybrid.

    House assumption: no open table was found.
    """
    wood, hybrid = lean.heads
    assert wood.cg_depth == pytest.approx(20 * MM)
    assert (wood.moi_vertical, wood.moi_heel_toe) == pytest.approx((1500e-7, 2300e-7))
    assert hybrid.cg_depth == pytest.approx(13 * MM)
    assert (hybrid.moi_vertical, hybrid.moi_heel_toe) == pytest.approx((1200e-7, 2000e-7))


def test_tables_are_straight_between_nodes_and_flat_beyond(lean: Shelf) -> None:
    wood = lean.heads[0]
    assert wood.lie == pytest.approx((56.5 + 3 * 3 / 12) * DEG)
    table = lean.defaults.find("head", "fairway", "lie")
    assert table is not None
    assert table.fill({"loft": 5 * DEG}) == pytest.approx(56.5 * DEG)
    assert table.fill({"loft": 40 * DEG}) == pytest.approx(59.5 * DEG)
    low, high = table.span({"loft": 14 * DEG}) or (0, 0)
    assert (low, high) == pytest.approx((54.5 * DEG, 58.5 * DEG))


def test_a_port_left_unmeasured_sits_where_its_name_says(lean: Shelf) -> None:
    rear, toe = lean.heads[0].ports
    assert (rear.toeward, rear.upward, rear.backward) == pytest.approx((0, -8 * MM, 30 * MM))
    assert rear.assumed == {"toeward", "upward", "backward"}
    assert toe.toeward == pytest.approx(25 * MM)
    assert toe.assumed == {"upward", "backward"}


def test_each_gap_is_listed_with_value_range_and_source(lean: Shelf) -> None:
    found = {(gap.part, gap.field): gap for gap in lean.assumptions()}
    depth = found["head fairway-17", "cg_depth"]
    assert depth.span == pytest.approx((15 * MM, 27 * MM))
    assert depth.source == "assumption"
    assert depth.text
    assert found["the shop's calibration", "setback"].span == pytest.approx((0, 1.4 * 0.0254))
    assert found["head fairway-17, port rear", "backward"].value == pytest.approx(30 * MM)
    assert found["shaft bare", "taper"].span is None
    only = lean.assumptions(lean.grip("bare"))
    assert {gap.field for gap in only} == {"mass", "length", "balance", "core"}


def test_every_range_holds_its_value(lean: Shelf) -> None:
    for gap in lean.assumptions():
        if gap.span is not None:
            assert isinstance(gap.value, float)
            assert gap.span[0] <= gap.value <= gap.span[1]
            assert gap.span[0] < gap.span[1]


def test_swinging_a_default_moves_the_gaps_it_fills_and_nothing_else(lean: Shelf) -> None:
    high = lean.swung("fairway-cg-depth", "high")
    assert high.heads[0].cg_depth == pytest.approx(27 * MM)
    assert high.heads[1] == lean.heads[1]
    assert high.shafts == lean.shafts
    assert lean.swung("port-rear-backward", "low").heads[0].ports[0].backward == pytest.approx(20 * MM)
    assert lean.swung("calibration-setback", "low").shop.calibration.setback == 0
    assert lean.swung("shaft-taper", "high").shafts == lean.shafts
    with pytest.raises(UnknownPart, match="did you mean 'fairway-cg-depth'"):
        lean.swung("fairway-cg-dept", "low")


def test_a_measured_head_is_not_swung() -> None:
    demo = load_shelf()
    moved = demo.swung("fairway-cg-depth", "low")
    changed = [head.id for head, before in zip(moved.heads, demo.heads, strict=True) if head != before]
    assert changed == ["meadow-23"]


def test_every_default_has_a_name_of_its_own_and_a_reason() -> None:
    defaults, sheet = read_defaults(DEMO / "defaults.toml")
    assert sheet.faults() == []
    names = [item.id for item in defaults.items]
    assert len(set(names)) == len(names)
    assert all(item.text.endswith(".") for item in defaults.items)


BAD = 'id = "a"\npart = "head"\nfield = "{field}"\ntext = "T."\nsource = "{source}"\n'


@pytest.mark.parametrize(
    ("field", "source", "rest", "said"),
    [
        ("cg_dept", "memory", "value = 3", "head has no 'cg_dept'"),
        ("cg_depth", "hearsay", 'value = "3 mm"', "one of assumption, common_practice, memory"),
        ("cg_depth", "memory", 'value = "3 mm"\nrange = ["5 mm", "9 mm"]', "on either side of the value"),
        ("cg_depth", "memory", 'value = "3 mm"\nrange = "wide"', "two ends are wanted"),
        ("cg_depth", "memory", "", "a number with a unit is wanted"),
        ("hand", "memory", 'value = "left"\nrange = ["left", "right"]', "only a number has a range"),
        ("cg_depth", "memory", 'at = [["1 deg", "3 mm"]]', "'against' is to name another field"),
        ("cg_depth", "memory", 'against = "loft"\nat = [3]', "pairs are wanted"),
        ("cg_depth", "memory", 'against = "loft"\nat = [[20, 3], [10, 4]]', "is to rise"),
        ("cg_depth", "memory", 'against = "loft"\nunit = "mm"\nat = [[10, 3], [20, 4]]', "either_way"),
    ],
)
def test_a_default_at_fault_is_refused(shop: Path, field: str, source: str, rest: str, said: str) -> None:
    text = f"[[default]]\n{BAD.format(field=field, source=source)}{rest}\n"
    (shop / "defaults.toml").write_text(text)
    with pytest.raises(ShelfFaults) as caught:
        load_shelf(shop)
    assert said in str(caught.value)


def test_a_place_at_fault_is_refused_and_one_that_lacks_a_measure_fills_less(shop: Path) -> None:
    (shop / "defaults.toml").write_text('[[place]]\nname = "crown"\ntoeward = "3 g"\n')
    with pytest.raises(ShelfFaults, match="crown"):
        load_shelf(shop)
