"""What a fitting stands on: the rule base and the shelf, loaded once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rules.engine import load
from rules.engine.document import MOST_BYTES
from rules.paths import read_bounded
from rules.shelf import load_shelf
from rules.shelf.stock import on_hand

if TYPE_CHECKING:
    from rules.engine import RuleBase
    from rules.shelf import Shelf

KNOWLEDGE = Path(__file__).parent / "knowledge"
"""The house's own rule base."""
_MOST_KEPT = 4096
"""Entries kept from one road to the next."""
OF_THE_SHELF = frozenset(("places", "shafts", "built", "part"))
"""Sorts of things kept, as their keys begin, that no rule and no assumption changes."""
OF_CLUBS = ("filled", "rest", "met", "flown")
"""Sorts of things kept of golfers that no rule on pairs changes."""
OF_ROADS = (*OF_CLUBS, "words", "road")
"""All sorts of things kept of golfers."""
_MOST_RECENT = 64
"""Golfers of whom things of one sort are kept."""


@dataclass(frozen=True, slots=True)
class House:
    """A rule base and a shelf."""

    base: RuleBase
    shelf: Shelf

    kept: dict[tuple[object, ...], Any] = field(default_factory=dict, init=False, repr=False, compare=False)
    """What is the same for every golfer, kept from one road to the next."""
    recent: dict[str, dict[tuple[object, ...], dict[Any, Any]]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    """What the latest golfers have in common, by sort, the latest last."""

    def __reduce__(self) -> tuple[type[House], tuple[RuleBase, Shelf]]:
        """Pickle what it stands on, and nothing that is kept; the shelf goes without its digest."""
        return House, (self.base, replace(self.shelf, stamp=str))

    def once(self, key: tuple[object, ...], make: Callable[[], Any]) -> Any:
        """Return what is kept under a key, made at the first asking; all goes when it grows large."""
        found = self.kept.get(key)
        if found is None:
            if len(self.kept) >= _MOST_KEPT:
                self.kept.clear()
            found = self.kept[key] = make()
        return found

    def lately(self, sort: str, key: tuple[object, ...], most: int = _MOST_RECENT) -> dict[Any, Any]:
        """Return a place to keep things of a sort under a key; of each sort those used last stay."""
        places = self.recent.setdefault(sort, {})
        found = places.pop(key, {})
        for old in list(places)[: 1 - most]:
            places.pop(old, None)
        places[key] = found
        return found

    def with_base(self, base: RuleBase) -> House:
        """Return the house with another rule base of the same facts; what its shelf alone decides is kept."""
        house = House(base, self.shelf)
        house.kept.update({key: found for key, found in self.kept.items() if key[0] in OF_THE_SHELF})
        return house

    def apart(self) -> House:
        """Return the same house for a thread of its own: it begins with what is kept here."""
        return self._begun(self.base, tuple(self.recent))

    def making_alike(self, base: RuleBase, alike: Sequence[str]) -> House:
        """Return the house with a rule base that makes the same of the golfers that this one has served.

        `alike` names the sorts of things that it makes the same: what is kept of them comes along.
        """
        return self._begun(base, alike)

    def _begun(self, base: RuleBase, sorts: Sequence[str]) -> House:
        """Return a house that begins with what is kept here, of golfers with some sorts of it."""
        house = House(base, self.shelf)
        house.kept.update(self.kept)
        for sort in sorts:
            places = self.recent.get(sort, {})
            house.recent[sort] = {key: dict(found) for key, found in list(places.items())}
        return house

    def with_shelf(self, shelf: Shelf) -> House:
        """Return the house with another shelf."""
        return House(self.base, shelf)

    @property
    def digest(self) -> str:
        """Hex digest of what the rule base means, whatever the order of its files; stock does not count."""
        return self.base.digest

    def for_session(self, session: str) -> House:
        """Return the house with what other sessions have booked taken off the shelf."""
        left = on_hand(self.shelf, session)
        return self if left is self.shelf else self.with_shelf(left)


@lru_cache(maxsize=4)
def load_house(rules: Path | None = None, catalogue: Path | None = None) -> House:
    """Load the house's rules and the demo shop, or a shop's own.

    `rules` is a folder laid over the house's own rules (add, replace by id, switch off), or a whole rule
    base when it declares its own scopes. Raises the loaders' problems, every fault named.
    """
    return House(_rules(rules), load_shelf(catalogue))


def _rules(folder: Path | None) -> RuleBase:
    """Load the house's rules with an overlay, or a whole rule base."""
    if folder is None:
        return load(KNOWLEDGE)
    overlays: Sequence[Path] = () if is_whole(folder) else (folder,)
    return load(KNOWLEDGE, overlays) if overlays else load(folder)


def is_whole(folder: Path) -> bool:
    """Say whether a folder is a whole rule base (its base.toml declares scopes) and not an overlay."""
    try:
        return b"scopes" in read_bounded(folder / "base.toml", MOST_BYTES)
    except OSError:
        return False
