"""Plan and journal to verdicts: pure functions."""
