"""Lessons line by line, in plain text: for screen readers, dumb terminals and pipes."""
