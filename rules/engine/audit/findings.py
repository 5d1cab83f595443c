"""What an audit can find in a rule base that loads, held as data and worded here alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rules.engine.views import Value

WORDING: Mapping[str, str] = {
    "never": "it can never speak: no {fact} fits all that it asks",
    "always": "it speaks whatever the facts, so its condition says nothing",
    "no-effect": "it gives nothing wherever it speaks",
    "contradicts": "'{other}' gives the opposite on the same grounds",
    "repeats": "'{other}' speaks in the same cases and pulls the same way; one rule would do",
    "same-sentence": "it says word for word what '{other}' says",
    "void": "it speaks only where '{other}' has ruled the candidate out",
    "cliff": "the points jump by {jump} at {fact} {value}; base.toml allows {most}; use a ramp",
    "gap": "on the {decision} nobody speaks at {fact} {value}, though some do just below and just above",
    "unread": "no rule, decision or sentence reads this fact",
    "idle": "its answer can change nothing: {why}",
    "thin-source": "its source says too little: {why}",
    "doubled-unit": "'{given}' says the unit twice; the fact brings its own",
    "code-word": "'{given}' is no word that a person would say",
    "no-end": "'{key}' does not end like a sentence",
    "no-start": "'{key}' does not begin like a sentence",
    "fragment": "'{key}' is too short to explain anything",
    "same-text": "because and teaches say the same",
    "may-be-unknown": "the text names {fact}, of which nobody may know anything",
    "opinion-without-basis": "it rules a candidate out on no more than {kind}",
}
"""One sentence for each sort of finding, by its code."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule base says and hardly means."""

    code: str
    """Which sort; a key of WORDING."""
    what: str
    """`rule`, `fact` or `assumption`."""
    ids: tuple[str, ...]
    """What it is about, the first to blame."""
    data: Mapping[str, object] = field(default_factory=dict)
    """What the sentence names."""
    witness: Mapping[str, Value] | None = None
    """Facts that show it; None where no facts are needed, or none can be."""

    def __str__(self) -> str:
        """Word the finding as one sentence."""
        return f"{self.what} '{self.ids[0]}': {WORDING[self.code].format_map(self.data)}"
