"""The map of the rule base: a fact, what follows from it, the rules that read it, and what they decide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.views.pictures.ink import Ink, Picture, Row, between, cells, clipped, padded, row, wrapped
from interview.views.trainer.said import blocks, cases_words, headed, said, told

if TYPE_CHECKING:
    from interview.views.pictures.glyphs import Glyphs


@dataclass(frozen=True, slots=True)
class ChartLine:
    """One fact of the list."""

    id: str
    title: str
    rules: int
    """Rules that read it, or what follows from it."""
    decisions: tuple[str, ...] = ()
    """Titles of the decisions that it reaches."""


@dataclass(frozen=True, slots=True)
class ReaderLine:
    """One rule that reads a fact."""

    rule: str
    """Its id."""
    does: str
    """What it gives, in a few words."""
    through: str = ""
    """Title of the fact that it reads instead; empty where it reads this one itself."""


@dataclass(frozen=True, slots=True)
class InfluenceLine:
    """What changing the fact does in one case."""

    title: str
    flips: bool
    """Whether some value of it gives another pair."""
    moved: str
    """What else it moves, in a few words; empty where nothing."""
    points: int
    """The most that it moves between pick and runner-up, thousandths."""


@dataclass(frozen=True, slots=True)
class InfluenceView:
    """What a fact can do over all cases."""

    done: int
    of: int
    cases: tuple[InfluenceLine, ...] = ()
    summary: tuple[str, ...] = ()
    """What all of it comes to, a sentence each; empty while it is being worked out."""


@dataclass(frozen=True, slots=True)
class FactView:
    """One fact and all that hangs on it."""

    title: str
    text: str
    follows: tuple[str, ...]
    """Titles of the facts that follow from it."""
    groups: tuple[tuple[str, tuple[ReaderLine, ...]], ...]
    """Title of a decision with the rules that carry the fact into it."""
    influence: InfluenceView | None = None


def chart_rows(lines: tuple[ChartLine, ...], width: int, glyphs: Glyphs) -> Picture:
    """Return the list of facts: how many rules read each, and what it reaches."""
    if not lines:
        return wrapped(said("chart.nothing_found"), width, "dim")
    most = max(1, *(line.rules for line in lines))
    return tuple(_line(one, most, width, glyphs) for one in lines)


def _line(one: ChartLine, most: int, width: int, glyphs: Glyphs) -> Row:
    """Return one fact: its title, a bar of its rules, and how many."""
    bar = min(12, max(0, width - 34))
    filled = padded(glyphs.bar_for * max(1 if one.rules else 0, round(bar * one.rules / most)), bar)
    title = padded(one.title, max(4, width - bar - 5))
    return row(
        Ink(title, "strong"), Ink(f" {filled}", "for"), Ink(padded(f"{one.rules}", 4, right=True)),
        target=one.id,
    )  # fmt: skip


def fact_rows(view: FactView, width: int, glyphs: Glyphs) -> Picture:
    """Return a fact and all that hangs on it, from the facts over the rules to the decisions."""
    top = (row(Ink(clipped(view.title, width), "head")), *wrapped(view.text, width, "dim"))
    if not view.groups:
        return blocks((top, wrapped(said("chart.idle"), width, "dim")))
    influence = () if view.influence is None else influence_rows(view.influence, width)
    parts = [top, influence, headed(said("chart.reaches"), _reached(view, width, glyphs), width)]
    if view.follows:
        parts.append(headed(said("chart.follows"), wrapped(", ".join(view.follows), width), width))
    for decision, readers in view.groups:
        body = tuple(line for one in readers for line in _reader(one, width, glyphs))
        parts.append((row(Ink(clipped(f"{glyphs.arrow} {decision}", width), "pick")), *body))
    cases = view.influence.cases if view.influence is not None else ()
    most = max((one.points for one in cases), default=1) or 1
    body = tuple(_case(one, most, width, glyphs) for one in cases)
    return blocks((*parts, headed(said("chart.case_by_case"), body, width)))


def _reached(view: FactView, width: int, glyphs: Glyphs) -> Picture:
    """Return the decisions that a fact reaches, each with a bar of its rules."""
    most = max(len(readers) for _, readers in view.groups)
    bar = min(12, max(0, width - 30))
    rows = []
    for decision, readers in view.groups:
        filled = padded(glyphs.bar_for * max(1, round(bar * len(readers) / most)), bar)
        title = padded(f"{glyphs.arrow} {decision}", max(4, width - bar - 5))
        count = padded(f"{len(readers)}", 4, right=True)
        rows.append(row(Ink(title), Ink(f" {filled}", "for"), Ink(count)))
    return tuple(rows)


def _reader(one: ReaderLine, width: int, glyphs: Glyphs) -> Picture:
    """Return one rule, what it gives, and through which fact."""
    head = between((Ink("  "), Ink(one.rule)), (Ink(f" {one.does}", "strong"),), width, target=one.rule)
    through = said("chart.through", fact=one.through) if one.through else ""
    more = wrapped(through, max(1, width - 4), "ghost") if through else ()
    return (head, *(row("    ", *ink.inks, target=one.rule) for ink in more))


def influence_rows(view: InfluenceView, width: int) -> Picture:
    """Return in words what a fact does over all cases."""
    if view.done < view.of:
        return wrapped(said("chart.working", done=view.done, of=view.of), width, "dim")
    texts = tuple(one for text in view.summary for one in wrapped(text, width))
    return headed(said("chart.influence", cases=cases_words(view.of)).upper(), texts, width)


def _case(one: InfluenceLine, most: int, width: int, glyphs: Glyphs) -> Row:
    """Return one case: whether the pair flips, and how far it moves."""
    bar = 10 if width >= 56 else 0
    filled = padded(glyphs.bar_for * max(1 if one.points else 0, round(bar * one.points / most)), bar)
    sign = Ink(f"{glyphs.leads if one.flips else glyphs.needless} ", "pick" if one.flips else "dim")
    word = said("chart.flips") if one.flips else one.moved or said("chart.still")
    room = max(4, width - 2 - bar - 2 - max(cells(said("chart.flips")), width // 3))
    tail = clipped(word, max(1, width - 2 - room - bar - 2))
    return row(sign, Ink(padded(one.title, room)), Ink(f" {filled}", "for"), Ink(f" {tail}", "dim"))


def replay_rows(
    title: str, lines: tuple[tuple[str, str, str], ...] | None, done: int, of: int, width: int, glyphs: Glyphs
) -> Picture:
    """Return which cases come out otherwise, each with what it was and is; None while that is open."""
    if lines is None:
        return headed(title, wrapped(said("edit.replaying", done=done, of=of), width, "dim"), width)
    count = said("edit.moved", count=len(lines), of=of)
    rows: list[Row] = list(wrapped(count, width, "alert" if lines else "for"))
    for case, before, after in lines:
        text = f"{before} {glyphs.arrow} {after}"
        if cells(case) + 2 + cells(text) <= width:
            rows.append(row(Ink(f"{case}  ", "strong"), Ink(text)))
        else:
            rows += [row(Ink(clipped(case, width), "strong")), *told("", text, width, title_width=2)]
    return headed(title, tuple(rows), width)
