"""The outcome on three pages: the two clubs, what to try in the bay, what to mind before anybody swings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from interview.views.kiosk.carries import carries
from interview.views.kiosk.page import Page, Tile
from interview.views.outcome import outcome_view
from interview.views.outcome_text.quantities import degrees, distance, in_ten, spelled, spoken_length

if TYPE_CHECKING:
    from interview.conversation import State
    from interview.kiosk.visit import Visit
    from interview.views.club import ClubView
    from interview.views.kiosk.words import Say
    from interview.views.notices import NoticeView
    from interview.views.outcome import OutcomeView

_TRIES, _MINDS = 4, 2
"""Steps to try, and cautions of one topic, told at most; the fitter and the sheets tell all."""
_SAFETY = ("bay", "rules_of_golf", "fit")
"""Topics of cautions that a golfer hears before the bay; what can hurt comes first."""


def outcome_page(visit: Visit, say: Say) -> Page:
    """Return the page of the outcome that a visit has come to."""
    state = cast("State", visit.state)
    view = outcome_view(state.outcome, state.session.units)
    if visit.place == "nothing" or not view.clubs:
        return _page(say("clubs.nothing"), ["", say("clubs.nothing_text"), ""], say)
    if visit.place == "tries":
        steps = [_plainly(f"tries.{_key(one)}", one, say) for one in view.proofs[:_TRIES]]
        steps = [f"{at}. {step}" for at, step in enumerate(steps, 1)]
        return _page(say("tries.heading"), ["", *steps, "", _lofts(view, say)], say)
    if visit.place == "mind":
        return _page(say("mind.heading"), ["", *_minds(view, say), ""], say)
    return _clubs(view, say)


def _plainly(key: str, one: NoticeView, say: Say) -> str:
    """Return a step or a caution in words that need no trade; one that a shop added itself keeps its own."""
    return say(key) if say.has(key) else spelled(one.text)


def _key(one: NoticeView) -> str:
    """Return what a rule is called among the words of the kiosk."""
    return one.rule.replace("-", "_")


def _page(heading: str, texts: list[str], say: Say) -> Page:
    """Return a page to read and turn."""
    return Page(
        heading=heading,
        text=tuple(texts),
        tiles=(Tile("next", say("clubs.next"), "1"),),
        foot=(Tile("back", say("ask.back"), "B"), Tile("over", say("ask.over"), "S")),
        above=say("brand"),
        progress=say("progress.ending"),
        share=1.0,
    )


def _clubs(view: OutcomeView, say: Say) -> Page:
    """Return the two clubs in a sentence each, what speaks for them or outweighs them, and a picture."""
    longer, shorter = view.clubs
    said = [_sentence("clubs.one", longer, view, say), _sentence("clubs.other", shorter, view, say)]
    said.append(_outweighs(view, say) or _because(view, say))
    page = _page(say("clubs.heading"), [*said, say("clubs.start")], say)
    return replace(page, caption=say("clubs.carries"), bars=carries(view, say, view.system))


def _lofts(view: OutcomeView, say: Say) -> str:
    """Return which lofts to ask for, since names of clubs mean little."""
    longer, shorter = view.clubs
    return say("clubs.lofts", longer=degrees(longer.loft), shorter=degrees(shorter.loft))


def _outweighs(view: OutcomeView, say: Say) -> str:
    """Return what matters more than any new club, in words that need no trade; nothing where nothing does."""
    bag = next((one for one in view.cautions if one.topic == "bag"), None)
    if bag is None:
        return ""
    key = f"outweighs.{bag.rule.replace('-', '_')}"
    return say(key) if say.has(key) else spelled(bag.text)


def _sentence(key: str, club: ClubView, view: OutcomeView, say: Say) -> str:
    """Return one club in one sentence that needs no knowledge of clubs."""
    name = club.label if club.owned is None else say("clubs.own", club=club.label)
    return say(
        key,
        club=name,
        feature=say("clubs.same" if _repeats(club, view) else f"clubs.{club.kind}"),
        length=spoken_length(club.length, view.system),
        carry=distance(club.flown.centred, view.system, about=True),
    )


def _repeats(club: ClubView, view: OutcomeView) -> bool:
    """Return whether the club before was of the same kind, so that it need not be described again."""
    longer = view.clubs[0]
    return club is not longer and club.kind == longer.kind


def _because(view: OutcomeView, say: Say) -> str:
    """Return the weightiest reason that spoke for the pair, from the trace, in words that need no trade."""
    spoke = [line for line in view.decisions["pairing"].because if line.spoken and (line.points or 0) > 0]
    if not spoke:
        return say("clubs.because_none")
    best = max(spoke, key=lambda line: line.weight)
    key = f"reasons.{best.rule.replace('-', '_')}"
    if say.has(key):
        longer, shorter = (in_ten(club.flown.usable) for club in view.clubs)
        return say("clubs.because", reason=say(key, longer=longer, shorter=shorter))
    return say("clubs.because", reason=spelled(best.text[:1].lower() + best.text[1:]))


def _minds(view: OutcomeView, say: Say) -> list[str]:
    """Return what to mind, what can hurt first."""
    texts = [text for topic in _SAFETY for text in _told(view, topic, say)[:_MINDS]]
    return [*texts, say("mind.pain"), say("mind.first"), say("clubs.start")]


def _told(view: OutcomeView, topic: str, say: Say) -> list[str]:
    """Return the cautions of a topic, each once."""
    of_topic = (one for one in view.cautions if one.topic == topic)
    return list(dict.fromkeys(_plainly(f"mind.of.{_key(one)}", one, say) for one in of_topic))
