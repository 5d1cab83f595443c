"""The kiosk without a screen: one visit after another, the staff's PIN, the idle clock and the ticket."""
