"""Frozen view models: what screens, sheets, the line-by-line interview and JSON all render."""
