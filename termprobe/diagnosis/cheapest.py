"""The cheapest choice that meets every want, with the bound that proves it the cheapest.

A want names items, as the bits of an integer, and how many of them must be chosen at least.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_
from typing import NamedTuple

from termprobe.diagnosis.cover import numbers_of


class Want(NamedTuple):
    """At least `least` of `items` must be chosen."""

    items: int
    least: int


@dataclass(frozen=True)
class Cheapest:
    """Items that meet every want."""

    items: int
    """As bits."""
    cost: int
    lower_bound: int
    """No choice costs less."""

    @property
    def is_cheapest(self) -> bool:
        """Whether the bound proves that none is cheaper."""
        return self.cost == self.lower_bound


MOST_NODES = 20_000
"""So many partial choices the search looks at; one that needs more keeps its best choice and a
smaller bound."""


def cheapest_choice(costs: Sequence[int], wants: Iterable[Want]) -> Cheapest:
    """Return the Cheapest among items of `costs`, each more than 0, that meets all of `wants`.

    Raise ValueError for a want of more items than it names.
    """
    needed = strictest(wants)
    for want in needed:
        if want.items.bit_count() < want.least:
            raise ValueError(f"a want must name as many items as it wants, not {want}")
    return _together([_cheapest_of(costs, part) for part in _apart(needed)])


def _cheapest_of(costs: Sequence[int], wants: Sequence[Want]) -> Cheapest:
    """Return the Cheapest that meets `wants`, which hang together."""
    search = _Search(costs, _items_of(wants))
    search.branch(wants, 0)
    root = search.bound(wants)
    bound = root if search.is_spent else search.cost
    return Cheapest(search.best, search.cost, bound)


def _together(parts: Iterable[Cheapest]) -> Cheapest:
    """Return what meets the wants of all of `parts`, which share no item."""
    items = cost = bound = 0
    for part in parts:
        items |= part.items
        cost += part.cost
        bound += part.lower_bound
    return Cheapest(items, cost, bound)


def _apart(wants: Iterable[Want]) -> Iterator[list[Want]]:
    """Yield the wants in parts that share no item, each part in the order given."""
    left = list(wants)
    while left:
        items = left[0].items
        while touching := [want for want in left if want.items & items and want.items & ~items]:
            items |= _items_of(touching)
        yield [want for want in left if want.items & items]
        left = [want for want in left if not want.items & items]


def _items_of(wants: Iterable[Want]) -> int:
    """Return the items that any of `wants` names, as bits."""
    return reduce(or_, (want.items for want in wants))


def strictest(wants: Iterable[Want]) -> tuple[Want, ...]:
    """Return the wants that meet all others as well, those of fewest items first."""
    kept: list[Want] = []
    for want in sorted(set(wants), key=lambda each: (each.items.bit_count(), -each.least)):
        if want.least > 0 and not any(_implies(other, want) for other in kept):
            kept.append(want)
    return tuple(kept)


def _implies(known: Want, want: Want) -> bool:
    """Return whether what meets `known` meets `want`."""
    spare = (known.items & ~want.items).bit_count()
    return known.least - spare >= want.least


class _Search:
    """Branch and bound: an item of the want with fewest items is chosen, then left out."""

    def __init__(self, costs: Sequence[int], items: int) -> None:
        """`items` are all that are to be chosen among, as bits."""
        self._costs = costs
        self._nodes = 0
        self.best = items
        self.cost = self._cost(items)

    @property
    def is_spent(self) -> bool:
        """Whether the search was broken off."""
        return self._nodes > MOST_NODES

    def branch(self, wants: Sequence[Want], chosen: int) -> None:
        """Look for a cheaper choice that has the items `chosen` and meets `wants` as well."""
        self._nodes += 1
        cost = self._cost(chosen)
        if self.is_spent or cost + self.bound(wants) >= self.cost:
            return
        if not wants:
            self.best, self.cost = chosen, cost
            return
        item = max(numbers_of(wants[0].items), key=lambda item: self._gain(item, wants))
        self.branch(strictest(_with(item, wants)), chosen | 1 << item)
        without = strictest(_without(item, wants))
        if all(want.items.bit_count() >= want.least for want in without):
            self.branch(without, chosen)

    def bound(self, wants: Iterable[Want]) -> int:
        """Return what meeting `wants` costs at least: the sum over some that share no item."""
        used = total = 0
        for want in wants:
            if not used & want.items:
                used |= want.items
                costs = sorted(self._costs[item] for item in numbers_of(want.items))
                total += sum(costs[: want.least])
        return total

    def _cost(self, items: int) -> int:
        return sum(self._costs[item] for item in numbers_of(items))

    def _gain(self, item: int, wants: Iterable[Want]) -> float:
        met = sum(want.items >> item & 1 for want in wants)
        return met / self._costs[item]


def _with(item: int, wants: Iterable[Want]) -> Iterator[Want]:
    """Yield what is left of `wants` once `item` is chosen."""
    for items, least in wants:
        yield Want(items & ~(1 << item), least - (items >> item & 1))


def _without(item: int, wants: Iterable[Want]) -> Iterator[Want]:
    """Yield what is left of `wants` once `item` is left out."""
    for items, least in wants:
        yield Want(items & ~(1 << item), least)
