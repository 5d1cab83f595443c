"""Every quantity of the bench at the ends of its range: what no club part has is refused, by name.

The limits themselves are house values: wide enough for any club that is built.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rules.bench import balance, build, calibrate, cure, cuts, loft, ports, shaft, shorten, tape, tip
from rules.bench.problems import BenchProblem, OutOfRange
from rules.units import UNITS

INCH = UNITS["in"].factor
GRAM = UNITS["g"].factor
PORT = ports.Port("rear", 0.01, 0.0, -0.008, -0.03)

Row = tuple[str, Callable[[float], object], float, float, str]


def _club(**parts: float) -> calibrate.FinishedClub:
    usual = {"head": 0.21, "shaft": 0.06, "shaft_centre": 0.5, "grip": 0.05, "ruler_length": 42 * INCH}
    return calibrate.FinishedClub("his", **{**usual, **parts})


def _port(**place: float) -> ports.Port:
    usual = {"capacity": 0.01, "toeward": 0.0, "upward": 0.0, "backward": 0.03}
    return ports.Port("rear", **{**usual, **place})


def _opened(bore: float, wanted: float) -> tip.Opening:
    return tip.open_bore(bore, wanted, None, fixture=True)


def _planned(
    port: ports.Port = PORT, *, need: float = 0.0, head: float = 0.2, piece: float = 0.002
) -> object:
    return ports.plan(need, [port], [ports.PieceStock(piece, 2)], head_mass=head)


ROWS: list[Row] = [
    ("hosel length", lambda x: cuts.bottom_to_ground(x, 0.2 * INCH), 0.25, 6, "in"),
    ("insertion depth", lambda x: cuts.bottom_to_ground(6 * INCH, x), 0.1, 6, "in"),
    ("shaft length", lambda x: cuts.bottom_to_ground_dry(x, 57 * INCH), 15, 55, "in"),
    ("length with the head on", lambda x: cuts.bottom_to_ground_dry(15 * INCH, x), 15, 60, "in"),
    ("bottom of bore to ground", lambda x: cuts.cut_length(42 * INCH, x), 0, 4, "in"),
    ("thickness of the grip cap", lambda x: cuts.cut_length(42 * INCH, INCH, x), 0, 1, "in"),
    ("raw shaft length", lambda x: cuts.cuts(x, 0, 20 * INCH), 20, 55, "in"),
    ("tip trim", lambda x: cuts.cuts(50 * INCH, x, 20 * INCH), 0, 10, "in"),
    ("depth of the bore", lambda x: cuts.room_for_weight(x, 0), 0.1, 6, "in"),
    ("length of the hosel weight", lambda x: cuts.room_for_weight(3 * INCH, x), 0, 6, "in"),
    ("temperature of the glue bench", cure.hold_time, -40, 100, "degF"),
    ("time since gluing", lambda x: cure.may_play(x, UNITS["degF"].to_si(72)), 0, 24_000, "h"),
    ("mass of tape", tape.tape_length, 0, 100, "g"),
    ("width of the tape", lambda x: tape.tape_length(0.002, x), 0.1, 2, "in"),
    ("loft", lambda x: loft.effective_loft(x, 0, 1), 5, 65, "deg"),
    ("face angle", lambda x: loft.effective_loft(0.3, x, 1), -10, 10, "deg"),
    ("lie", lambda x: loft.effective_loft(0.3, 0, x), 45, 70, "deg"),
    ("loft", lambda x: loft.face_turn(x, 0), 5, 65, "deg"),
    ("lie error", lambda x: loft.face_turn(0.3, x), -15, 15, "deg"),
    ("carry", lambda x: loft.offline(0.01, x), 0, 400, "yd"),
    ("shaft mass", lambda x: shaft.mass_line(x, 1.1, 0.5), 20, 250, "g"),
    ("shaft length", lambda x: shaft.mass_line(0.06, x, 0.5), 20, 55, "in"),
    ("balance of the shaft as a share of its length", lambda x: shaft.mass_line(0.06, 1, x), 35, 65, "%"),
    ("diameter of the tip", lambda x: tip.fit(x, 0.37 * INCH), 0.30, 0.45, "in"),
    ("diameter of the bore", lambda x: tip.fit(0.335 * INCH, x), 0.30, 0.45, "in"),
    ("diameter of the bore", lambda x: _opened(x, 0.45 * INCH), 0.30, 0.45, "in"),
    ("wanted diameter of the bore", lambda x: _opened(0.3 * INCH, x), 0.3, 0.45, "in"),
    (
        "outside diameter of the hosel",
        lambda x: tip.open_bore(0.335 * INCH, 0.37 * INCH, x, fixture=True), 0.335, 1, "in",
    ),
    ("length before", lambda x: shorten.shorten(x, 30 * INCH, 0.2, 0.06), 30, 50, "in"),
    ("length after", lambda x: shorten.shorten(50 * INCH, x, 0.2, 0.06), 30, 50, "in"),
    ("head mass", lambda x: shorten.shorten(43 * INCH, 42 * INCH, x, 0.06), 50, 500, "g"),
    ("setback", lambda x: shorten.shorten(43 * INCH, 42 * INCH, 0.2, 0.06, setback=x), 0, 3, "in"),
    ("mass of the head", lambda x: balance.Part(x, 1, name="head"), 0, 2000, "g"),
    ("place of the part", lambda x: balance.Part(0.2, x), -1, 80, "in"),
    ("length of the part", lambda x: balance.Part(0.2, 1, x), 0, 80, "in"),
    ("mass of the club", lambda x: balance.finished(x, 0.7), 1, 2000, "g"),
    ("balance point", lambda x: balance.finished(0.33, x), 0, 80, "in"),
    ("target in points from D0", lambda x: balance.head_mass_for(x, [], 1), -200, 200, "points"),
    ("target inertia", lambda x: balance.head_mass_for_inertia(x, [], 1.5), 0, 100_000, "kg*cm2"),
    ("place of the head", lambda x: balance.head_mass_for_inertia(0.0, [], x), 1, 80, "in"),
    ("head mass", build.Head, 0, 500, "g"),
    ("setback", lambda x: build.Head(0.2, x), -1, 3, "in"),
    ("mass of the head of 'his'", lambda x: _club(head=x), 1, 2000, "g"),
    ("mass of the shaft of 'his'", lambda x: _club(shaft=x), 1, 2000, "g"),
    ("mass of the grip of 'his'", lambda x: _club(grip=x), 1, 2000, "g"),
    ("length of 'his'", lambda x: _club(ruler_length=x), 30, 50, "in"),
    ("mass to add", lambda x: _planned(need=x), -200, 200, "g"),
    ("head mass", lambda x: _planned(head=x), 50, 500, "g"),
    ("capacity of port 'rear'", lambda x: _planned(_port(capacity=x)), 0, 100, "g"),
    ("place of port 'rear'", lambda x: _planned(_port(toeward=x)), -150, 150, "mm"),
    ("place of port 'rear'", lambda x: _planned(_port(upward=x)), -150, 150, "mm"),
    ("place of port 'rear'", lambda x: _planned(_port(backward=x)), -150, 150, "mm"),
    ("mass of a piece", lambda x: _planned(piece=x), 0.1, 100, "g"),
]  # fmt: skip


def _refused_for(quantity: str, call: Callable[[float], object], value: float) -> str | None:
    """Return the sentence that refuses a value as out of range; None where the range is not why."""
    try:
        call(value)
    except OutOfRange as problem:
        return str(problem) if problem.quantity == quantity else None
    except BenchProblem:
        return None
    return None


@pytest.mark.parametrize(("quantity", "call", "low", "high", "unit"), ROWS, ids=[row[0] for row in ROWS])
def test_the_ends_are_in_and_beyond_is_out(
    quantity: str, call: Callable[[float], object], low: float, high: float, unit: str
) -> None:
    ends = [UNITS[unit].to_si(end) for end in (low, high)]
    step = (ends[1] - ends[0]) * 1e-4
    grain = (ends[1] - ends[0]) * 1e-12
    for inside in (ends[0] + grain, ends[1] - grain):
        assert _refused_for(quantity, call, inside) is None
    wanted = f"it must lie between {low:.6g} {unit} and {high:.6g} {unit}"
    for outside in (ends[0] - step, ends[1] + step):
        said = _refused_for(quantity, call, outside) or ""
        assert said.startswith(f"the {quantity} is ")
        assert said.endswith(wanted)
    assert f"the {quantity} is not a finite number" in (_refused_for(quantity, call, float("nan")) or "")


def test_nought_is_a_mass_a_place_and_a_length() -> None:
    part = balance.Part(0.0, 0.0, 0.0)
    assert (part.moment, part.inertia) == (0.0, 0.0)
    assert balance.finished(0.33, 0.7).total == 0.33


@pytest.mark.parametrize(
    ("outside", "fixture", "allowed", "wall", "text"),
    [
        (None, True, False, None, "Not before the hosel wall is measured"),
        (0.50, False, False, 1.651, "Not by hand: a fixture and a drill press"),
        (0.418, True, False, 0.6096, "Refused: 0.61 mm of wall would be left and"),
        (0.50, True, True, 1.651, "Allowed with a fixture: take the least metal; 1.65 mm of wall stays"),
    ],
)
def test_a_bore_is_opened_only_where_the_wall_allows(
    outside: float | None, fixture: bool, allowed: bool, wall: float | None, text: str
) -> None:
    """Wall by hand: half of outside less wanted bore, (0.418 - 0.37) / 2 in = 0.6096 mm."""
    hosel = None if outside is None else outside * INCH
    got = tip.open_bore(0.335 * INCH, 0.37 * INCH, hosel, fixture=fixture)
    assert got.allowed is allowed
    assert got.wall == (None if wall is None else pytest.approx(wall / 1000))
    assert got.text.startswith(text)


def test_glue_says_when_a_club_may_be_hit() -> None:
    warm = UNITS["degF"].to_si(72)
    done = cure.may_play(24 * 3600, warm)
    assert (done.may_play, done.wait) == (True, 0.0)
    assert "pull and twist the head by hand" in done.text
    early = cure.may_play(24 * 3600 - 1, warm)
    assert (early.may_play, early.wait) == (False, 1.0)
    assert "slow epoxy wants 1 h more" in early.text


def test_a_shaft_comes_out_by_its_kind() -> None:
    """The heat window is the trade's: about 250 degF, never 300 (common practice)."""
    steel, graphite = cure.extraction("steel"), cure.extraction("graphite")
    for way in (steel, graphite):
        window = [UNITS["degF"].from_si(heat) for heat in (way.heat_from, way.heat_to)]
        assert window == pytest.approx([250, 300])
        assert "stand clear of its line, with eye protection" in way.text
    assert (steel.twist, steel.torch, graphite.twist, graphite.torch) == (True, True, False, False)
    assert "may not survive" in graphite.text


def test_what_just_fits_is_allowed() -> None:
    """Tip, weight, insertion and bench temperature exactly at their limits; a hair beyond is refused."""
    assert cuts.check_tip(3 * INCH, 2 * INCH, 1 * INCH) == pytest.approx(INCH)
    assert cuts.room_for_weight(1.5 * INCH, 0.5 * INCH) == pytest.approx(INCH)
    assert cuts.bottom_to_ground(2 * INCH, 2 * INCH) == 0
    assert cuts.bottom_to_ground_dry(43 * INCH, 43 * INCH) == 0
    assert cuts.cuts(43 * INCH, INCH, 42 * INCH).butt == 0
    assert tip.open_bore(0.0085, 0.009, 0.011, fixture=True).allowed  # a millimetre of wall, to the hair
    assert not tip.open_bore(0.0085, 0.009, 0.01099, fixture=True).allowed
    coldest = UNITS["degF"].to_si(55)
    assert cure.hold_time(coldest) > cure.FULL_CURE
    hair = 1e-6
    for refused in (
        lambda: cuts.check_tip(3 * INCH, 2 * INCH, INCH + hair),
        lambda: cuts.room_for_weight(1.5 * INCH - hair, 0.5 * INCH),
        lambda: cuts.bottom_to_ground(2 * INCH, 2 * INCH + hair),
        lambda: cuts.bottom_to_ground_dry(43 * INCH + hair, 43 * INCH),
        lambda: cuts.cuts(43 * INCH, INCH, 42 * INCH + hair),
        lambda: cure.hold_time(coldest - 0.01),
    ):
        with pytest.raises(BenchProblem):
            refused()


def test_a_head_of_no_mass_is_the_least_there_is() -> None:
    shaft = balance.Part(0.1, 0.5)
    assert balance.head_mass_for_inertia(shaft.inertia, [shaft], 1.0) == 0
    assert balance.head_mass_for(balance.points(0.0), [], 1.0) == pytest.approx(0, abs=1e-12)
    assert balance.Part(0.1, -INCH).moment < 0
    assert balance.Part(balance.HEAVIEST, balance.LONGEST, balance.LONGEST).mass == balance.HEAVIEST


@pytest.mark.parametrize("loft_angle", [5, 35, 65])
@pytest.mark.parametrize("closed", [-10, 10])
@pytest.mark.parametrize("lie", [45, 70])
def test_a_face_at_the_ends_of_every_range_still_has_a_loft(loft_angle: int, closed: int, lie: int) -> None:
    deg = UNITS["deg"].factor
    got = loft.effective_loft(loft_angle * deg, closed * deg, lie * deg)
    assert -10 < got.geometry / deg < 90
    assert (got.geometry > loft_angle * deg) == (closed > 0)
