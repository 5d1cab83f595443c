"""What can be done in the bay: the one list that keys, help and the list of orders are made from."""

from __future__ import annotations

from interview.screens.kit.orders import Order

BAY = (
    Order("bay.help", "f1", "help", "help", "Shows every key and what it does.", shown=True),
    Order("bay.unknown", "f2", "unknown", "don't know", "Closes the question: he does not know.", shown=True),
    Order("bay.skip", "f3", "skip", "skip", "Passes the question over; it stays open.", shown=True),
    Order("bay.map", "f4", "map", "questions", "Shows every question; one more key goes to one.", shown=True),
    Order("bay.standing", "f5", "side('standing')", "standing", "Shows how the candidates stand."),
    Order("bay.parts", "f6", "side('parts')", "decisions", "Shows what is decided of each club."),
    Order("bay.pictures", "f7", "side('pictures')", "pictures", "Shows the next picture."),
    Order("bay.why", "f8", "why", "why", "Gives the reasons of what is looked at.", shown=True),
    Order("bay.sessions", "f9", "sessions", "sessions", "Begins, finds, resumes or copies a session."),
    Order(
        "bay.orders",
        "f10",
        "orders",
        "all orders",
        "Lists everything that can be done; type to find it.",
        shown=True,
    ),
    Order("bay.back", "escape", "home", "back to the line", "Goes back to the line you type on."),
)
"""The orders of the bay, by key."""
