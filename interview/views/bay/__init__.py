"""What the bay shows, frozen: the talk, the standing of the candidates, the decisions, the reasons."""
