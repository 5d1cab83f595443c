"""Pictures in plain cells: pure functions from frozen views to rows of text, for any width."""

from __future__ import annotations

from interview.views.pictures.glyphs import FULL, PLAIN, Glyphs, seven_bit
from interview.views.pictures.ink import Ink, Picture, Role, Row, plain

__all__ = ["FULL", "PLAIN", "Glyphs", "Ink", "Picture", "Role", "Row", "plain", "seven_bit"]
