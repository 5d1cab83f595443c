"""Statistics of trial shots."""
