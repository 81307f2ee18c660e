"""Whoever answers a step: the builder, the board's keyboard, a dump command, returned bytes."""
