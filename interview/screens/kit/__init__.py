"""What every screen shares: looks, a pane for pictures, a line to type on, commands, signals and faults."""
