"""Ball, air, impact, flight, strike and speed: pure functions, SI inside."""
