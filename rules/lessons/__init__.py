"""Lessons: predictions marked by the ledger, exercises, maps and edits, all made from rules and cases."""
