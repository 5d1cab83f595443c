"""A sheet as one self-contained page: no file beside it, every word escaped, its pictures inline.

The template library is imported here and nowhere else, so that whoever prints no page does not load it.
"""

from __future__ import annotations

from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from interview.broken import tied
from interview.sheets.one_page import golfer_height, smallest_needed, workshop_height
from interview.sheets.pictures.beam import beam
from interview.sheets.pictures.face import face
from interview.sheets.pictures.head import head
from interview.sheets.pictures.ladder import ladder

if TYPE_CHECKING:
    from interview.sheets.golfer import GolferSheet
    from interview.sheets.workshop import WorkshopSheet
    from interview.views.build import BuildView
    from rules.units import System

_TEMPLATES = Path(__file__).parent / "templates"


@cache
def _environment() -> Environment:
    """Return the templates: everything is escaped, and a name that is missing is an error."""
    return Environment(
        loader=FileSystemLoader(_TEMPLATES, encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_set,
    )


def _set(value: object) -> object:
    """Return what a page is given as it is set: quantities whole; a picture and a made part as they are."""
    return tied(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def golfer_page(sheet: GolferSheet) -> str:
    """Return the golfer's sheet as a page."""
    drawn = ladder(sheet)
    faces = [face(view, label).svg for view, label in zip(sheet.faces, sheet.labels, strict=True)]
    return _environment().get_template("golfer.html").render(
        sheet=sheet,
        size=smallest_needed(partial(golfer_height, sheet)),
        ladder=drawn.svg if drawn else None,
        faces=faces,
        marks=any(view.marks for view in sheet.faces),
    )  # fmt: skip


def workshop_page(sheet: WorkshopSheet, build: BuildView, system: System) -> str:
    """Return the workshop's sheet as a page."""
    heads = [head(club.parts).svg if club.parts else None for club in build.clubs]
    beams = [beam(club.parts, club.view.length, system).svg if club.parts else None for club in build.clubs]
    size = smallest_needed(partial(workshop_height, sheet))
    return (
        _environment().get_template("workshop.html").render(sheet=sheet, size=size, heads=heads, beams=beams)
    )
