"""The share of killed mutants, and how sure it is."""

import math
from typing import NamedTuple

HEAD = "part        tried  killed  survived  new    share  95 % interval"
DOUBT = 0.05
"""One in twenty such intervals does not hold the true share."""


class Figures(NamedTuple):
    """How many mutants were tried, survived, and survived without a reason."""

    tried: int
    survived: int
    new: int

    def __add__(self, other: object) -> "Figures":
        if not isinstance(other, Figures):
            return NotImplemented
        return Figures(*(one + another for one, another in zip(self, other, strict=True)))

    @property
    def killed(self) -> int:
        return self.tried - self.survived


def at_most(killed: int, tried: int, share: float) -> float:
    """Return how likely at most `killed` of `tried` are killed, when each is by `share`."""
    return sum(
        math.comb(tried, count) * share**count * (1 - share) ** (tried - count)
        for count in range(killed + 1)
    )


def share_at(killed: int, tried: int, likelihood: float) -> float:
    """Return the share at which at most `killed` of `tried` have that likelihood, by halving."""
    low, high = 0.0, 1.0
    for _ in range(50):
        middle = (low + high) / 2
        if at_most(killed, tried, middle) > likelihood:
            low = middle
        else:
            high = middle
    return low


def interval(killed: int, tried: int) -> tuple[float, float]:
    """Return the Clopper-Pearson interval of the share, its ends from 0 to 1."""
    low, high = 0.0, 1.0
    if killed > 0:
        low = share_at(killed - 1, tried, 1 - DOUBT / 2)
    if killed < tried:
        high = share_at(killed, tried, DOUBT / 2)
    return low, high


def row(name: str, figures: Figures) -> str:
    """Return one line below HEAD."""
    counts = f"{figures.tried:>6} {figures.killed:>7} {figures.survived:>9} {figures.new:>4}"
    if not figures.tried:
        return f"{name:<10} {counts}"
    share = figures.killed / figures.tried
    low, high = interval(figures.killed, figures.tried)
    return f"{name:<10} {counts} {share:>8.1%}  {low:.1%} to {high:.1%}"
