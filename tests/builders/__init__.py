"""Plays builders who are not there."""
