"""Places on the golfer's ladder of distances: from the shelf or the bag, decided, then flown."""
