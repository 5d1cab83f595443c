"""Turfpair decides: the engine, the golf computations, the bench and the knowledge."""

DISTRIBUTION = "turfpair"
"""Whose package this is: another distribution also installs a package called `rules`."""
