"""The audit trail gathered: a session's record held against a run of now, also as plain data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from interview.session.recorded import changed_sections
from rules.inquiry.audit import Decided, moved, otherwise
from rules.inquiry.blame import blamed
from rules.inquiry.whatif import taken

if TYPE_CHECKING:
    from interview.session import Session
    from interview.session.record import Record
    from rules.fitting import Outcome
    from rules.inquiry.audit import Moved, Said
    from rules.inquiry.blame import Blame


@dataclass(frozen=True, slots=True)
class ByRules:
    """A decision that comes out otherwise by other rules alone."""

    decision: str
    before: str | int | None
    """The candidate, or the amount in thousandths of its unit; None where nothing was decided."""
    after: str | int | None
    because: tuple[Blame, ...]


@dataclass(frozen=True, slots=True)
class Audit:
    """What is otherwise since a session was last run."""

    record: Record
    now: str
    """Digest of the rules of now."""
    rules: bool
    """Whether the rules are others."""
    catalogue: bool
    """Whether the catalogue is another."""
    sections: tuple[str, ...]
    """Sections of the session that are no longer what was read."""
    noted: bool
    """Whether what was decided then is in the record."""
    moved: tuple[Moved, ...]
    """Decisions that come out otherwise than noted, whatever did it."""
    pair: tuple[Said, ...]
    """Rules that give the pair of then something else now."""
    by_rules: tuple[ByRules, ...] | None
    """The same by the rules alone; None where the rules of then were not given."""
    same_rules: bool
    """Whether the rules that were given are those of then, by their digest."""

    @property
    def rules_alone(self) -> bool:
        """Whether nothing but the rules can have done it."""
        return self.rules and not self.catalogue and not self.sections


def audit(session: Session, outcome: Outcome, before: Outcome | None = None) -> Audit:
    """Hold a session's record against a run of now; `before` is the same session by the rules of then."""
    record = session.record
    kept = Decided(record.decided, record.because)
    shelf, now = outcome.house.shelf.digest, outcome.house.digest
    return Audit(
        record=record,
        now=now,
        rules=bool(record.rules_digest) and record.rules_digest != now,
        catalogue=bool(record.catalogue_digest) and record.catalogue_digest != shelf,
        sections=changed_sections(session) if record.decided else (),
        noted=bool(record.decided),
        moved=moved(kept, outcome) if record.decided else (),
        pair=otherwise(kept, outcome, "pairing"),
        by_rules=_by_rules(before, outcome) if before is not None else None,
        same_rules=before is not None and before.house.digest == record.rules_digest,
    )


def _by_rules(before: Outcome, after: Outcome) -> tuple[ByRules, ...]:
    """Return what the rules alone change; where the pair is another, its clubs' parts are others' parts."""
    then, now = taken(before), taken(after)
    ids = [id for id in then if then[id] != now[id]]
    some = ids[:1] if "pairing" in ids else ids
    return tuple(ByRules(id, then[id], now[id], blamed(before, after, id)) for id in some)


def data(of: Audit) -> dict[str, Any]:
    """Return the same as plain data."""
    return {
        "rules_then": of.record.rules_digest or None,
        "rules_changed": of.rules,
        "catalogue_changed": of.catalogue,
        "session_changed": list(of.sections),
        "decisions_noted": of.noted,
        "pair": _said(of.pair),
        "moved": [
            {"decision": one.decision, "from": one.before, "to": one.after, "gone": one.gone,
             "rules": _said(one.rules)}
            for one in of.moved
        ],
        "by_rules": None if of.by_rules is None else [
            {"decision": one.decision, "from": _plain(one.before), "to": _plain(one.after),
             "because": [{"rule": b.rule, "points": None if b.points is None else b.points / 1000}
                         for b in one.because]}
            for one in of.by_rules
        ],
    }  # fmt: skip


def _said(rules: tuple[Said, ...]) -> list[dict[str, Any]]:
    return [{"rule": one.rule, "then": one.then, "now": one.now} for one in rules]


def _plain(pick: str | int | None) -> str | float | None:
    return pick / 1000 if isinstance(pick, int) else pick
