"""The demo shop: invented, consistent with the physics, and wide enough to build from."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from pathlib import Path

import pytest

from rules.bench.tip import fit
from rules.golf.contact import height_up_face
from rules.shelf import DEMO, Grip, Head, Shaft, Shelf, load_shelf, on_bench
from rules.shelf.audit import SHORTER, USUAL_LENGTH, audit, reach
from rules.shelf.parts import between_nodes

MM, GRAM, DEG, INCH = 1e-3, 1e-3, math.pi / 180, 0.0254


@pytest.fixture(scope="module")
def demo() -> Shelf:
    return load_shelf()


def _heads(shelf: Shelf, family: str = "", hand: str = "right", kind: str = "") -> list[Head]:
    return [
        head
        for head in shelf.heads
        if head.hand == hand and head.id.startswith(family) and kind in ("", head.kind)
    ]


def test_it_passes_its_own_check(demo: Shelf) -> None:
    assert [str(finding) for finding in audit(demo) if finding.level == "wrong"] == []


def test_there_is_enough_to_choose_from(demo: Shelf) -> None:
    assert len(_heads(demo, kind="fairway")) >= 14
    assert len(_heads(demo, kind="hybrid")) >= 9
    assert 6 <= len(_heads(demo, hand="left")) < len(_heads(demo)) / 2
    assert len(demo.shafts) >= 10
    assert {shaft.flex for shaft in demo.shafts} == set("LARSX")
    assert {grip.size for grip in demo.grips} == {"undersize", "standard", "midsize", "oversize"}


def test_common_lofts_stand_in_two_face_families(demo: Shelf) -> None:
    shallow, mid = _heads(demo, "heath"), _heads(demo, "meadow")
    for loft in (15, 17, 19, 21, 23):
        for family in (shallow, mid):
            assert min(abs(head.loft - loft * DEG) for head in family) <= 0.5 * DEG


def test_no_family_and_no_hand_has_a_gaping_step(demo: Shelf) -> None:
    for family in ("heath", "meadow", "bank", "gorse", "bracken"):
        lofts = sorted(head.loft for head in _heads(demo, family))
        assert all(b - a <= 2.5 * DEG + 1e-9 for a, b in pairwise(lofts))
    left = sorted(head.loft for head in _heads(demo, hand="left"))
    assert all(b - a <= 2.5 * DEG + 1e-9 for a, b in pairwise(left))
    assert left[0] < 16 * DEG < 27 * DEG < left[-1]


def test_face_families_are_those_of_the_trade(demo: Shelf) -> None:
    """Common practice: 30 to 32 mm suits bare turf, 34 mm still counts as low, deep is 6 to 10 mm taller."""
    assert all(30 * MM <= head.face_height <= 32.001 * MM for head in _heads(demo, "heath"))
    assert all(34 * MM - 1e-9 <= head.face_height <= 35.501 * MM for head in _heads(demo, "meadow"))
    deep = _heads(demo, "bank")
    assert all(38 * MM <= head.face_height <= 40 * MM for head in deep)
    assert max(head.loft for head in deep) < 18 * DEG


def test_the_centre_of_mass_projects_a_little_above_the_middle(demo: Shelf) -> None:
    """Common practice: even shallow heads carry it a little above the centre of a ball on turf."""
    for head in demo.heads:
        least = 0.5 if head.kind == "fairway" else 0.48
        assert least < head.cg_up_face / head.face_height < 0.54
    for head in _heads(demo, "heath"):
        assert 15.5 * MM <= head.cg_up_face <= 17 * MM
    for head in _heads(demo, "bank"):
        assert 19 * MM <= head.cg_up_face <= 21 * MM


def test_a_shallow_face_meets_a_ball_on_bare_turf_nearest_its_centre_of_mass(demo: Shelf) -> None:
    """Geometry: (r - r sin L) / cos L up the face, 16.4 mm at 15 degrees."""
    for shallow in _heads(demo, "heath"):
        met = height_up_face(shallow.loft)
        assert -0.2 * MM < shallow.cg_up_face - met < 2.2 * MM
        for other in _heads(demo, "meadow") + _heads(demo, "bank"):
            if abs(other.loft - shallow.loft) < 0.6 * DEG:
                assert other.cg_up_face - height_up_face(other.loft) > shallow.cg_up_face - met + 0.8 * MM


def test_depths_and_inertias_lie_in_the_assumed_ranges(demo: Shelf) -> None:
    for head in demo.heads:
        for field in ("cg_depth", "moi_heel_toe", "moi_vertical", "restitution", "cg_toward_toe"):
            default = demo.defaults.find("head", head.kind, field)
            assert default is not None
            span = default.span({})
            assert span is not None
            assert span[0] <= getattr(head, field) <= span[1]


HANDBOOK = [
    (15.25, 43.0, 210, 215),
    (17.0, 42.5, 215, 220),
    (19.0, 42.0, 220, 225),
    (21.5, 41.5, 225, 230),
    (25.0, 41.0, 230, 235),
]
"""Loft (deg), length (in), head mass (g) of 3-, 4-, 5-, 7- and 9-wood.

The Modern Guide to Golf Clubfitting, handbook, ch. 13, for mass and length.
"""


@pytest.mark.parametrize(("loft", "length", "low", "high"), HANDBOOK)
def test_heads_are_lighter_than_the_handbooks_and_can_be_brought_there(
    demo: Shelf, loft: float, length: float, low: float, high: float
) -> None:
    """And an inch and a half shorter too, at the handbook's own slope of about 9 to 10 g an inch."""
    near = [h for h in _heads(demo, kind="fairway") if abs(h.loft - loft * DEG) < 0.6 * DEG]
    assert near
    for head in near:
        assert head.mass < low * GRAM
        assert head.mass + head.capacity > (high + 13.5) * GRAM


def test_every_head_reaches_every_sensible_target_at_every_sensible_length(demo: Shelf) -> None:
    """C5 to D4 over an inch and a half, with some shaft and grip that are on the shelf."""
    for head in demo.heads:
        low, high = reach(head, demo)
        assert low < -5
        assert high > 4
        longest = between_nodes(USUAL_LENGTH[head.kind], head.loft)
        for length in (longest, longest - SHORTER / 2, longest - SHORTER):
            spans = []
            for shaft in demo.shafts:
                if shaft.made_for == head.kind and fit(shaft.tip, head.bore).verdict == "fits":
                    for grip in demo.grips:
                        build = on_bench.club(head, shaft, grip, length, demo)
                        start = build.reading.points
                        spans.append((start, start + head.capacity / build.need(start + 1)))
            assert min(a for a, _ in spans) <= -4
            assert max(b for _, b in spans) >= 4


def test_ports_differ_in_place_and_capacity_from_head_to_head(demo: Shelf) -> None:
    for head in demo.heads:
        capacities = [port.capacity for port in head.ports]
        assert len(set(capacities)) == len(capacities) >= 2
        assert any(port.toeward > 20 * MM for port in head.ports)
        assert any(port.toeward < -20 * MM for port in head.ports)
    layouts = {tuple(sorted(port.name for port in head.ports)) for head in _heads(demo)}
    assert len(layouts) >= 8
    assert {port.name for head in demo.heads for port in head.ports} == {
        "rear", "front", "sole", "hosel", "heel", "toe"
    }  # fmt: skip


def test_pieces_come_in_steps_finer_than_half_a_point(demo: Shelf) -> None:
    """A point is about 1.8 g at the head; a step of half a gram leaves less than 0.15 of a point."""
    masses = [piece.mass for piece in demo.pieces]
    assert masses == sorted(masses)
    assert masses[0] == pytest.approx(0.5 * GRAM)
    for head in demo.heads:
        for port in head.ports:
            assert any(piece.goes_in(port.name) and piece.mass < 1 * GRAM for piece in demo.pieces)


def test_each_bore_has_a_choice_of_shafts(demo: Shelf) -> None:
    """Common practice: .335 and .350 parallel tips for woods, .370 for hybrids."""
    for head in demo.heads:
        shafts = [s for s in demo.shafts if s.made_for == head.kind and s.tip == pytest.approx(head.bore)]
        assert len(shafts) >= 4
        assert head.bore / INCH == pytest.approx(0.370) or head.kind == "fairway"
        assert 0.9 * INCH <= head.bore_to_ground <= 1.5 * INCH


def test_hybrid_shafts_outweigh_wood_shafts_of_a_flex(demo: Shelf) -> None:
    """Common practice: 10 to 20 g over the wood shaft."""
    for flex in "LARSX":
        wood = [s.mass for s in demo.shafts if s.made_for == "fairway" and s.flex == flex]
        hybrid = [s.mass for s in demo.shafts if s.made_for == "hybrid" and s.flex == flex]
        assert max(hybrid) >= min(wood) + 10 * GRAM
    assert min(s.mass for s in demo.shafts) >= 45 * GRAM
    assert max(s.mass for s in demo.shafts) <= 95.001 * GRAM


def test_tip_trims_rise_with_loft_in_eighths(demo: Shelf) -> None:
    for shaft in demo.shafts:
        trims = [shaft.tip_trim(loft * DEG) for loft in range(12, 30)]
        assert trims == sorted(trims)
        for trim in trims:
            assert trim / INCH * 8 == pytest.approx(round(trim / INCH * 8))
        assert trims[-1] > 0


def test_left_hand_heads_mirror_nothing_but_the_hand(demo: Shelf) -> None:
    """Heel and toe stay heel and toe."""
    for left in _heads(demo, hand="left"):
        right = demo.head(left.id.removesuffix("-left"))
        assert left.loft == right.loft
        assert left.mass == right.mass
        assert {p.name for p in left.ports} == {p.name for p in right.ports}


def test_something_was_left_unmeasured_so_that_assumptions_show(demo: Shelf) -> None:
    gaps = {(gap.part, gap.field) for gap in demo.assumptions()}
    assert ("head meadow-23", "cg_depth") in gaps
    assert ("the shop's calibration", "setback") in gaps


def test_labels_are_plain(demo: Shelf) -> None:
    """A label says the family, the loft and the face or sole, or what a shaft or grip weighs."""
    pattern = r"\w+ \d+(\.\d+)? (shallow|mid|deep|narrow sole|wide sole)(, left)?"
    for head in demo.heads:
        assert re.fullmatch(pattern, head.label)
        assert float(head.label.split()[1]) == pytest.approx(head.loft / DEG)
    parts: list[Shaft | Grip] = [*demo.shafts, *demo.grips]
    for part in parts:
        assert re.fullmatch(r"\w+ \d+ \w+", part.label)
        assert float(part.label.split()[1]) == pytest.approx(part.mass / GRAM)


def test_the_files_hold_what_the_loader_reads() -> None:
    assert sorted(path.name for path in Path(DEMO).glob("*.toml")) == [
        "defaults.toml", "grips.toml", "heads.toml", "pieces.toml", "shafts.toml", "shop.toml"
    ]  # fmt: skip
