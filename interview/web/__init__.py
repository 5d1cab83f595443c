"""The kiosk in a browser: one page of our own, served on this machine, and one process for each browser."""
