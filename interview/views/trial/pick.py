"""What the balls did to the recommendation, in words, its reasons read from the two traces."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import millimetres, opened, rounded, signed, spelled, trimmed
from rules.evidence.change import label, lead, named, reasons
from rules.units import swing_weight_name, words

if TYPE_CHECKING:
    from interview.views.trial.said import Told
    from rules.evidence.change import Change, Moved, Reason

_TOLD = ("length", "face_height", "balance")
"""Figures of a club that are told where the club itself stays; a golfer hears of the first."""


def picked(found: Change, told: Told) -> None:
    """Write the pick before and after, and why it moved or did not."""
    told.page.heading(told.phrase("pick.heading"))
    told.page.say(verdict(found, told), indent=2)
    if found.before.picked is None or found.after.picked is None:
        return
    if not told.customer:
        _lead(found, told)
    for moved in found.moved:
        role, _, figure = moved.what.partition(".")
        if figure in (_TOLD[:1] if told.customer else _TOLD) and not found.pick_changed:
            told.page.point(_club(role, figure, moved, told))
    _reasons(found, told)


def verdict(found: Change, told: Told) -> str:
    """Say in one sentence whether the balls changed the pick."""
    before, after = label(found.before), label(found.after)
    if after is None:
        return told.phrase("pick.none") if before is None else told.phrase("pick.ends", before=before)
    if before is None:
        return told.phrase("pick.begins", after=after)
    key = "pick.changed" if found.pick_changed else "pick.stays"
    return told.phrase(key, after=after, before=before)


def _lead(found: Change, told: Told) -> None:
    """Say how far ahead the pick was and is, where it stayed."""
    before, now, pairing = lead(found.before), lead(found.after), found.after.pairing
    if found.pick_changed or before is None or now is None or pairing is None or pairing.runner_up is None:
        return
    rival = named(found.after.pairs[pairing.runner_up.candidate.id])
    points = {"before": trimmed(before / 1000, 2), "now": trimmed(now / 1000, 2)}
    told.page.say(told.phrase("pick.lead", rival=rival, **points), indent=2)


def _club(role: str, figure: str, moved: Moved, told: Told) -> str:
    """Say what moved of a club that stays."""
    before, after = (_figure(value, moved.unit, told) for value in (moved.before, moved.after))
    return told.phrase(
        "pick.same_club", role=told.phrase(f"role.{role}"), figure=told.phrase(f"part.{figure}"),
        after=after, before=before,
    )  # fmt: skip


def _figure(value: float | str | None, symbol: str, told: Told) -> str:
    if value is None or isinstance(value, str):
        return value or "-"
    if symbol == "points":
        return swing_weight_name(value)
    return millimetres(value) if symbol == "mm" else words(value, symbol, told.system)


def _reasons(found: Change, told: Told) -> None:
    """Write which rules moved the pick or its lead; the golfer hears what now speaks for a changed one."""
    why = reasons(found)
    if told.customer:
        why = tuple(one for one in why if found.pick_changed and one.moved > 0 and _for_it(one))
    if not why:
        return
    told.page.say(told.phrase("pick.reasons"), indent=2)
    for one in why:
        text = one.line.text(told.system)
        if told.customer:
            told.page.point(spelled(text))
            continue
        key = "pick.reason_of_rival" if one.of_rival else "pick.reason"
        told.page.point(told.phrase(key, points=signed(one.moved / 1000), text=rounded(text)))
        if told.voice == "trainer":
            told.page.say(opened(one.line.teaches(told.system)), indent=4)


def _for_it(one: Reason) -> bool:
    """Say whether a reason speaks for the pair now picked by itself."""
    return one.line.points > 0 and not one.of_rival
