"""What the trainer's screens show, as frozen views and their pictures; nothing here decides anything."""
