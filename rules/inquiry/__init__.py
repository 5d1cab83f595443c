"""Questions put to a decision: each reads the trace or runs the road again."""
