"""The shortest pause after a command at which nothing that follows is lost, by few tries."""

import math
from dataclasses import dataclass

AMPLE_S = 0.5
"""Nothing takes longer: the slowest clears of the terminfo database ask for 200 ms."""


@dataclass
class Settling:
    """Tries the longest pause, then none, then halves what is left down to `least_s`."""

    least_s: float
    """How far from the true one the pause that is found may be: the time of a character."""
    longest_s: float = AMPLE_S
    right_s: float | None = None
    """The shortest pause at which all was right."""
    wrong_s: float | None = None
    """The longest at which something was lost."""

    @property
    def next_s(self) -> float | None:
        """The pause to try next; None where nothing is left to try."""
        if self.right_s is None:
            return None if self.wrong_s is not None else self.longest_s
        if self.wrong_s is None:
            return None if self.right_s == 0 else 0.0
        if self.right_s - self.wrong_s <= self.least_s:
            return None
        return (self.right_s + self.wrong_s) / 2

    def told(self, pause_s: float, is_right: bool) -> None:
        """Take notice of what came of `pause_s`."""
        if is_right:
            self.right_s = pause_s
        else:
            self.wrong_s = pause_s


def fill_characters(pause_s: float, character_s: float) -> int:
    """Return how many characters without effect take at least so long on the line."""
    return math.ceil(round(pause_s / character_s, 6))
