"""One registry of what can be done: each order once, with its key, its words and its place.

Bindings, the line of keys, the help and the list of all orders are made from it and from nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from textual.binding import Binding, BindingType

SHOWN = 6
"""At most so many orders stand in the line of keys."""


@dataclass(frozen=True, slots=True)
class Order:
    """Something that a person can tell the program to do."""

    id: str
    """By which a key can be put elsewhere; begins with its screen's name."""
    key: str
    """The key or keys, as the toolkit names them; empty for one that only the list has."""
    action: str
    """The action that does it."""
    label: str
    """In a word or two."""
    help: str
    """In one sentence."""
    shown: bool = False
    """Whether it stands in the line of keys."""
    listed: bool = True
    """Whether it stands in the list of all orders."""

    @property
    def key_name(self) -> str:
        """Return its first key as it is printed on a keyboard."""
        first = self.key.split(",")[0]
        if first.startswith("f") and first[1:].isdigit():
            return first.upper()
        return {"escape": "Esc", "delete": "Del"}.get(first, first.capitalize())


def bindings(orders: Iterable[Order], *, priority: bool = False) -> list[BindingType]:
    """Return the bindings of the orders that have a key."""
    return [
        Binding(
            one.key, one.action, one.label, show=one.shown, id=one.id, tooltip=one.help, priority=priority
        )
        for one in orders
        if one.key
    ]


def shown(orders: Sequence[Order]) -> tuple[Order, ...]:
    """Return the orders that stand in the line of keys."""
    return tuple(one for one in orders if one.shown)[:SHOWN]


def found(orders: Sequence[Order], text: str) -> tuple[Order, ...]:
    """Return the listed orders in whose words every typed word begins one."""
    wanted = text.casefold().split()
    return tuple(
        one
        for one in orders
        if one.listed and all(any(w.startswith(part) for w in _words(one)) for part in wanted)
    )


def _words(one: Order) -> list[str]:
    """Return the words that an order is found by."""
    return f"{one.label} {one.help} {one.key_name}".casefold().split()
