"""What was asked for on the command line, and which faults are drawn for it."""

import random
from typing import NamedTuple

from termprobe.diagnosis.causes import weight_of

from . import stage


class Request(NamedTuple):
    """The options of the command."""

    seed: int
    count: int | None
    """How many faults, boards or pairs; None for what is usual."""
    is_every: bool
    """Every fault that a look can show, in place of a sample."""
    errors: tuple[float, ...]
    """Shares of wrong answers."""
    is_fewest: bool
    """Looks are chosen by what they tell, not by what they tell in a second, as a run does."""

    def chance(self):
        """Return the source of chance of one part; each begins anew."""
        return random.Random(self.seed)

    def how_many(self, usual):
        """Return how many to play where `usual` is a sample of a minute or two."""
        return self.count or usual

    def drawn(self, usual):
        """Return the names of faults to play, each once."""
        names = stage.detectable()
        if self.is_every:
            return names
        return self.chance().sample(names, min(self.how_many(usual), len(names)))

    def drawn_by_weight(self, usual):
        """Return names of faults, each as often as it is common; some come twice."""
        names = stage.detectable()
        weights = [weight_of(name).weight for name in names]
        return self.chance().choices(names, weights, k=self.how_many(usual))

    def pairs(self, usual):
        """Return pairs of faults, drawn alike."""
        chance, names = self.chance(), stage.detectable()
        return [chance.sample(names, 2) for _ in range(self.how_many(usual))]
