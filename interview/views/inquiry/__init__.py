"""What inquiries found, as text in three voices and as plain data."""
