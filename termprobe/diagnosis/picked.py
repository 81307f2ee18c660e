"""What it tells that a picture was chosen out of several, or none of them."""

import math
from typing import NamedTuple

from termprobe.diagnosis.error_rates import ErrorRates


class Picked(NamedTuple):
    """What a person chose. Pictures go by the digests of shown.py."""

    picture: str
    """Empty where it was none of those offered."""
    offered: tuple[str, ...]
    """At least one."""

    def is_of(self, picture: str) -> bool:
        """Return whether this is what must be chosen where `picture` is seen."""
        return self.picture == self._right(picture)

    def log_likelihood(self, picture: str, rates: ErrorRates) -> float:
        """Return how likely this choice is where `picture` is seen, as a logarithm."""
        if self.is_of(picture):
            return math.log(1 - rates.wrong_picture)
        return math.log(rates.wrong_picture / len(self.offered))

    def _right(self, picture: str) -> str:
        """Return what must be chosen: none where what is seen was not offered."""
        if picture in self.offered:
            return picture
        return ""
