"""termprobe: proves, board by board, that a re-created serial video terminal works.

Where it does not, termprobe finds what is wrong.
"""

__version__ = "0.1.0"
