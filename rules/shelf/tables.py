"""The keys of each catalogue table, their units and the bounds outside which a value cannot be.

Bounds are wide: they catch a slipped decimal or a wrong unit, not a bold design (house values).
"""

from __future__ import annotations

from rules.shelf.values import Field, count, face, label, name, names, quantity, text, trims, word, yes_no

HEAD = (
    Field("id", name, required=True),
    Field("label", label),
    Field("kind", word("fairway", "hybrid"), required=True),
    Field("hand", word("right", "left"), required=True),
    Field("loft", quantity("deg", "8 deg", "40 deg"), required=True),
    Field("lie", quantity("deg", "45 deg", "70 deg")),
    Field("face_angle", face),
    Field("mass", quantity("g", "150 g", "320 g")),
    Field("face_height", quantity("mm", "20 mm", "60 mm")),
    Field("cg_up_face", quantity("mm", "5 mm", "45 mm")),
    Field("cg_depth", quantity("mm", "0 mm", "50 mm")),
    Field("cg_toward_toe", quantity("mm", "5 mm", "60 mm")),
    Field("moi_heel_toe", quantity("g*cm2", "500 g*cm2", "6500 g*cm2")),
    Field("moi_vertical", quantity("g*cm2", "300 g*cm2", "5000 g*cm2")),
    Field("restitution", quantity("", "0.6", "0.86")),
    Field("hosel_length", quantity("in", "1 in", "4 in")),
    Field("bore", quantity("in", "0.3 in", "0.4 in")),
    Field("insertion", quantity("in", "0.5 in", "2 in")),
    Field("sole_width", quantity("mm", "10 mm", "90 mm")),
    Field("sole_camber", quantity("mm", "0 mm", "20 mm")),
    Field("offset", quantity("mm", "-5 mm", "12 mm")),
    Field("loft_tolerance", quantity("deg", "0 deg", "4 deg")),
    Field("mass_tolerance", quantity("g", "0 g", "15 g")),
    Field("count", count),
)
"""Keys of a [[head]], its ports apart."""

PORT = (
    Field("name", name, required=True),
    Field("capacity", quantity("g", "0 g", "60 g"), required=True),
    Field("toeward", quantity("mm", "-80 mm", "80 mm")),
    Field("upward", quantity("mm", "-60 mm", "60 mm")),
    Field("backward", quantity("mm", "-60 mm", "90 mm")),
)
"""Keys of one of a head's ports."""

SHAFT = (
    Field("id", name, required=True),
    Field("label", label),
    Field("for", word("fairway", "hybrid"), required=True, attribute="made_for"),
    Field("mass", quantity("g", "30 g", "140 g")),
    Field("raw_length", quantity("in", "34 in", "50 in")),
    Field("balance", quantity("%", "35 %", "65 %")),
    Field("tip", quantity("in", "0.3 in", "0.4 in")),
    Field("taper", yes_no),
    Field("parallel_tip", quantity("in", "0 in", "15 in")),
    Field("flex", word("L", "A", "R", "S", "X"), required=True),
    Field("trim", trims),
    Field("bore_note", text),
    Field("mass_tolerance", quantity("g", "0 g", "10 g")),
    Field("count", count),
)
"""Keys of a [[shaft]]."""

GRIP = (
    Field("id", name, required=True),
    Field("label", label),
    Field("mass", quantity("g", "15 g", "90 g")),
    Field("length", quantity("in", "8 in", "14 in")),
    Field("balance", quantity("in", "2 in", "7 in")),
    Field("core", quantity("in", "0.5 in", "0.7 in")),
    Field("size", word("undersize", "standard", "midsize", "oversize"), required=True),
    Field("count", count),
)
"""Keys of a [[grip]]."""

PIECE = (
    Field("mass", quantity("g", "0.1 g", "30 g"), required=True),
    Field("count", count),
    Field("fits", names),
)
"""Keys of a [[piece]]."""

SHOP = (
    Field("name", label, required=True),
    Field("units", word("imperial", "metric")),
    Field("glue_bench_temperature", quantity("degF", "32 degF", "120 degF")),
    Field("swing_weight_tolerance", quantity("points", "0 points", "3 points")),
)
"""Keys of shop.toml, its calibration apart."""

CALIBRATION = (
    Field("setback", quantity("in", "-1 in", "3 in")),
    Field("glue_and_ferrule", quantity("g", "0 g", "15 g")),
    Field("ruler_offset", quantity("in", "-1/2 in", "1/2 in")),
    Field("learned_from", text),
)
"""Keys of shop.toml's [calibration]."""

PARTS = {"head": HEAD, "shaft": SHAFT, "grip": GRIP, "piece": PIECE}
"""The tables of a catalogue, by the name of their arrays."""
FILES = {"heads.toml": "head", "shafts.toml": "shaft", "grips.toml": "grip", "pieces.toml": "piece"}
"""Which file holds which parts."""
SHOP_FILE = "shop.toml"
"""The file of the shop's own settings and calibration."""
BOOKINGS_FILE = "bookings.toml"
"""The file of what is promised to sessions; kept by the program."""
DEFAULTS_FILE = "defaults.toml"
"""The file of what stands in for measures left out."""
MOST_PARTS = 2000
"""Most parts of one sort believed in one catalogue."""
MOST_PORTS = 8
"""Most ports believed in one head."""
