"""What a shop has on its shelf: read from a catalogue folder, audited, counted and booked."""
