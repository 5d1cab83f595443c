"""Tables of shots: any order of columns, units where they stand, bad rows by line, nothing that acts."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rules.evidence.table import ShotTable, TableProblem, read_shots, shots_table
from rules.facts.reading import read_subject
from rules.fitting import load_house

FACTS = load_house().base.facts
SESSION: dict[str, Any] = {
    "owned": [{"name": "his 3-wood", "kind": "fairway", "loft": {"value": "15 deg", "how": "stamped"}}],
    "trial_clubs": [{"name": "demo", "kind": "fairway", "loft": "18 deg", "length": "42 in"}],
}


def read(text: str, **options: Any) -> ShotTable:
    return read_shots(text, FACTS, SESSION, **options)


def test_columns_in_any_order_under_any_usual_name() -> None:
    table = read(
        "Side (yd),Result,BALL SPEED mph,Carry Distance,Club Name,Launch Angle [deg],Spin_rpm\n"
        "-4,up,120,171,Demo,12.5,3400\n"
    )
    assert table.rows == (
        {"side_yd": -4.0, "outcome": "up", "ball_speed": "120 mph", "carry": "171 yd", "club": "demo",
         "launch": "12.5 deg", "spin": "3400 rpm"},
    )  # fmt: skip
    assert table.units_taken == {"Carry Distance": "yd"}
    assert table.rejected == ()


@pytest.mark.parametrize(
    ("heading", "cell", "key", "value"),
    [
        ("carry", "171 yd", "carry", "171 yd"),
        ("carry (m)", "156.5", "carry", "156.5 m"),
        ("carry m", "171 yd", "carry", "156.362 m"),
        ("ball speed [km/h]", "190", "ball_speed", "190 km/h"),
        ("spin", "3,663", "spin", "3663 rpm"),
        ("spin rpm", "3663.4", "spin", "3663.4 rpm"),
        ("side", "8 L", "side_yd", -8.0),
        ("side", "8R", "side_yd", 8.0),
        ("side", "left 8.5", "side_yd", -8.5),
        ("side", "4 yd left", "side_yd", -4.0),
        ("side (m)", "-9.144", "side_yd", -10.0),
        ("toe", "6 heel", "toe_mm", -6.0),
        ("heel toe (in)", "0.5", "toe_mm", 12.7),
        ("strike height", "4 low", "high_mm", -4.0),
        ("launch", "12.1°", "launch", "12.1 deg"),
        ("surface", "Grass", "surface", "turf"),
        ("indoors", "Yes", "indoors", True),
        ("outcome", "3", "outcome", "fat"),
    ],
)
def test_units_stand_in_headings_or_in_cells(heading: str, cell: str, key: str, value: object) -> None:
    table = read(f'{heading},club\n"{cell}",demo\n')
    if key in ("surface", "indoors"):
        assert table.rejected[0].sentence == "it says nothing of a ball"
        table = read(f'{heading},club,carry\n"{cell}",demo,170\n')
    assert table.rows[0][key] == (pytest.approx(value) if isinstance(value, float) else value)


def test_a_line_of_units_below_the_headings() -> None:
    table = read("club,carry,launch\n,m,deg\ndemo,156,12\n")
    assert table.rows == ({"club": "demo", "carry": "156 m", "launch": "12 deg"},)
    assert table.units_taken == {}


@pytest.mark.parametrize("mark", [",", ";", "\t", "|"])
def test_cells_parted_by_any_usual_mark(mark: str) -> None:
    lines = [["club", "carry", "side"], ["demo", "171.5", "3"]]
    table = read("\n".join(mark.join(line) for line in lines))
    assert table.rows == ({"club": "demo", "carry": "171.5 yd", "side_yd": 3.0},)


def test_decimal_commas_where_semicolons_part_cells() -> None:
    assert read("club;carry;side\ndemo;171,5;-3,2\n").rows[0] == {
        "club": "demo", "carry": "171.5 yd", "side_yd": -3.2,
    }  # fmt: skip


def test_lines_before_the_headings_and_columns_nobody_knows() -> None:
    table = read("\ufeffSession of May\nBall,range\n\nClub,Carry,Roll\ndemo,170,12\n")
    assert table.rows == ({"club": "demo", "carry": "170 yd"},)
    assert table.unused == ("Roll",)
    assert table.used == {"Club": "club", "Carry": "carry"}


def test_bad_rows_are_named_by_their_line_and_left_out() -> None:
    table = read(
        "club,carry,outcome,side\n"
        "demo,170,up,1\n"
        "demo,far,up,1\n"
        "nobody,170,up,1\n"
        "\n"
        "demo,900,up,1\n"
        "demo,170,sideways,1\n"
        'demo,"1\n70",up,1\n'
        "demo,170,up,1,2,3\n"
        ",170,up,1\n"
        "demo,,,\n"
        "demo,160,thin,\n"
    )
    assert [row["carry"] for row in table.rows] == ["170 yd", "160 yd"]
    assert [row.line for row in table.rejected] == [3, 4, 6, 7, 8, 10, 11, 12]
    said = " / ".join(row.sentence for row in table.rejected)
    for part in ("'far' is not a number", "no owned or trial club is called 'nobody'", "outside", "sideways",
                 "6 cells under 4", "which club", "nothing of a ball"):  # fmt: skip
        assert part in said
    assert all("\n" not in row.sentence for row in table.rejected)


def test_a_new_club_is_taken_in_where_the_table_describes_it() -> None:
    table = read("club,kind,loft,length,carry\nnew,hybrid,21,40.5,150\nNew,hybrid,21,40.5,152\n")
    assert table.clubs == ({"name": "new", "kind": "hybrid", "loft": "21 deg", "length": "40.5 in"},)
    assert [row["club"] for row in table.rows] == ["new", "new"]
    assert "a column 'kind'" in read("club,carry\nnew,150\n").rejected[0].sentence


def test_a_table_of_one_club_may_leave_its_name_to_the_command() -> None:
    assert read("carry\n170\n", club="Demo").rows == ({"carry": "170 yd", "club": "demo"},)
    with pytest.raises(TableProblem, match="add a column 'club'"):
        read("carry\n170\n")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "no line of headings"),
        ("hello world\n1,2\n", "no line of headings"),
        ("cary,clb\n1,2\n", "did you mean 'carry'"),
        ("club,carry,Carry (yd)\ndemo,1,2\n", "mean the same"),
        ("club,carry\n", "no balls below"),
        ("club,carry\n" + "demo,170\n" * 2100, "more than 2000 rows"),
        ("club,carry\n" + "x" * 2_000_001, "far too large"),
        ("club,carry\n" + "x" * 200_000, "line 2"),
    ],
)
def test_tables_of_which_nothing_can_be_used(text: str, says: str) -> None:
    with pytest.raises(TableProblem, match=says) as caught:
        read(text)
    assert "\n" not in str(caught.value)


@settings(max_examples=80, deadline=None)
@given(text=st.text(alphabet="club,carry;\"\n\t170demo-= '", max_size=120))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        table = read(text)
        told = bool(table.rows or table.rejected)
    except TableProblem as problem:
        told = bool(str(problem))
    assert told


names = (
    st.text(min_size=1, max_size=12).map(str.strip).filter(lambda t: t and "\0" not in t and t.isprintable())
)
shots = st.fixed_dictionaries(
    {"outcome": st.sampled_from(("topped", "thin", "fat", "up"))},
    optional={
        "carry": st.integers(0, 350).map(lambda n: f"{n} yd"),
        "side_yd": st.floats(-150, 150).map(lambda v: round(v, 2)),
        "toe_mm": st.floats(-60, 60).map(lambda v: round(v, 1)),
        "high_mm": st.floats(-40, 40).map(lambda v: round(v, 1)),
        "ball_speed": st.integers(20, 200).map(lambda n: f"{n} mph"),
        "spin": st.integers(0, 9000).map(lambda n: f"{n} rpm"),
        "surface": st.sampled_from(("turf", "mat", "tee")),
        "indoors": st.booleans(),
    },
)


@settings(max_examples=60, deadline=None)
@given(name=names, balls=st.lists(shots, min_size=1, max_size=5))
def test_what_is_written_reads_back_the_same_and_no_cell_acts(name: str, balls: list[dict[str, Any]]) -> None:
    club = {"name": name, "kind": "fairway", "loft": "18 deg"}
    subject = read_subject(FACTS, {"trial_clubs": [club], "shots": [{"club": name, **b} for b in balls]})
    text = shots_table(subject)
    for row in csv.reader(io.StringIO(text, newline="")):
        for cell in row:
            number = cell.removeprefix("-").replace(".", "", 1)
            acts = cell[:1] in ("=", "+", "-", "@", "\t", "\r") and not number.replace("e", "").isdigit()
            assert not acts, cell
    back = read_shots(text, FACTS, {"trial_clubs": [club]})
    again = read_subject(FACTS, {"trial_clubs": [club], "shots": list(back.rows)})
    assert back.rejected == ()
    for ours, theirs in zip(subject.shots, again.shots, strict=True):
        assert (ours.club, ours.outcome, ours.surface) == (theirs.club, theirs.outcome, theirs.surface)
        for field in ("carry", "side", "toe", "high", "ball_speed", "spin"):
            value = getattr(ours, field)
            assert getattr(theirs, field) == (value if value is None else pytest.approx(value, abs=2e-3))


@pytest.mark.parametrize(
    "name", ["=1+1", "+demo", "-demo", "@demo", "'quoted", "'=1", "none", 'a "b"', "a,b"]
)
def test_names_that_a_spreadsheet_would_take_for_a_formula(name: str) -> None:
    club = {"name": name, "kind": "hybrid"}
    subject = read_subject(FACTS, {"trial_clubs": [club], "shots": [{"club": name, "outcome": "up"}]})
    text = shots_table(subject)
    assert not next(csv.reader(io.StringIO(text.split("\r\n")[1])))[0].startswith(("=", "+", "-", "@"))
    assert read_shots(text, FACTS, {"trial_clubs": [club]}).rows[0]["club"] == name
