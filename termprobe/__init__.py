"""termprobe: proves, board by board, that a re-created serial video terminal works, and finds what is wrong when it does not."""

__version__ = "0.1.0"
