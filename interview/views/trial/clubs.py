"""Every club's balls, summed up in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import listed, millimetres, opened
from rules.units import words as quantity

if TYPE_CHECKING:
    from interview.views.trial.said import Told
    from rules.evidence.summary import Carry, ClubBalls, Marks, Side
    from rules.evidence.trial import Trial

_READINGS = (
    ("head_speed", "mph", "head speed"), ("ball_speed", "mph", "ball speed"), ("launch", "deg", "launch"),
    ("spin", "rpm", "spin"),
)  # fmt: skip


def clubs(trial: Trial, told: Told) -> None:
    """Write every club's figures."""
    for club in trial.clubs:
        told.page.heading(_title(club, told))
        told.page.say(opened(_balls(club, told)) + ("." if told.customer else ""), indent=2)
        for label, line in _rows(club, told):
            if told.customer:
                told.page.point(line)
            else:
                told.page.row(label, line)


def _title(club: ClubBalls, told: Told) -> str:
    about = [told.loft(club.loft)] if club.loft is not None else []
    about += [told.phrase("own")] if club.owned else []
    key = "club" if about else "club_bare"
    return told.phrase(key, club=club.club, about=", ".join(about))


def _balls(club: ClubBalls, told: Told) -> str:
    """Say how many balls the figures are of, and from what ground."""
    grounds = listed(
        [told.ground(one) for one in club.conditions if one.surface != "tee"] or [told.phrase("ground.tee")]
    )
    text = told.phrase("ball" if club.balls == 1 else "balls", count=club.balls, ground=grounds)
    return f"{text}; {told.phrase('teed', count=club.teed)}" if club.teed else text


def _rows(club: ClubBalls, told: Told) -> list[tuple[str, str]]:
    """Return the lines of one club with their labels."""
    rows: list[tuple[str, str]] = []
    if club.usable is not None:
        rows.append(("got up", _usable(club, told)))
    if club.carry is not None:
        rows += _carry(club.carry, told)
    if club.side is not None:
        rows.append(("side", _side(club.side, told)))
    if club.marks is not None:
        rows.append(("marks", _marks(club.marks, told)))
    if club.readings and not told.customer:
        rows.append(("read", _readings(club, told)))
    return rows


def _readings(club: ClubBalls, told: Told) -> str:
    """List the means of what instruments read of clean strikes."""
    read = [one for one in _READINGS if one[0] in club.readings]
    parts = [f"{name} {quantity(club.readings[key], symbol, told.system)}" for key, symbol, name in read]
    return told.phrase("readings", parts=", ".join(parts))


def _usable(club: ClubBalls, told: Told) -> str:
    count = club.usable
    assert count is not None
    return told.phrase(
        "got_up", up=count.number, of=count.of, low=told.share(count.low), high=told.share(count.high),
        kinds=kinds(club.outcomes, told),
    )  # fmt: skip


def kinds(outcomes: object, told: Told) -> str:
    """List what became of balls, those kinds that there were."""
    counts: dict[str, int] = dict(outcomes)  # type: ignore[call-overload]
    return ", ".join(told.phrase(f"outcome.{name}", count=n) for name, n in counts.items() if n)


def _carry(carry: Carry, told: Told) -> list[tuple[str, str]]:
    rows = [
        (
            "carry",
            told.phrase(
                "carry_all",
                mean=told.far(carry.all.value),
                between=told.between(carry.all),
                typical=told.far(carry.typical),
                poorer=told.far(carry.poorer),
            ),
        )
    ]
    if carry.got_up is not None and not told.customer:
        spread = told.phrase("spread", spread=told.far(carry.spread.value)) if carry.spread else ""
        up, between = carry.got_up, told.between(carry.got_up)
        rows.append(("", told.phrase("carry_up", mean=told.far(up.value), between=between, spread=spread)))
    return rows


def _side(side: Side, told: Told) -> str:
    return told.phrase(
        "side", off=told.far(side.off.value), between=told.between(side.off), lean=told.lean(side.mean)
    )


def _marks(marks: Marks, told: Told) -> str:
    where = told.place(marks.toe, marks.high)
    if marks.scatter is None or marks.sd_toe is None or marks.sd_high is None:
        return told.phrase("marks_one", where=where)
    axes = told.phrase("axes", toe=millimetres(marks.sd_toe), high=millimetres(marks.sd_high))
    return told.phrase(
        "marks", where=where, scatter=millimetres(marks.scatter.value),
        between=told.between_marks(marks.scatter), axes=axes,
    )  # fmt: skip
