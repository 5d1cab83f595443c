"""A general rule engine: language, truth, ledger, bounds and trace. It knows nothing of golf."""

from __future__ import annotations

from rules.engine.base import RuleBase
from rules.engine.faults import Fault, RuleBaseFaults
from rules.engine.ledger import Amount, Choice, Notice, Standing
from rules.engine.lines import Line
from rules.engine.reading.load import load
from rules.engine.views import ABSENT, Candidate, View, assumed, known

__all__ = [
    "ABSENT", "Amount", "Candidate", "Choice", "Fault", "Line", "Notice", "RuleBase", "RuleBaseFaults",
    "Standing", "View", "assumed", "known", "load",
]  # fmt: skip
