"""Every sentence of the interview and the screens."""
