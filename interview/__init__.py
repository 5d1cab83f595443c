"""Turfpair talks with people: the interview, the screens, the sheets and the commands."""
