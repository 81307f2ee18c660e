"""How a verdict is to be taken: formats draw it, always beside its word."""

from termprobe.verdict import model

GOOD, BAD, OPEN = "good", "bad", "open"


def tone_of(verdict: str) -> str:
    """Return whether the verdict of a step is good, bad or open."""
    return {model.PASS: GOOD, model.FAIL: BAD}.get(verdict, OPEN)
