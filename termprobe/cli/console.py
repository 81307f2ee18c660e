"""The console that a stream writes to."""

import os


def columns(stream):
    """Return how many columns the console behind `stream` has, None where it is no terminal or does not tell."""
    try:
        return os.get_terminal_size(stream.fileno()).columns or None if stream.isatty() else None
    except (OSError, ValueError):
        return None
