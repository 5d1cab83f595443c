"""From the plain data of a session to a Subject: every field named, unit read, range held."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from rules.facts.answers import Answer, AnswerProblem, match_word, read_answer
from rules.facts.mixes import impossible
from rules.facts.subject import Override, OwnedClub, Reading, Shot, Subject, TrialClub
from rules.problems import Problem
from rules.units import UnitError, parse, words

if TYPE_CHECKING:
    from rules.engine.language import Fact

Path = tuple[str | int, ...]
"""Where in the session a value stands, as keys and indices."""
_MOST = {"owned": 30, "trial_clubs": 60, "shots": 2000}
"""More of these than any fitting has are refused, so that a file cannot exhaust the machine."""


class SubjectProblem(Problem):
    """Something in a session that cannot be read: where, and the sentence that says what is wanted."""

    def __init__(self, path: Path, message: str) -> None:
        super().__init__(message)
        self.path = path


@dataclass(frozen=True, slots=True)
class _Field:
    """How one field of a table is read: a quantity, a word, text, or yes and no."""

    unit: str | None = None
    low: float = 0.0
    high: float = 0.0
    values: tuple[str, ...] = ()
    answer: bool = False
    """Whether the field may say how it is known."""

    def read(self, raw: object) -> Any:
        """Read one value; ValueError's sentence is completed by the caller with the place."""
        if self.answer and isinstance(raw, Mapping):
            how = raw.get("how", "said")
            known = {"stamped": "said", "said": "said", "measured": "measured", "estimated": "estimated"}
            if set(raw) - {"value", "how"} or "value" not in raw or how not in list(known):
                raise ValueError(
                    'write { value = ..., how = "measured" }, with how stamped, said, estimated or measured'
                )
            return Answer(self._plain(raw["value"]), known[how])  # type: ignore[arg-type]
        return Answer(self._plain(raw)) if self.answer else self._plain(raw)

    def _plain(self, raw: object) -> Any:
        if self.values:
            found = match_word(raw, self.values) if isinstance(raw, str) else None
            if found is None:
                raise ValueError(f"one of {', '.join(self.values)} is wanted, not '{str(raw)[:40]}'")
            return found
        if self.unit is None:
            return _text(raw)
        if isinstance(raw, bool) or not isinstance(raw, str | int | float):
            raise ValueError(f"a number with its unit is wanted, not '{str(raw)[:40]}'")
        value = parse(raw, self.unit)
        low, high = parse(self.low, self.unit), parse(self.high, self.unit)
        if not low <= value <= high:
            raise ValueError(f"{raw} is outside {words(low, self.unit)} to {words(high, self.unit)}")
        return value


def _text(raw: object) -> str:
    """Read a short text with something in it."""
    if not isinstance(raw, str) or not raw.strip() or len(raw) > 200:
        raise ValueError("a short text is wanted")
    return raw.strip()


_KIND = _Field(values=("fairway", "hybrid"))
_LOFT = _Field("deg", 8, 45)
_LENGTH = _Field("in", 30, 48)
_TOTAL = _Field("g", 150, 600)
_SWING = _Field("points", -30, 39)
_NAME = _Field()
_OWNED = {
    "name": _NAME, "kind": _KIND, "loft": _Field("deg", 8, 45, answer=True), "length": _LENGTH,
    "swing_weight": _SWING, "total": _TOTAL, "carry": _Field("yd", 20, 330, answer=True),
    "liked": _Field(values=("yes", "no", "so_so")), "can_add": _Field("g", 0, 60), "head": _NAME,
}  # fmt: skip
_TRIAL = {
    "name": _NAME, "kind": _KIND, "loft": _LOFT, "length": _LENGTH, "swing_weight": _SWING, "total": _TOTAL,
    "balance_point": _Field("in", 20, 45), "face_angle": _Field("deg", -8, 8), "shaft": _NAME, "head": _NAME,
}  # fmt: skip
_SHOT = {
    "club": _NAME, "toe_mm": _Field("mm", -80, 80), "high_mm": _Field("mm", -50, 50),
    "outcome": _Field(values=("topped", "thin", "fat", "up")), "side_yd": _Field("yd", -200, 200),
    "carry": _Field("yd", 0, 360), "head_speed": _Field("mph", 20, 150), "ball_speed": _Field("mph", 10, 220),
    "launch": _Field("deg", -20, 70), "spin": _Field("rpm", 0, 14000),
    "surface": _Field(values=("turf", "mat", "tee")),
}  # fmt: skip
_TORQUE = _Field("in*lbf", 2, 90)
_READING = {
    "total": _TOTAL, "balance_point": _Field("in", 20, 45), "length": _LENGTH, "loft": _LOFT,
    "face": _Field("deg", -8, 8), "lie": _Field("deg", 45, 75), "swing_weight": _SWING,
    "head": _Field("g", 100, 350), "raw_shaft": _Field("g", 30, 150), "grip": _Field("g", 15, 120),
    "torque": _TORQUE, "torque_again": _TORQUE,
}  # fmt: skip
_RENAMED = {"toe_mm": "toe", "high_mm": "high", "side_yd": "side"}


def _angle_face(raw: object) -> object:
    """Turn `0.5 deg closed` or `1 deg open` into a signed angle, closed positive."""
    if not isinstance(raw, str):
        return raw
    text = raw.strip().lower()
    if text == "square":
        return 0.0
    if text.endswith("closed"):
        return text.removesuffix("closed").strip()
    if text.endswith("open"):
        return "-" + text.removesuffix("open").strip().lstrip("-")
    return raw


def _read_fields(table: object, fields: Mapping[str, _Field], path: Path) -> dict[str, Any]:
    """Read one table by its fields; an unknown key is refused with a did-you-mean."""
    if not isinstance(table, Mapping):
        raise SubjectProblem(path, "a table is wanted here")
    read: dict[str, Any] = {}
    for key, raw in table.items():
        here = (*path, key)
        if key == "indoors" and "outcome" in fields and isinstance(raw, bool):
            read[key] = raw
            continue
        if key not in fields:
            raise SubjectProblem(here, f"'{key}' is not known here{_did_you_mean(key, fields)}")
        try:
            value = fields[key].read(_angle_face(raw) if key in ("face", "face_angle") else raw)
        except (ValueError, UnitError) as error:
            raise SubjectProblem(here, f"{key.removesuffix('_mm').removesuffix('_yd')}: {error}") from None
        read[_RENAMED.get(str(key), str(key))] = value
    return read


def _did_you_mean(key: str, known: Mapping[str, object]) -> str:
    """Suggest the nearest known name, if one is near."""
    close = get_close_matches(key, list(known), 1)
    return f"; did you mean '{close[0]}'?" if close else ""


def _read_list(
    data: Mapping[str, Any], key: str, fields: Mapping[str, _Field], make: Callable[..., Any], *needs: str
) -> tuple[Any, ...]:
    """Read a list of tables into dataclasses; the needed fields must be there."""
    rows = data.get(key, [])
    if not isinstance(rows, list):
        raise SubjectProblem((key,), f"'{key}' is a list of tables, each under [[{key}]]")
    if len(rows) > _MOST[key]:
        raise SubjectProblem(
            (key,), f"{len(rows)} entries under [[{key}]] are more than the {_MOST[key]} that fit"
        )
    made = []
    for index, row in enumerate(rows):
        read = _read_fields(row, fields, (key, index))
        for need in needs:
            if need not in read:
                raise SubjectProblem((key, index), f"this entry of [[{key}]] lacks its '{need}'")
        made.append(make(**read))
    return tuple(made)


def read_answers(facts: Mapping[str, Fact], table: object) -> dict[str, Answer]:
    """Read the `[answers]` table; unknown ids are refused with a did-you-mean."""
    if not isinstance(table, Mapping):
        raise SubjectProblem(("answers",), "'answers' is a table, written [answers]")
    answers: dict[str, Answer] = {}
    questions = {id: fact for id, fact in facts.items() if fact.ask is not None}
    for id, raw in table.items():
        if id not in questions:
            raise SubjectProblem(("answers", id), f"'{id}' is not a question{_did_you_mean(id, questions)}")
        try:
            answers[id] = read_answer(questions[id], raw)
        except AnswerProblem as problem:
            raise SubjectProblem(("answers", id), str(problem)) from None
    if (mix := impossible(answers)) is not None:
        raise SubjectProblem(("answers", mix[0]), mix[1])
    return answers


def read_subject(facts: Mapping[str, Fact], data: Mapping[str, Any]) -> Subject:
    """Read a session's plain data into a Subject; SubjectProblem says where and what is wanted."""
    owned = _read_list(data, "owned", _OWNED, OwnedClub, "name", "kind")
    trial_clubs = _read_list(data, "trial_clubs", _TRIAL, TrialClub, "name", "kind")
    shots = _read_list(data, "shots", _SHOT, Shot, "club")
    names = {club.name for club in (*owned, *trial_clubs)}
    if len(names) < len(owned) + len(trial_clubs):
        raise SubjectProblem(("owned",), "two clubs have the same name; give each its own")
    for index, shot in enumerate(shots):
        if shot.club not in names:
            hint = _did_you_mean(shot.club, dict.fromkeys(names))
            raise SubjectProblem(
                ("shots", index, "club"), f"no owned or trial club is called '{shot.club}'{hint}"
            )
    return Subject(
        answers=read_answers(facts, data.get("answers", {})),
        owned=owned,
        trial_clubs=trial_clubs,
        shots=shots,
        readings=_read_readings(data.get("readings", {})),
        overrides=_read_overrides(data.get("overrides", {})),
    )


def _read_readings(table: object) -> dict[str, Reading]:
    """Read the finished clubs' readings, by role."""
    if not isinstance(table, Mapping):
        raise SubjectProblem(("readings",), 'readings are written [readings."longer"]')
    for role in table:
        if role not in ("longer", "shorter"):
            raise SubjectProblem(
                ("readings", role), f"readings are of the longer or the shorter club, not '{role}'"
            )
    return {role: Reading(**_read_fields(row, _READING, ("readings", role))) for role, row in table.items()}


def _read_overrides(table: object) -> dict[str, Override]:
    """Read the fitter's overrides, by decision."""
    if not isinstance(table, Mapping):
        raise SubjectProblem(("overrides",), 'overrides are written [overrides."longer.length"]')
    fields = {"value": _NAME, "reason": _NAME}
    made = {}
    for decision, row in table.items():
        read = _read_fields(row, fields, ("overrides", decision))
        if "value" not in read:
            raise SubjectProblem(("overrides", decision), "this override lacks its 'value'")
        made[decision] = Override(**read)
    return made
