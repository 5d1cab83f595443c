"""Where a sentence comes from, and what the other school says."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from rules.engine.language import Contested, Source

_KINDS = {
    "published": "published",
    "rules_of_golf": "Rules of Golf",
    "common_practice": "common practice",
    "memory": "from memory",
    "assumption": "a house value",
}

_HOUSE = "house value"
"""A note that says no more than its kind."""


class SourceView(NamedTuple):
    """A source: its kind, and the citation or note where there is one."""

    kind: str
    """published, rules_of_golf, common_practice, memory or assumption."""
    cite: str | None = None

    @property
    def words(self) -> str:
        """Return the source as a person would name it."""
        kind, cite = _KINDS.get(self.kind, self.kind), self.cite
        if not cite or cite == _HOUSE:
            return kind
        if self.kind == "published":
            return cite
        return f"{kind}: {cite.removeprefix('rule ')}"


PRACTICE = SourceView("common_practice")
"""What needs no book: the trade does it so."""


class OtherSchool(NamedTuple):
    """The other view of a contested rule, shown with the same care as ours."""

    says: str
    """Its sentence."""
    leans: str
    """Why this rule base leans the other way."""


def source_of(source: Source) -> SourceView:
    """Return the view of a source."""
    return SourceView(source.kind, source.cite)


def other_school(contested: Contested | None) -> OtherSchool | None:
    """Return the other school of a rule; None where nobody disagrees."""
    return None if contested is None else OtherSchool(contested.other, contested.leans)
