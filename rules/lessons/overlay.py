"""Edits of a copy: rules and assumptions changed or switched off, checked by the loader, tried, and saved.

What is edited is laid over the house's own rules; those are never written.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import tomli_w

from rules.engine import RuleBaseFaults, load
from rules.engine.writer import assumption_row, decision_row, fact_row, rule_row
from rules.house import KNOWLEDGE, is_whole
from rules.inquiry.replay import Tally, replayed
from rules.inquiry.whatif import WhatIf, compared
from rules.lessons.case import LessonProblem, under
from rules.lessons.fields import Field, Row, fields, plain, with_field
from rules.problems import Problem
from rules.whole_file import replace_content

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.fitting import House
    from rules.lessons.case import Case

HEADING = "# An overlay made in a lesson: what it names replaces the entry of the same id."
"""First line of every file that is written, by which an overlay made here is known again."""
_FILES = ("edits.toml", "base.toml")
_MODE = 0o644
_FEW = 3


@dataclass(frozen=True, slots=True)
class Overlay:
    """What differs from the rules below. It never changes: an edit makes another."""

    house: House
    """The rules and the shelf as they were opened."""
    below: Path
    """The folder of the rules over which it is laid."""
    rows: Mapping[str, tuple[str, Row]]
    """By id: the kind of entry (rule, assumption, fact, decision), and the entry as it should be."""
    off: frozenset[str] = frozenset()
    """Ids that are switched off."""

    @property
    def empty(self) -> bool:
        """Whether nothing differs."""
        return not self.rows and not self.off


@dataclass(frozen=True, slots=True)
class Checked:
    """What the loader says of an overlay."""

    house: House | None
    """The house under the edited rules; None where they cannot be loaded."""
    problems: tuple[str, ...] = ()
    """One sentence each; empty where it loads."""


def begin(house: House, rules: Path | None = None) -> Overlay:
    """Return an overlay that holds what `rules`, the folder the house was loaded with, changes already."""
    if rules is not None and is_whole(rules):
        return Overlay(house, rules, {})
    if rules is None:
        return Overlay(house, KNOWLEDGE, {})
    own, now = _rows(load(KNOWLEDGE)), _rows(house.base)
    changed = {id: (row[0], plain(row[1])) for id, row in now.items() if own.get(id) != row}
    return Overlay(house, KNOWLEDGE, changed, frozenset(own.keys() - now.keys()))


def _rows(base: RuleBase) -> dict[str, tuple[str, Row]]:
    """Return every entry of a rule base as plain data."""
    found = {id: ("assumption", assumption_row(one)) for id, one in base.assumptions.items()}
    found |= {id: ("fact", fact_row(one, base)) for id, one in base.facts.items() if one.part_of is None}
    found |= {id: ("decision", decision_row(one, base)) for id, one in base.decisions.items()}
    return found | {id: ("rule", rule_row(one, base)) for id, one in base.rules.items()}


def entry(overlay: Overlay, id: str) -> tuple[str, Row]:
    """Return the kind of a rule or assumption and how it stands; raises LessonProblem for none."""
    base = overlay.house.base
    if id in overlay.rows and overlay.rows[id][0] in ("rule", "assumption"):
        return overlay.rows[id]
    if id in base.rules:
        return "rule", plain(rule_row(base.rules[id], base))
    if id in base.assumptions:
        return "assumption", plain(assumption_row(base.assumptions[id]))
    raise LessonProblem(f"'{id[:60]}' is no rule and no assumption; 'turfpair rules show' lists them")


def editable(overlay: Overlay, id: str) -> tuple[Field, ...]:
    """Return the places of a rule or assumption that may be edited, as they stand."""
    return fields(entry(overlay, id)[1])


def edit(overlay: Overlay, id: str, path: str, text: str) -> Overlay:
    """Return the overlay with another text in one place of an entry."""
    kind, row = entry(overlay, id)
    rows = {**overlay.rows, id: (kind, with_field(row, path, text))}
    return replace(overlay, rows=rows, off=overlay.off - {id})


def switch_off(overlay: Overlay, id: str) -> Overlay:
    """Return the overlay with a rule switched off."""
    if id not in overlay.house.base.rules:
        raise LessonProblem(f"'{id[:60]}' is no rule; only rules can be switched off")
    rows = {other: row for other, row in overlay.rows.items() if other != id}
    return replace(overlay, rows=rows, off=overlay.off | {id})


def revert(overlay: Overlay, id: str) -> Overlay:
    """Return the overlay with an entry as it was below."""
    rows = {other: row for other, row in overlay.rows.items() if other != id}
    return replace(overlay, rows=rows, off=overlay.off - {id})


def overlay_files(overlay: Overlay) -> dict[str, str]:
    """Return the overlay as the text of its files, by name; those with nothing in them are left out."""
    kinds: dict[str, list[Row]] = {}
    for kind, row in overlay.rows.values():
        kinds.setdefault(kind, []).append(row)
    texts = {"edits.toml": tomli_w.dumps(kinds)} if kinds else {}
    if overlay.off:
        texts["base.toml"] = tomli_w.dumps({"off": sorted(overlay.off)})
    return {name: f"{HEADING}\n\n{text}" for name, text in texts.items()}


def check(overlay: Overlay) -> Checked:
    """Load the overlay as the program would, and say what is wrong with it in one sentence each."""
    if overlay.empty:
        return Checked(overlay.house.with_base(load(overlay.below)))
    with tempfile.TemporaryDirectory() as folder:
        for name, text in overlay_files(overlay).items():
            (Path(folder) / name).write_text(text, encoding="utf-8")
        try:
            base = load(overlay.below, (Path(folder),))
        except RuleBaseFaults as faults:
            told = (str(fault).replace(f"{folder}/", "") for fault in faults.faults)
            return Checked(None, tuple(dict.fromkeys(told)))
    return Checked(overlay.house.with_base(base))


def effect_here(case: Case, house: House) -> WhatIf:
    """Hold a case under the rules as they were against the case under the edited ones."""
    return compared(case.outcome, under(case, house).outcome)


def effect_everywhere(
    cases: Sequence[Case], house: House, tell: Callable[[int, int], None] | None = None
) -> Tally:
    """Replay every case under the edited rules; `tell` takes how many are done, and of how many."""
    tally = Tally()
    for done, case in enumerate(cases, 1):
        tally.add(replayed(case.house, house, case.id, case.subject, case.subject))
        if tell is not None:
            tell(done, len(cases))
    tally.sort()
    return tally


class CannotSave(Problem):
    """An overlay that cannot be saved where it was to be."""


def save(overlay: Overlay, folder: Path) -> tuple[Path, ...]:
    """Write the overlay into a folder that is new, empty or an overlay made here; return its files.

    Each file is replaced whole. Raises CannotSave for what does not load, for the house's own rules, and
    for a folder that holds anything else.
    """
    problems = check(overlay).problems
    if problems:
        raise CannotSave(f"what does not load is not saved: {problems[0]}")
    if overlay.empty:
        raise CannotSave("nothing has been edited yet, so there is nothing to save")
    _must_be_ours(folder)
    texts = overlay_files(overlay)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name in _FILES:
            if name in texts:
                replace_content((folder / name).resolve(), texts[name].encode(), _MODE)
            else:
                (folder / name).unlink(missing_ok=True)
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise CannotSave(f"{folder}: {reason}; choose another folder") from None
    return tuple(folder / name for name in _FILES if name in texts)


def _must_be_ours(folder: Path) -> None:
    """Refuse the program's own folders, and a folder with anything in it that was not made here."""
    program = KNOWLEDGE.parent.resolve()
    target = folder.resolve()
    if target == program or program in target.parents or target in program.parents:
        raise CannotSave(
            f"{folder}: the rules that came with the program stay as they are; name another folder"
        )
    if not folder.exists():
        return
    if not folder.is_dir():
        raise CannotSave(f"{folder} is a file; name a folder")
    others = [path.name for path in sorted(folder.iterdir()) if not _made_here(path)]
    if others:
        some = ", ".join(others[:_FEW])
        raise CannotSave(
            f"{folder} holds other things ({some}), and nothing is written over; name another folder"
        )


def _made_here(path: Path) -> bool:
    """Say whether a file is part of an overlay that was made here."""
    try:
        with path.open(encoding="utf-8", errors="replace") as file:
            return path.name in _FILES and file.readline().rstrip("\n") == HEADING
    except OSError:
        return False
