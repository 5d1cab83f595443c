"""A club a golfer owns, read from one typed line: `3-wood, 15 deg, 43 1/4 in, D2, 330 g, 185 yd, liked`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from interview.session import with_club
from interview.text import one_line
from rules.problems import Problem
from rules.units import UnitError, parse, words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from interview.conversation import State
    from interview.session import Session
    from rules.engine.language import Fact

_LIKED = {
    "liked": "yes", "likes it": "yes", "likes": "yes", "disliked": "no", "hates it": "no", "hates": "no",
    "hated": "no", "not liked": "no", "so so": "so_so", "so-so": "so_so",
}  # fmt: skip
_GONE = ("gone", "sold")
"""Words that take a club out of the bag again."""
_OWNED = re.compile(r"^(?:club|own|owns|has|my|his|her|their)\s+(.+)$", re.IGNORECASE)
"""How a line begins that tells of a club."""
_UNITS = r"(?:deg(?:rees?)?|°|inch(?:es)?|in|\"|cm|g(?:rams)?|y(?:ar)?ds?|m)(?![a-z])"
_WORDS = "|".join(sorted((*_LIKED, *_GONE), key=len, reverse=True))
_PART = re.compile(
    rf"(?<!add)(?<!takes)(?<!for)\s+(?=\d[\d.]*(?:[ -]\d+/\d+)?\s*{_UNITS}|[A-G]\d(?:\.\d+)?(?:$|\s)"
    rf"|(?:can add|takes|room for)\s|(?:{_WORDS})(?:$|\s))",
    re.IGNORECASE,
)
"""Where a part begins that no comma parts from the one before."""
_ADDS = re.compile(r"^(?:can add|takes|room for)\s+(.+)$", re.IGNORECASE)
_FIELDS = (("loft", "deg"), ("length", "in"), ("total", "g"), ("carry", "yd"), ("swing_weight", "points"))


class ClubProblem(Problem):
    """A typed club that cannot be read."""


def read_club(text: str) -> dict[str, object]:
    """Read a club from a line of parts, the name first; ClubProblem says what is wanted.

    Commas part them, or else the quantities and words that begin a part do. A club that is no longer owned
    is `gone`.
    """
    line = one_line(text, 400)
    name, *parts = [part.strip() for part in (line if "," in line else _PART.sub(", ", line)).split(",")]
    if not name:
        raise ClubProblem("a club wants a name first, such as '3-wood'")
    club: dict[str, object] = {"name": name, "kind": "hybrid" if "hybrid" in text.lower() else "fairway"}
    for part in parts:
        if part and part.lower() not in ("hybrid", "fairway", "fairway wood"):
            field, value = _field(part)
            club[field] = value
    return club


def owned_line(text: str) -> str | None:
    """Return what a line tells of a club that is owned, from its name on; None where it tells of none."""
    said = _OWNED.match(text)
    if said is None or not reading(said[1])[1]:
        return None
    told = read_club(said[1])
    return said[1] if len(told) > 2 or re.search(r"wood|hybrid", said[1], re.IGNORECASE) else None


def _field(part: str) -> tuple[str, object]:
    """Return what one part of the line tells: which field, and its value as a session holds it."""
    if part.lower() in _LIKED:
        return "liked", _LIKED[part.lower()]
    if part.lower() in _GONE:
        return "gone", True
    adds = _ADDS.match(part)
    if adds:
        _checked(adds.group(1), "g")
        return "can_add", adds.group(1)
    measured = part.lower().endswith(" measured")
    plain = part[: -len(" measured")] if measured else part
    if not re.search(r"\d\s*$", plain) or plain[:1].isalpha():
        for field, symbol in _FIELDS:
            if _fits(plain, symbol):
                how = {
                    "value": plain,
                    "how": "measured" if measured else "stamped" if field == "loft" else "said",
                }
                return field, how if field in ("loft", "carry") else plain
    raise ClubProblem(f"'{one_line(part, 40)}' wants a unit: deg, in, g, yd, or a swing weight such as D2")


def _fits(text: str, symbol: str) -> bool:
    """Return whether a text is a quantity of the kind of a unit; yards and inches are told apart."""
    lengths = {"in": ("in", '"', "inch", "inches", "cm"), "yd": ("yd", "yds", "yard", "yards", "m", "metres")}
    ends = lengths.get(symbol)
    if ends is not None and not text.lower().rstrip().endswith(ends):
        return False
    try:
        parse(text, symbol)
    except UnitError:
        return False
    return True


def _checked(text: str, symbol: str) -> None:
    """Refuse what is no quantity of the kind of a unit."""
    try:
        parse(text, symbol)
    except UnitError as error:
        raise ClubProblem(str(error)) from None


def reading(text: str) -> tuple[str, bool]:
    """Return how a typed club is understood, and whether it can be taken."""
    if not text.strip():
        return "", False
    try:
        club = read_club(text)
    except ClubProblem as problem:
        return str(problem), False
    told = [_part_words(key, value) for key, value in club.items() if key != "name"]
    return f"{club['name']}: {', '.join(told)}", True


def _part_words(key: str, value: object) -> str:
    """Return one thing that is known of a club in words."""
    if key == "kind":
        return "fairway wood" if value == "fairway" else "hybrid"
    if key == "gone":
        return "no longer in the bag"
    if key == "liked":
        return {"yes": "liked", "no": "not liked"}.get(str(value), "so so")
    return f"{key.replace('_', ' ')} {_plain(value)}"


def _plain(value: object) -> str:
    """Return a value without its table."""
    return str(value["value"]) if isinstance(value, dict) else str(value).replace("_", " ")


def read_trial(text: str) -> list[dict[str, object]]:
    """Read the clubs of a trial, with semicolons between them; ClubProblem says what is wanted."""
    clubs = [read_club(part) for part in text.split(";") if part.strip()]
    for club in clubs:
        loft = club.get("loft")
        if isinstance(loft, dict):
            club["loft"] = loft["value"]
        for key in ("liked", "can_add", "carry", "gone"):
            club.pop(key, None)
    names = [club["name"] for club in clubs]
    if len(set(names)) < len(names):
        raise ClubProblem("a club can be hit in a trial only once; name each of them once")
    return clubs


def reading_trial(text: str) -> tuple[str, bool]:
    """Return how the clubs of a trial are understood, and whether they can be taken."""
    try:
        clubs = read_trial(text)
    except ClubProblem as problem:
        return str(problem), False
    return "; ".join(f"{club['name']} ({club['kind']})" for club in clubs), bool(clubs)


def usual_trial(state: State) -> str:
    """Return the clubs one would try: his own, then the two that are picked."""
    names = [club.name for club in state.session.subject.owned][:2]
    for club in state.outcome.clubs:
        if club.rung.owned is None:
            spec, kind = club.rung.spec, club.rung.kind
            loft, length = words(spec.loft, "deg"), words(spec.length, "in")
            names.append(f"demo {club.rung.label}, {kind}, {loft}, {length}")
    return "; ".join(names)


def with_trial_club(facts: Mapping[str, Fact], club: Mapping[str, object], session: Session) -> Session:
    """Return the session with one more club to be tried."""
    return with_club(session, facts, "trial_clubs", club)
