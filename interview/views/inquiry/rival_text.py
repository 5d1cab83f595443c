"""Why not another: what separates what was picked from a rival, each sentence saying of which it speaks."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from interview.views.outcome_text.quantities import rounded, signed, spelled, trimmed

if TYPE_CHECKING:
    from interview.views.inquiry.asked import Explained
    from interview.views.inquiry.words import Words
    from interview.views.outcome_text.page import Page
    from rules.inquiry.ledgers import Difference, WhyNot, WhyNotAmount

_WORTH = 100
"""A difference of less than a tenth of a point is not worth a customer's time, thousandths."""
_REASONS = 4
"""Reasons a customer is told at most, against the rival; half as many in its favour."""
_NUMBERS = re.compile(r"\d+(?:\.\d+)?(?: \d+/\d+)?(?: ?%| [a-zA-Z]+)?")
"""A number with what it counts."""


def write(of: Explained, it: WhyNot, page: Page, said: Words, teach: bool) -> None:
    """Write what separates the pick from a rival; the differences add up to the margin."""
    page.heading(f"WHY NOT {said.picked(of.decision.id, it.rival)}")
    for line in it.ruled_out:
        page.point(f"It cannot be: {rounded(line.text(of.system))}")
    if said.customer:
        _for_customer(of, it, page, said)
        return
    for one in it.differences:
        below = [one.rule.teaches] if teach and page.once(one.rule.teaches) else []
        page.entry([signed(one.apart / 1000)], _apart(of, one), below)
    more = "" if it.margin >= 0 else ": it has more"
    page.entry([signed(it.margin / 1000)], f"points between them{more}")


def _apart(of: Explained, one: Difference) -> str:
    """Say what a rule gives to either; where only numbers differ, the sentence is said once."""
    texts = [rounded(line.text(of.system)) if line else "" for line in (one.mine, one.other)]
    if not all(texts):
        return f"{'picked' if texts[0] else 'instead'}: {texts[0] or texts[1]} [{one.rule.id}]"
    if texts[0] == texts[1]:
        return f"{texts[0]} [{one.rule.id}]"
    other = numbers_apart(*texts)
    return f"picked: {texts[0]} Instead: {other or texts[1]} [{one.rule.id}]"


def numbers_apart(one: str, other: str) -> str:
    """Return the numbers of a second sentence that differ from the first; empty where words differ too."""
    if _NUMBERS.sub("#", one) != _NUMBERS.sub("#", other):
        return ""
    pairs = zip(_NUMBERS.findall(one), _NUMBERS.findall(other), strict=True)
    return ", ".join(theirs for mine, theirs in pairs if mine != theirs)


def _for_customer(of: Explained, it: WhyNot, page: Page, said: Words) -> None:
    """Tell a customer the few reasons that weigh most, each once and of which pair it speaks."""
    mine, other = _names(of, it, said)
    weighty = [one for one in it.differences if abs(one.apart) >= _WORTH]
    against = [one for one in weighty if one.apart > 0][:_REASONS]
    in_favour = [one for one in weighty if one.apart < 0][: _REASONS // 2]
    for one in against:
        _tell(of, one, (mine, other), page)
    if in_favour:
        page.say(f"What speaks for {other}, and was outweighed:" if it.margin >= 0 else "And yet:", 2)
        for one in in_favour:
            _tell(of, one, (mine, other), page)
    if it.margin < 0:
        page.say(f"By our reckoning {other} would even be the better choice.")
    elif not against and not it.ruled_out:
        page.say("Nothing weighty separates them; it is a close call.")


def _tell(of: Explained, one: Difference, names: tuple[str, str], page: Page) -> None:
    """Tell one difference: a sentence of one pair, and the other pair's number beside it."""
    texts = [spelled(line.text(of.system)) if line else "" for line in (one.mine, one.other)]
    first = 1 if texts[1] else 0
    text, beside = texts[first], texts[1 - first]
    more = numbers_apart(text, beside) if beside else ""
    tail = f" With {names[1 - first]}: {more}." if more else ""
    if page.once(text):
        page.point(f"With {names[first]}: {text[:1].lower()}{text[1:]}{tail}")


def _names(of: Explained, it: WhyNot, said: Words) -> tuple[str, str]:
    """Return what to call the pick and the rival; by the lofts that differ where their names do not."""
    if of.decision.id != "pairing":
        return "this one", "the other"
    mine, other = _short(of, it.pick), _short(of, it.rival)
    if mine != other:
        return mine, other
    ids = (it.pick.split("+"), it.rival.split("+"))
    apart = [[id for id in some if id not in ids[1 - place]] for place, some in enumerate(ids)]
    mine, other = (" and ".join(said.pair(id).removeprefix("a ") for id in some) for some in apart)
    return f"the {mine}", f"the {other}"


def _short(of: Explained, id: str) -> str:
    """Name a pair in few words: `the 5-wood and 4-hybrid`."""
    pair = of.outcome.pairs.get(id) or of.outcome.picked
    if pair is None:
        return "the others"
    both = [
        f"{'your own ' if rung.owned is not None else ''}{rung.label.partition(',')[0]}"
        for rung in (pair.longer, pair.shorter)
    ]
    return f"the {both[0]} and {both[1]}".replace("the your own", "your own")


def write_amount(of: Explained, it: WhyNotAmount, page: Page, said: Words) -> None:
    """Say which lines pull away from another amount."""
    unit = of.decision.unit or ""
    wanted = f"{trimmed(it.wanted / 1000, 3)} {unit}".rstrip()
    page.heading(f"WHY NOT {spelled(wanted) if said.customer else wanted}")
    if not it.limits[0] <= it.wanted <= it.limits[1]:
        page.point("It is outside what is allowed here.")
    if not it.short:
        page.point("It is what was decided.")
    elif not it.against:
        page.point("No rule pulls the other way; it simply starts elsewhere.")
    for lines, way in ((it.against, ""), (it.toward, "toward it: ")):
        for line in lines:
            text = line.text(of.system)
            if said.customer:
                if line.rule is not None and page.once(text):
                    page.point(f"{'In its favour: ' if way else ''}{spelled(text)}")
            else:
                page.entry([signed(line.adjust / 1000)], f"{way}{rounded(text)}")
