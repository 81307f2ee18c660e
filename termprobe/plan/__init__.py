"""A script compiled against a profile: for each step the bytes, what must be seen, the question."""
