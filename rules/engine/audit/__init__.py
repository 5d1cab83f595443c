"""Audits a rule base that loads: what it says and hardly means, each finding with a witness."""

from __future__ import annotations

from rules.engine.audit.findings import Finding
from rules.engine.audit.firing import each_rule, pairs_of_rules
from rules.engine.audit.reading import unread
from rules.engine.audit.shapes import cliffs, gaps
from rules.engine.audit.wording import sentences, sources
from rules.engine.base import RuleBase

__all__ = ["Finding", "audit"]


def audit(base: RuleBase) -> tuple[Finding, ...]:
    """Return everything that the audit finds."""
    single = tuple(each_rule(base))
    mute = {finding.ids[0] for finding in single if finding.code in ("never", "no-effect")}
    return (
        *single,
        *pairs_of_rules(base),
        *cliffs(base),
        *gaps(base),
        *unread(base, mute),
        *sources(base),
        *sentences(base),
    )
