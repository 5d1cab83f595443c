"""What can be wrong with a rule base or a file, held as data and worded here alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from rules.problems import Problem

WORDING: Mapping[str, str] = {
    # files
    "no-folder": "there is no such folder; name a folder of .toml files",
    "not-folder": "this is not a folder; name a folder of .toml files",
    "closed-folder": "this folder cannot be read ({why}); let your user read it, or name another folder",
    "no-files": "the folder holds no .toml file; a rule base needs at least base.toml",
    "too-many-files": "the folder holds {count} .toml files; {most} is the most that is read",
    "too-much": "the files of this folder hold more than {most} bytes together, far more than rules need",
    "no-base": "no base.toml is in the folder; it names the schema, the scopes and the topics",
    # tables
    "unknown-table": "this is no table of a rule base{hint}",
    "unknown-key": "'{key}' is not known here{hint}",
    "missing": "'{key}' is missing; {wanted}",
    "wrong-type": "{wanted} is wanted, not {given}",
    "empty": "a sentence is wanted, not nothing",
    "too-long": "the text is {count} characters long; {most} is the most that is read",
    "too-many": "{count} of them are too many; {most} is the most that is read",
    "too-deep": "conditions are nested too deeply; {most} levels are the most",
    "too-tangled": "this condition unfolds into more than {most} separate cases; split the rule",
    "bad-id": "{given} is no id; write {wanted}",
    "bad-schema": "schema 1 is wanted, not {given}",
    "duplicate": "the {what} '{id}' is already declared at {where}; give one of them another id",
    "overlay-conflict": "two overlays change '{id}', this one and {where}; leave it to one of them",
    "off-unknown": "'{id}' is to be switched off, but no such id is there{hint}",
    "off-in-base": "only an overlay can switch ids off",
    "off-elsewhere": 'ids are switched off in base.toml, in one line: off = ["an-id", "another-id"]',
    # values
    "bad-quantity": "{why}",
    "not-finite": "a finite number is wanted, not {given}",
    "range-order": "the first end of a range must be below the second",
    "outside-range": "{given} is outside the range of '{fact}', {range}",
    "not-a-word": "{given} is not one of {wanted}{hint}",
    "bad-step": "the step must be a positive number of whole thousandths of {unit}",
    "below-nought": "the {what} must not be below nought",
    "too-fine": "points go to a thousandth and up to {most}; {given} is not such a number",
    "ramp-short": "a ramp needs at least two nodes, each [value of the fact, result]",
    "ramp-order": "the nodes of a ramp must rise strictly; {given} does not come after the node before it",
    "one-effect": "exactly one effect is wanted: points, rule_out, adjust, caution or advise",
    "one-operator": "exactly one comparison is wanted beside 'fact': {wanted}",
    "bad-condition": "a condition is {{ fact = ..., comparison = ... }} or one of all, any, none with a list",
    "bad-source": "a source of kind '{kind}' needs {wanted}",
    "brace-unknown": "{{{given}}} in the text is no fact that this rule may read{hint}",
    "brace-stray": "a brace in the text must enclose the id of a fact; '{given}' does not",
    "control-character": "the text holds a control character that no screen should be sent",
    # references
    "unknown-fact": "there is no fact '{id}'{hint}",
    "unknown-assumption": "there is no assumption '{id}': declare it in an [[assumption]]{hint}",
    "unknown-decision": "there is no decision '{id}'{hint}",
    "unknown-scope": "there is no scope '{id}'{hint}",
    "unknown-topic": "there is no topic '{id}' in base.toml{hint}",
    "shares-whole": "'{id}' is a set of shares; read one of its parts, such as '{id}.{part}'",
    "wrong-scope": "a rule of scope '{scope}' cannot read '{fact}', which belongs to the later '{other}'",
    "decided-later": "'{fact}' is decided with '{other}', which comes after this; it cannot be read yet",
    "decided-scope": "'{fact}' is decided with '{other}', so both must be of one scope",
    "decided-amount": "'{fact}' is decided with '{other}', which is an amount and has no candidates",
    "wrong-operator": "'{op}' cannot be used on the {kind} '{fact}'; use {wanted}",
    "ramp-fact": "a ramp needs a fact that is a number; '{fact}' is a {kind}",
    "wrong-dimension": "{this} is measured in {given}, {that} in {wanted}",
    "assumption-kind": "the assumption '{assumption}' is {given}; {wanted} is wanted",
    "wrong-effect": "the effect '{effect}' does not fit {what}; use {wanted}",
    "needs-decision": "a rule that scores must name its decision",
    "rule-scope": "a rule of the later scope '{scope}' cannot speak on '{decision}', of scope '{other}'",
    "duplicate-order": "'{other}' has the same order {order} in scope '{scope}'; each decision needs its own",
    "derived-asked": "a fact is asked or derived, not both",
    "applies-scope": "whether a question applies may read only facts of its own or an earlier scope",
    "limits-start": "the start, {given}, is outside the limits; widen them or move the start",
}
"""One sentence for each sort of fault, by its code."""


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Suggest the nearest known word, as the tail of a sentence; empty when nothing is near."""
    near = get_close_matches(word[:80], list(known), n=1, cutoff=0.6)
    return f"; did you mean '{near[0]}'?" if near else ""


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of a rule base, placed: file, line, column, what it belongs to, and what is wanted."""

    code: str
    """Which sort of fault; a key of WORDING."""
    file: Path
    line: int
    """Line, from 1; 0 when the fault is of the whole file or folder."""
    column: int
    owner: str
    """What it belongs to, such as `rule 'gap-first'`; empty for the file itself."""
    key: str
    """Where in it, such as `when.all[2].below`."""
    data: Mapping[str, object]
    """What the sentence names."""

    @property
    def message(self) -> str:
        """What is wrong and what is wanted, without the place."""
        return WORDING[self.code].format_map(self.data)

    def __str__(self) -> str:
        """Word the fault as one sentence."""
        place = f"{self.file} line {self.line}, column {self.column}" if self.line else str(self.file)
        inside = ", ".join(part for part in (self.owner, self.key) if part)
        return f"{place}: {inside + ': ' if inside else ''}{self.message}"


class RuleBaseFaults(Problem):
    """A rule base that cannot be used; `faults` holds every fault in file order."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        more = len(self.faults) - 1
        tail = f" ({more} more; `rules check` lists them all)" if more else ""
        super().__init__(f"{self.faults[0]}{tail}")


class UnknownName(Problem):
    """A fact, rule, assumption or decision asked for by an id that is not there."""

    def __init__(self, what: str, id: str, known: Iterable[str]) -> None:
        self.what, self.id = what, id
        super().__init__(f"there is no {what} '{id[:60]}' in this rule base{did_you_mean(id, known)}")


class MisreadView(Problem):
    """A value handed to the engine that is none of its fact's words."""

    def __init__(self, fact: str, value: object, known: Iterable[str]) -> None:
        self.fact, self.value = fact, value
        super().__init__(f"'{str(value)[:40]}' is no value of '{fact}'{did_you_mean(str(value), known)}")
