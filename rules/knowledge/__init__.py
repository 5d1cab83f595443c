"""What the house knows, as data."""
