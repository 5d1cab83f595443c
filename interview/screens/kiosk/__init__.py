"""The customer's screen: alone with a stranger, and not to be left without the staff's PIN."""
