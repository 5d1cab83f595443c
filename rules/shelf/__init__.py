"""What a shop has on its shelf: read from a catalogue folder, audited, counted and booked."""

from __future__ import annotations

from rules.shelf.defaults import Assumption
from rules.shelf.faults import NoCatalogue, NoHeads, ShelfFaults, UnknownPart
from rules.shelf.parts import Grip, Hand, Head, Kind, Piece, Port, Shaft
from rules.shelf.reader import DEMO, catalogue_folder, load_shelf
from rules.shelf.shelf import Shelf
from rules.shelf.shop import Calibration, Shop

__all__ = [
    "DEMO",
    "Assumption",
    "Calibration",
    "Grip",
    "Hand",
    "Head",
    "Kind",
    "NoCatalogue",
    "NoHeads",
    "Piece",
    "Port",
    "Shaft",
    "Shelf",
    "ShelfFaults",
    "Shop",
    "UnknownPart",
    "catalogue_folder",
    "load_shelf",
]
