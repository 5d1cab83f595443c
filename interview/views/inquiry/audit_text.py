"""The audit trail in three voices: what changed since a session was last run, and what that changes."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from interview.session.record import SECTIONS
from interview.views.inquiry.words import listed
from interview.views.outcome_text.quantities import signed, spoken_length, trimmed
from rules.engine.ledger import Amount
from rules.inquiry.blame import NO_RULES
from rules.inquiry.ledgers import ledger
from rules.units import UnitError, parse, unit

if TYPE_CHECKING:
    from interview.views.inquiry.audit import Audit, ByRules
    from interview.views.inquiry.words import Words
    from interview.views.outcome_text.page import Page
    from rules.inquiry.audit import Moved, Said
    from rules.inquiry.blame import Blame

_SECTIONS = dict(
    zip(
        SECTIONS,
        ("answers", "clubs of the golfer's own", "clubs tried", "balls", "readings", "what the fitter set"),
        strict=True,
    )
)
"""What each section of a session holds, as a person calls it."""
_RULES = 3
"""Rules named at most for one decision."""
_PLAIN = re.compile(r"-?\d")


def write(of: Audit, decision: str, page: Page, said: Words) -> None:
    """Write what changed since, and what that changes; nothing where nothing did or nothing was run."""
    same = not (of.rules or of.catalogue or of.sections or of.moved)
    if same and (of.by_rules is None or said.customer):
        return
    if said.customer:
        _for_customer(of, page, said)
    else:
        page.say(" ".join(_what_changed(of)))
        _for_trade(of, decision, page, said)
    page.gap()


def _for_customer(of: Audit, page: Page, said: Words) -> None:
    """Tell a customer whether it is still the pair that was told then."""
    what = "rules" if of.rules else "stock" if of.catalogue else ""
    first = f"Our {what} changed since we last looked" if what else "We know more than when we last looked"
    if not of.noted:
        page.say(f"{first}; what we told you then was not written down. What follows is how it stands now.")
        return
    pair = next((one for one in of.moved if one.decision == "pairing"), None)
    if pair is not None and pair.before is not None:
        page.say(f"{first}. Then your two clubs were {said.pair(pair.before)}; now they are others.")
    elif pair is not None:
        page.say(f"{first}. Then there was no pair for you; now there is one.")
    elif of.moved:
        page.say(f"{first}. It is still the same two clubs, built a little differently{_lengths(of, said)}.")
    else:
        page.say(f"{first}. It changes nothing about your two clubs.")


def _lengths(of: Audit, said: Words) -> str:
    """Say for a customer which lengths are others."""
    told = [
        f"the {one.decision.partition('.')[0]} one would be {_long(one.after, said)} long where it was "
        f"{_long(one.before, said)}"
        for one in of.moved
        if one.decision.endswith(".length") and one.before and one.after
    ]
    return f"; {listed(told)}" if told else ""


def _long(text: str, said: Words) -> str:
    """Write a length that was kept as a golfer says it; as it stands where it cannot be read."""
    try:
        return spoken_length(parse(text, unit("in")), said.system)
    except UnitError:
        return text


def _what_changed(of: Audit) -> list[str]:
    """Say for the trade what is otherwise since the last run."""
    found = []
    if of.rules:
        found.append(
            f"The rules have changed since this session was last run (then {of.record.rules_digest[:12]}, "
            f"now {of.now[:12]})."
        )
    if of.catalogue:
        found.append("The catalogue or its stock has changed since then." if of.rules else
                     "The catalogue or its stock has changed since this session was last run.")  # fmt: skip
    if of.sections:
        names = listed([_SECTIONS[name] for name in of.sections])
        since = "then" if of.rules or of.catalogue else "it was last run"
        found.append(f"The session itself has changed since {since}: {names}.")
    if not found and of.noted:
        found.append("Rules, catalogue and session are those of the last run.")
    return found


def _for_trade(of: Audit, decision: str, page: Page, said: Words) -> None:
    """Say for the trade what comes out otherwise, and because of what."""
    if of.noted:
        _noted(of, decision, page, said)
    elif of.by_rules is None:
        page.say(
            "What was decided then was not written down, so what that changes cannot be told from here; "
            "with the rules of then in a folder, --before FOLDER tells it."
        )
    if of.by_rules is not None and not (of.noted and of.rules_alone and of.same_rules):
        _alone(of, decision, page, said)


def _noted(of: Audit, decision: str, page: Page, said: Words) -> None:
    """Write what comes out otherwise than it was noted."""
    some = [one for one in of.moved if decision in ("pairing", one.decision)]
    if not some:
        page.say("It changes nothing here: all is decided as it was.")
        if decision == "pairing" and of.pair:
            page.say(f"Of the pair's own ledger: {_speaking(of.pair, said)}.", 2)
        return
    page.say(f"What comes out otherwise{'' if of.rules_alone else ', all of this together'}:")
    for one in some:
        page.point(f"{said.decision(one.decision)}: {_then_and_now(one, said)}{_why(of, one, said)}")
    if any(one.decision == "pairing" for one in some) and of.by_rules is None:
        page.say(
            "What the pair of now would have had then was not written down; with the rules of then in a "
            "folder, --before FOLDER tells which rules lifted it.",
            2,
        )


def _then_and_now(one: Moved, said: Words) -> str:
    return f"{_kept(one.decision, one.before, said)} -> {_kept(one.decision, one.after, said)}"


def _kept(decision: str, text: str | None, said: Words) -> str:
    """Write what was kept of a decision: an amount as it stands, a candidate by its name."""
    if text is None:
        return "nothing decided"
    return text if _PLAIN.match(text) else said.picked(decision, text)


def _why(of: Audit, one: Moved, said: Words) -> str:
    """Say because of which rules: by both rule bases where they are at hand, else by what was noted."""
    if of.by_rules is None or not (of.rules_alone and of.same_rules):
        return _speak(one, said)
    return next((_because(rules) for rules in of.by_rules if rules.decision == one.decision), "")


def _because(one: ByRules) -> str:
    """Name the rules that changed a decision; start, limit and rounding only where no rule did."""
    rules = [blame for blame in one.because if blame.rule not in NO_RULES] or one.because
    why = listed([_blame(blame) for blame in rules[:_RULES]])
    return f", because of {why}" if why else ", because there is another choice"


def _speak(one: Moved, said: Words) -> str:
    """Say which rules speak otherwise of what was decided then."""
    if one.gone and one.after is not None:
        return "; what was decided then cannot be chosen any more"
    if not one.rules:
        return ""
    return f"; for {'the pair of then' if one.decision == 'pairing' else 'it'} {_speaking(one.rules, said)}"


def _speaking(rules: tuple[Said, ...], said: Words) -> str:
    """Say what the rules that weigh most gave then and give now."""
    some = [one for one in rules if one.rule not in NO_RULES] or rules
    return listed([_rule(rule, said) for rule in some[:_RULES]])


def _rule(rule: Said, said: Words) -> str:
    """Say what one rule gave then and gives now."""
    if rule.then is None:
        return f"{rule.rule} now speaks ({signed(rule.now or 0.0)})"
    if rule.now is None:
        there = rule.rule in said.base.rules or rule.rule in NO_RULES
        gone = "no longer speaks" if there else "is no longer among the rules"
        return f"{rule.rule} {gone} (it gave {signed(rule.then)})"
    return f"{rule.rule} gives {signed(rule.now)} where it gave {signed(rule.then)}"


def _alone(of: Audit, decision: str, page: Page, said: Words) -> None:
    """Say what the rules alone change, the answers and the shelf of now being the same on both sides."""
    if not of.same_rules and of.record.rules_digest:
        page.say("The rules that --before names are not those that ran then.")
    some = [one for one in of.by_rules or () if decision in ("pairing", one.decision)]
    if not some:
        page.say("The rules alone change nothing: by either, today's session comes out the same.")
        return
    page.say("By the rules alone, on the session and the catalogue of now:")
    for one in some:
        old, new = (_picked(one, pick, said) for pick in (one.before, one.after))
        page.point(f"{said.decision(one.decision)}: {old} -> {new}{_because(one)}")


def _blame(one: Blame) -> str:
    return f"{one.rule} (forbids)" if one.points is None else f"{one.rule} ({signed(one.points / 1000)})"


def _picked(one: ByRules, pick: str | int | None, said: Words) -> str:
    """Write what a decision comes to; an amount in its own unit."""
    if isinstance(pick, int):
        found = ledger(said.outcome, one.decision)
        unit = found.decision.unit if isinstance(found, Amount) else ""
        return f"{trimmed(pick / 1000, 3)} {unit}".rstrip()
    return "nothing decided" if pick is None else said.picked(one.decision, pick)
