"""What the kiosk shows: pages of words, tiles to press and pictures that help to answer."""

from __future__ import annotations

from interview.views.kiosk.page import Page, Tile
from interview.views.kiosk.pages import page_of
from interview.views.kiosk.paint import Painted, Spot, painted

__all__ = ["Page", "Painted", "Spot", "Tile", "page_of", "painted"]
