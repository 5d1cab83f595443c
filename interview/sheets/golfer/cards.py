"""One card for each club: what it is, what it does when he hits it, and how it is made."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interview.sheets import figures as f
from interview.views.outcome_text.quantities import degrees, distance, height, in_ten, opened, spelled
from rules.units import swing_weight_name

if TYPE_CHECKING:
    from interview.views.build import BuildClub
    from interview.views.club import ClubView
    from rules.units import System

_LOW, _MIDDLING = 0.0345, 0.0375
"""Up to the first a face is low, up to the second middling, m (common practice: 34 mm counts as low)."""


class Card(NamedTuple):
    """One club as its owner would want to read of it."""

    role: str
    name: str
    whose: str
    big: tuple[tuple[str, str], ...]
    """The figures a golfer looks for: loft, length, carry."""
    rows: tuple[tuple[str, str], ...]
    says: str
    """What it does over all his balls, in a sentence or two."""


def card(club: BuildClub, system: System) -> Card:
    """Return the card of a club."""
    view = club.view
    return Card(
        role=f"the {view.role} one",
        name=view.label,
        whose=_whose(view, system),
        big=_big(club, system),
        rows=tuple(_rows(club, system)),
        says=_says(view, system),
    )


def _whose(view: ClubView, system: System) -> str:
    """Say whether a club is new, kept or altered."""
    if view.owned is None:
        return "new"
    if not view.cut:
        return f"your own, “{view.owned}”, as it is"
    back = f", {spelled(f.grams(view.put_back))} back into its head" if view.put_back else ""
    return f"your own, “{view.owned}”, {spelled(f.length(view.cut, system))} shorter{back}"


def _big(club: BuildClub, system: System) -> tuple[tuple[str, str], ...]:
    """Return loft, length and carry; length and carry as measured where they were."""
    built = club.built
    read = built.reading.length if built.reading is not None and not built.problem else None
    flown, measured = built.flown or club.view.flown, "" if read is None else ", measured"
    return (
        ("loft", degrees(club.view.loft).replace(" degrees", "°").replace(" degree", "°")),
        (f"length{measured}", f.length(club.view.length if read is None else read, system)),
        ("carry, hit well", distance(flown.centred, system)),
    )


def _rows(club: BuildClub, system: System) -> list[tuple[str, str]]:
    """Return what another builder would want to know, in words a golfer can follow."""
    view, parts = club.view, club.parts
    rows = [("Height at the top", height(view.flown.apex, system))]
    if parts is None:
        told = [swing_weight_name(view.told_balance)] if view.told_balance is not None else []
        told += [f.grams(view.told_total, 0)] if view.told_total is not None else []
        return [*rows, ("Balance, total", ", ".join(told) or "never measured")]
    return [
        *rows,
        ("Loft, face squared", _plays(club)),
        ("Face, lie", f"{f.millimetres(parts.head.face_height)} tall ({_tall(parts.head.face_height)}); "
                      f"{degrees(view.lie or parts.head.lie)}"),
        ("Balance, total", _balance(club)),
        ("Shaft", f"{parts.shaft.label}, {f.grams(parts.shaft.mass, 0)} before cutting"),
        ("Grip", parts.grip.label),
        ("Head", f"{parts.head.label}, {_head_mass(club)}{_added(club)}"),
    ]  # fmt: skip


def _plays(club: BuildClub) -> str:
    """Return the loft as it plays: measured, or as the head is stamped."""
    against, parts = club.built.against, club.parts
    read = against.check("effective_loft").read if against is not None else None
    if read is not None:
        return f"{f.degrees(read, 1).removesuffix(' deg')}°, measured"
    assert parts is not None
    return f"{f.degrees(parts.plays.geometry, 1).removesuffix(' deg')}°, not yet measured"


def _tall(metres: float) -> str:
    return "low" if metres <= _LOW else "middling" if metres <= _MIDDLING else "tall"


def _balance(club: BuildClub) -> str:
    """Return swing weight and total: read on the scale, or what they are built to."""
    parts, against = club.parts, club.built.against
    assert parts is not None
    if against is not None and against.read is not None:
        return f"{swing_weight_name(against.read.points)}, {f.grams(against.read.total, 0)}, measured"
    total = parts.figure("total").value
    return f"{swing_weight_name(parts.target)}, about {f.grams(total, 0)}"


def _head_mass(club: BuildClub) -> str:
    """Return the bare head's mass: as weighed, or as the catalogue has it."""
    assert club.parts is not None
    read = next((check.read for check in club.built.parts if check.what == "head"), None)
    return f.grams(club.parts.head.mass) if read is None else f"{f.grams(read)} weighed"


def _added(club: BuildClub) -> str:
    """Return the mass in the ports, place by place."""
    assert club.parts is not None
    loads = [f"{port.name} {f.bare_grams(port.mass)}" for port in club.parts.ports if port.mass]
    return f" + {', '.join(loads)}" if loads else ", nothing added"


def _says(view: ClubView, system: System) -> str:
    """Say what to expect of all balls."""
    flown = view.flown
    every = distance(flown.expected, system, about=True)
    up = opened(in_ten(flown.usable))
    return (
        f"Counting every ball, good and bad, expect about {every}. "
        f"{up}, over all the lies you play, will get up and go."
    )
