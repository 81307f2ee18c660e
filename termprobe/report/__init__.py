"""Pure rendering of a run: text and JSON."""
