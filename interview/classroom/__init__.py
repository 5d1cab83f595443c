"""The classroom: which cases are taught, who is in the class, what was tried, and what is due again."""
