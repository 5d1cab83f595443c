"""Frozen view models: what screens, plain text, sheets and JSON all render."""
