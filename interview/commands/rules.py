"""`turfpair rules`: checks a rule base, or reads one of its rules aloud."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from interview.text import counted, one_line
from rules.engine.aloud import read_aloud
from rules.engine.audit import Finding, audit
from rules.engine.faults import RuleBaseFaults
from rules.house import load_house
from rules.problems import Problem

if TYPE_CHECKING:
    from rules.engine import RuleBase

CLEAN, FOUND, FAULTY = 0, 1, 2
"""Exit statuses of a check: nothing found; something found; the rule base cannot be loaded."""
_LONGEST = 600
_SAMPLES = 4
"""Sample sessions named at most."""


class NotEmpty(Problem):
    """A folder for witnesses that already holds something."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(f"{folder} already holds something; name a new folder for the witnesses")


def configure(parser: ArgumentParser) -> None:
    """Add what may be done with a rule base."""
    jobs = parser.add_subparsers(dest="job", required=True, metavar="check|show")
    check = jobs.add_parser("check", help="loads and audits a rule base, or one laid over the house's own")
    check.add_argument("folder", metavar="FOLDER", type=Path, nargs="?")
    check.add_argument(
        "--witnesses", metavar="FOLDER", type=Path,
        help="writes a session for each finding that answers can show, to see it happen",
    )  # fmt: skip
    show = jobs.add_parser("show", help="reads a rule, fact, assumption or decision aloud")
    show.add_argument("id", metavar="ID", nargs="?")


def run(args: Namespace) -> int:
    """Do what was asked."""
    if args.job == "check":
        return _check(args.folder or args.rules, args.witnesses)
    return _show(load_house(args.rules).base, args.id, args.units)


def _check(folder: Path | None, witnesses: Path | None) -> int:
    """Load and audit; every fault or finding gets a line."""
    try:
        base = load_house(folder).base
    except RuleBaseFaults as faults:
        _say(faults.faults)
        print(f"turfpair: {counted(len(faults.faults), 'fault')}; nothing was loaded", file=sys.stderr)
        return FAULTY
    print(one_line(_summary(base), _LONGEST))
    findings = audit(base)
    _say(findings)
    if witnesses is not None:
        _write_witnesses(base, findings, witnesses)
    if findings:
        print(f"{counted(len(findings), 'finding')}.")
        return FOUND
    print("Nothing to find fault with.")
    return CLEAN


def _say(entries: Iterable[object]) -> None:
    """Print faults or findings, a line each."""
    for entry in entries:
        print(one_line(str(entry), _LONGEST))


def _summary(base: RuleBase) -> str:
    """Say what a rule base holds, and its digest."""
    facts = sum(fact.part_of is None for fact in base.facts.values())
    held = {"rule": len(base.rules), "fact": facts, "assumption": len(base.assumptions)}
    held["decision"] = len(base.decisions)
    parts = ", ".join(counted(count, what) for what, count in held.items())
    return f"{base.name}: {parts}; digest {base.digest[:16]}"


def _show(base: RuleBase, id: str | None, units: str | None) -> int:
    """Read one entry aloud, or list what there is."""
    if id is not None:
        lines = read_aloud(base, id, "metric" if units == "metric" else "imperial").splitlines()
        for line in (*lines, *_at_work(base, id)):
            print(one_line_kept(line))
        return CLEAN
    for title, rows in _contents(base):
        print(f"{title}:")
        for name, said in rows:
            print(one_line_kept(f"  {name:<36} {said}"))
    return CLEAN


def _at_work(base: RuleBase, id: str) -> Iterator[str]:
    """Yield which rooms of the program read an entry, and which sample session shows it at work."""
    from rules.inquiry.moved import moves
    from rules.inquiry.rooms import assumption_rooms, fact_rooms

    read_by = assumption_rooms if id in base.assumptions else fact_rooms if id in base.facts else None
    rooms = read_by(id) if read_by else ()
    if rooms:
        yield f"read by the program in: {', '.join(f'rules/{room}' for room in rooms)}"
    if base.digest != load_house().base.digest:
        return  # what the samples show was found with the house's own rules alone
    samples = moves(base, id)
    if samples:
        yield f"moves the sample session{'s' if len(samples) > 1 else ''}: {', '.join(samples[:_SAMPLES])}"
    elif id in base.assumptions:
        yield "moves no sample session by itself, over its whole range"


def one_line_kept(line: str) -> str:
    """Clean a line for printing and keep its indentation."""
    return " " * (len(line) - len(line.lstrip())) + one_line(line, _LONGEST)


def _contents(base: RuleBase) -> Iterable[tuple[str, list[tuple[str, str]]]]:
    """Return every id with a few words, by kind."""
    yield "decisions", [(d.id, d.title) for d in base.decisions.values()]
    yield "rules", [(r.id, r.decision or r.effect.topic) for r in base.rules.values()]
    yield "facts", [(f.id, f.title) for f in base.facts.values() if f.part_of is None]
    yield "assumptions", [(a.id, a.text) for a in base.assumptions.values()]


def _write_witnesses(base: RuleBase, findings: Sequence[Finding], folder: Path) -> None:
    """Write a session for each finding that answers alone can show."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NotEmpty(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for number, finding in enumerate(findings, 1):
        answers = _answers(base, finding)
        if answers:
            name = f"{number:03}-{finding.code}-{finding.ids[0].replace('_', '-')}"
            (folder / f"{name}.toml").write_text(_session(base, name, finding, answers), encoding="utf-8")
            print(one_line(f"wrote {folder / name}.toml", _LONGEST))


def _answers(base: RuleBase, finding: Finding) -> dict[str, object]:
    """Return the part of a witness that people can answer, as a session file writes it."""
    from rules.facts.answers import Answer, write_answer

    answers: dict[str, object] = {}
    for id, value in (finding.witness or {}).items():
        fact = base.facts[id]
        if fact.ask is not None and value != frozenset():
            answers[id] = write_answer(fact, Answer(value))
    return answers


def _session(base: RuleBase, name: str, finding: Finding, answers: Mapping[str, object]) -> str:
    """Return the text of a session that shows a finding."""
    from interview.session.reading import session_of
    from interview.session.writing import session_text

    data = {"schema": 1, "id": name[:60].strip("-"), "note": str(finding), "answers": dict(answers)}
    return session_text(session_of(data, base.facts))
