"""The sheets a golfer and a workshop take away."""
