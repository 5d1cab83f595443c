"""The bench: balance, shortening, ports, tip and bore, loft: pure functions, SI inside."""
