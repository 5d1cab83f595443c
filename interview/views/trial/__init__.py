"""A trial for everything that shows it: text in three voices, JSON, and what a single ball changes."""
