"""Balls off turf as evidence: the protocol, statistics that a golfer can follow, and belief beside balls."""
