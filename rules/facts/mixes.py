"""Answers that cannot be true together, or cannot be true of anything that is counted."""

from __future__ import annotations

from collections.abc import Mapping

from rules.facts.answers import Answer

_COUNTED = {
    "clubs_in_bag": "clubs in the bag",
    "clubs_leaving": "clubs leaving",
    "airborne_of_six": "balls that get up, of six",
}


def impossible(answers: Mapping[str, Answer]) -> tuple[str, str] | None:
    """Return the question to mend and one sentence, or None where the answers can stand together."""
    for id, title in _COUNTED.items():
        number = _number(answers, id)
        if number is not None and number != round(number):
            return id, f"{title}: they are counted, so a whole number is wanted, not {number:g}"
    bag, leaving = _number(answers, "clubs_in_bag"), _number(answers, "clubs_leaving")
    if bag is not None and leaving is not None and leaving > bag:
        return (
            "clubs_leaving",
            f"clubs leaving: {leaving:g} cannot leave a bag of {bag:g}; mend one of the two",
        )
    contact = answers.get("contact")
    told = contact.value if contact is not None else None
    if isinstance(told, frozenset) and {"centred", "scattered"} <= told:
        return "contact", "contact: strikes cannot be both centred and scattered; keep the one that is usual"
    return None


def _number(answers: Mapping[str, Answer], id: str) -> float | None:
    """Return a numeric answer's value, or None where nobody said."""
    value = answers[id].value if id in answers else None
    return float(value) if isinstance(value, float | int) else None
