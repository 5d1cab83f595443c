"""Pictures on paper: inline SVG in millimetres, black on white, every word in them escaped."""
