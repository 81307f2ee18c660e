"""How much slower a step is sent when the builder wishes it so. Pure."""

SLOWER_BY, SLOWEST = 2.0, 64.0
"""Each wish for slower sending multiplies the time of a character and of every pause by the first,
up to the second.
"""


def slower(pace: float) -> float:
    """Return the pace after a wish for slower sending.

    It is how many times as long each character and pause takes.
    """
    return min(pace * SLOWER_BY, SLOWEST)
