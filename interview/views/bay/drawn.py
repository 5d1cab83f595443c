"""What there is to draw of an outcome: distances, flights, faces and beams."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.bay.standing import named
from interview.views.pictures.beam import BeamView, Weight
from interview.views.pictures.distances import LadderView, RungOnLadder
from interview.views.pictures.face import FaceView, Mark, Met
from interview.views.pictures.flights import Arc, FlightsView
from rules.bench.balance import FULCRUM
from rules.golf.contact import height_up_face
from rules.golf.flight import Launch, trajectory
from rules.ladder.flown import face

if TYPE_CHECKING:
    from rules.facts.subject import Shot
    from rules.fitting import Outcome
    from rules.ladder.rung import Rung
    from rules.units import System
    from rules.workbench import Club

_POINTS = 80
"""Points along a drawn flight."""


def ladder_view(outcome: Outcome, system: System) -> LadderView:
    """Return the ladder of distances from the driver to the longest iron."""
    pair, golfer = outcome.picked, outcome.golfer
    if pair is None:
        return LadderView((), system)
    driver = golfer.driver
    rungs = [RungOnLadder("driver", driver.carry, driver.carry, driver.carry, None, driver.apex, ours=False)]
    for one in (pair.longer, pair.shorter):
        flown = one.flown
        rungs.append(
            RungOnLadder(
                named(one), flown.centred, flown.low, flown.high, flown.expected, flown.apex, ours=True
            )
        )
    iron = golfer.iron
    if iron is not None:
        low, high = iron.number - iron.spread, iron.number + iron.spread
        rungs.append(RungOnLadder("longest iron", iron.number, low, high, None, None, ours=False))
    return LadderView(tuple(rungs), system)


def flights_view(outcome: Outcome, system: System) -> FlightsView:
    """Return the flights of the two clubs' centred strikes."""
    pair = outcome.picked
    if pair is None:
        return FlightsView((), system)
    return FlightsView(tuple(_arc(outcome, one) for one in (pair.longer, pair.shorter)), system)


def _arc(outcome: Outcome, one: Rung) -> Arc:
    """Return the flight of one rung, flown again point by point."""
    flown = one.flown
    launch = Launch(flown.ball_speed, flown.launch, flown.spin)
    points = trajectory(launch, outcome.golfer.density, "first", _POINTS)
    return Arc(named(one), tuple(points), flown.centred, flown.apex)


def face_view(outcome: Outcome, club: Club, system: System, hit: str = "") -> FaceView:
    """Return the face of one club, with the golfer's lies and his marks on it, or those of one club hit."""
    golfer, spec = outcome.golfer, club.rung.spec
    shots = [shot for shot in outcome.subject.shots if hit in ("", shot.club)]
    seen = face(club.rung.kind, spec)
    attack, pattern = golfer.number("attack"), golfer.pattern
    lies = tuple(
        Met(
            lie.name.replace("_", " "),
            lie.share,
            height_up_face(seen.loft, lie.low, attack) + pattern.mean_high,
            height_up_face(seen.loft, lie.high, attack) + pattern.mean_high,
        )
        for lie in golfer.lies.named
    )
    return FaceView(
        name=named(club.rung),
        height=seen.height,
        centre=seen.cg_up_face,
        lies=lies,
        marks=tuple(_mark(shot, seen.height) for shot in shots if _marked(shot)),
        pattern=(pattern.mean_toe, pattern.sd_toe, pattern.mean_high, pattern.sd_high),
        toe_is_right=golfer.word("hand") == "left",
        system=system,
        usual=spec.head is None,
    )


def _marked(shot: Shot) -> bool:
    """Return whether a shot left a mark off turf."""
    return shot.toe is not None and shot.high is not None and shot.surface != "tee"


def _mark(shot: Shot, height: float) -> Mark:
    """Return a shot's mark; it was read from the middle of the face."""
    return Mark(shot.toe or 0.0, height / 2 + (shot.high or 0.0))


def beam_view(club: Club, system: System) -> BeamView:
    """Return one club on the balance beam."""
    name, build = named(club.rung), club.build
    spec = club.rung.spec
    if build is None:
        return BeamView(
            name, spec.length, (), FULCRUM, 0.0, spec.balance, spec.balance, 0.0, 0.0, None, system,
            unknown="A club already owned: nothing is known of its parts, so nothing is summed.",
        )  # fmt: skip
    reading = build.reading
    return BeamView(
        name=name,
        length=spec.length,
        weights=tuple(
            Weight(p.name, p.mass, p.position, p.length)
            for p in sorted(build.parts, key=lambda p: p.position)
        ),
        knife=FULCRUM,
        balance_point=reading.balance_point,
        reading=reading.points,
        target=spec.balance,
        spread=build.tolerance.points,
        total=reading.total,
        inertia=reading.inertia,
        system=system,
    )


PICTURES = ("distances", "flights", "longer face", "shorter face", "longer balance", "shorter balance")
"""Every picture there is, in order."""
Drawn = LadderView | FlightsView | FaceView | BeamView | None


def drawn(outcome: Outcome, name: str, system: System) -> Drawn:
    """Return what a picture shows; None where there is no pair to draw."""
    if name == "distances":
        return ladder_view(outcome, system)
    if name == "flights":
        return flights_view(outcome, system)
    role, _, what = name.partition(" ")
    club = next((club for club in outcome.clubs if club.role == role), None)
    if club is None:
        return None
    return face_view(outcome, club, system) if what == "face" else beam_view(club, system)
