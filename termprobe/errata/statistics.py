"""Few boards, counted with care: Fisher's exact test, Holm's correction, Wilson's interval. Pure.

All of Fisher's is done in whole numbers, so no rounding decides which tables are as rare as the one
that was seen.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import comb, sqrt
from typing import NamedTuple

ALPHA = 0.05
"""What happens by chance less often than this is taken to be none."""
Z_95 = 1.959963984540054
"""Of the normal distribution, 95 % lie within so many standard deviations; tables of it."""


class Fourfold(NamedTuple):
    """Boards that show something and boards that do not, inside a group and outside."""

    inside_with: int
    inside_without: int
    outside_with: int
    outside_without: int

    @property
    def inside(self) -> int:
        """How many boards are in the group."""
        return self.inside_with + self.inside_without

    @property
    def outside(self) -> int:
        """How many are not."""
        return self.outside_with + self.outside_without

    @property
    def is_more_inside(self) -> bool:
        """Whether the share that shows it is greater inside the group than outside."""
        return self.inside_with * self.outside > self.outside_with * self.inside


class Interval(NamedTuple):
    """A share lies between these, from 0 to 1."""

    low: float
    high: float


def fisher(table: Fourfold) -> float:
    """Return the two-sided p of Fisher's exact test, 0 to 1; 1 where a row or column is empty.

    It is the chance of a table as rare as this one or rarer, were the same boards with and without
    dealt out to the same two groups by lot.
    """
    ways = _ways(table)
    own = ways[table.inside_with - _least_inside(table)]
    return float(Fraction(sum(way for way in ways if way <= own), sum(ways)))


def least_p(table: Fourfold) -> float:
    """Return the smallest p that any table with the sums of this one can have."""
    ways = _ways(table)
    rarest = min(ways)
    return float(Fraction(sum(way for way in ways if way == rarest), sum(ways)))


def _least_inside(table: Fourfold) -> int:
    """Return how many of those that show it must be in the group at least."""
    return max(0, table.inside_with - table.outside_without)


def _ways(table: Fourfold) -> list[int]:
    """Return in how many ways each count inside comes about, from the least to the most.

    Each follows from the one before: of many boards all from the beginning would take long.
    """
    having = table.inside_with + table.outside_with
    lacking = table.inside_without + table.outside_without
    least = _least_inside(table)
    ways = [comb(having, least) * comb(lacking, table.inside - least)]
    for count in range(least, min(having, table.inside)):
        more = ways[-1] * (having - count) * (table.inside - count)
        ways.append(more // ((count + 1) * (lacking - table.inside + count + 1)))
    return ways


def wilson(count: int, of: int) -> Interval:
    """Return Wilson's 95 % interval of a share of which `count` in `of` were seen."""
    if of == 0:
        return Interval(0.0, 1.0)
    share, square = count / of, Z_95**2
    middle = share + square / (2 * of)
    spread = Z_95 * sqrt(share * (1 - share) / of + square / (4 * of**2))
    whole = 1 + square / of
    return Interval(max((middle - spread) / whole, 0.0), min((middle + spread) / whole, 1.0))


def holm(values: Sequence[float]) -> list[float]:
    """Return each p corrected for how many there are, by Holm's step-down method, in their order.

    Whatever depends on whatever: the chance that any of those at most ALPHA is by chance alone is
    ALPHA at most.
    """
    corrected = [1.0] * len(values)
    reached = 0.0
    in_order = sorted(range(len(values)), key=lambda index: values[index])
    for rank, index in enumerate(in_order):
        reached = max(reached, min(1.0, (len(values) - rank) * values[index]))
        corrected[index] = reached
    return corrected


def can_tell(least: Sequence[float]) -> list[bool]:
    """Return which of many tests could show anything, by the smallest p that each can have.

    A test of one board in twelve never can, and need not be paid for by the others. This is
    Tarone's rule: the smallest number K of which no more than K tests can reach ALPHA / K. It goes
    by sums alone, which no result changes, so Holm's correction of the rest holds what it promises.
    """
    for most in range(1, len(least) + 1):
        able = [p <= ALPHA / most for p in least]
        if sum(able) <= most:
            return able
    return [False] * len(least)


def corrected(tables: Sequence[Fourfold]) -> list[float]:
    """Return the p of each table, corrected for the tests among them that can show anything.

    1 for those that cannot.
    """
    able = can_tell([least_p(table) for table in tables])
    chosen = [index for index, can in enumerate(able) if can]
    found = [1.0] * len(tables)
    values = holm([fisher(tables[index]) for index in chosen])
    for index, value in zip(chosen, values, strict=True):
        found[index] = value
    return found
