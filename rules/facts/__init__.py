"""From what was said or measured to facts with a best value, a spread and an origin."""
