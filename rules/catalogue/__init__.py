"""The demo shop, as data."""
