"""Turfpair decides: the engine, the golf computations, the bench and the knowledge."""
