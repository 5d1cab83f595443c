"""The condition that kept a rule silent, as a sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.views.inquiry.words import listed
from rules.engine.language import Assumed, Atom
from rules.units import words

if TYPE_CHECKING:
    from interview.views.inquiry.words import Words
    from rules.inquiry.ledgers import Near

_NUMBER = {
    "below": "below {0}", "at_most": "at most {0}", "above": "above {0}", "at_least": "at least {0}",
    "is": "{0}", "is_not": "other than {0}", "between": "between {0} and {1}",
}  # fmt: skip
_NOT = {
    "below": "at least {0}", "at_most": "above {0}", "above": "at most {0}", "at_least": "below {0}",
    "is": "other than {0}", "is_not": "{0}", "between": "below {0} or above {1}",
}  # fmt: skip


def near_sentence(near: Near, said: Words) -> str:
    """Say what a fact is and what it would have to be for the rule to speak."""
    atom, title = near.blocker.condition, said.title(near.fact)
    if not isinstance(atom, Atom):
        return f"the {title} is not known"
    now = said.value(near.fact, near.view.best)
    wanted = near.blocker.best == "fails"
    if atom.op in ("known", "unknown"):
        known = (atom.op == "known") == wanted
        return f"the {title} would have to be {'known' if known else 'unknown'}; it is {now}"
    return f"the {title} would have to be {_wanted(atom, near, said, wanted)}; it is {now}"


def _wanted(atom: Atom, near: Near, said: Words, wanted: bool) -> str:
    """Say what a comparison asks for, or its opposite."""
    fact = said.base.facts[near.fact]
    if fact.kind == "number":
        ends = atom.value if isinstance(atom.value, tuple) else (atom.value,)
        numbers = [said.base.assumptions[e.id].value if isinstance(e, Assumed) else e for e in ends]
        texts = [words(float(n), fact.unit, said.system) for n in numbers]  # type: ignore[arg-type]
        return (_NUMBER if wanted else _NOT)[atom.op].format(*texts)
    value = said.base.assumptions[atom.value.id].value if isinstance(atom.value, Assumed) else atom.value
    some = sorted(value) if isinstance(value, frozenset) else [str(value)]
    choice = listed([one.replace("_", " ") for one in some], "or")
    return choice if (atom.op != "is_not") == wanted else f"anything but {choice}"
