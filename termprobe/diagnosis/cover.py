"""Smallest sets: the fewest tests that show every fault, or tell them apart, with the proof.

Faults are bits of an integer, a test is the integer of the faults that it shows.
"""

from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, combinations
from typing import Generic, TypeVar

Name = TypeVar("Name", bound=Hashable)


@dataclass(frozen=True)
class Cover(Generic[Name]):
    """A set of tests that shows all faults that can be shown."""

    tests: tuple[Name, ...]
    """Names, in the order of the tests given."""
    lower_bound: int
    """No set of fewer tests shows them all."""

    @property
    def is_smallest(self) -> bool:
        """Whether the bound proves that no smaller set will do."""
        return len(self.tests) == self.lower_bound


MAX_NODES = 60_000
"""So many partial sets the search looks at; a problem that needs more keeps its best set and a
smaller bound."""


def smallest_cover(tests: Mapping[Name, int]) -> Cover[Name]:
    """Return the Cover of `tests`, name -> faults shown.

    Set sizes are searched from the lower bound up, each one to the end: what was searched in vain
    raises the bound.
    """
    needed = _without_twins(tests)
    names = tuple(needed)
    signatures = _signatures(tuple(needed.values()))
    search = _Search(_shown(signatures, len(names)), signatures)
    best, bound = search.greedy(), search.bound(search.all_faults, search.all_tests)
    for size in range(bound, len(best)):
        found = search.of_size(size, search.all_faults, search.all_tests)
        if found is not None:
            best = found
        if found is not None or search.is_spent:
            break
        bound = size + 1
    return Cover(tuple(names[test] for test in sorted(best)), bound)


def smallest_separation(outcomes: Mapping[Name, Sequence[object]]) -> Cover[Name]:
    """Return the Cover of `outcomes`, test name -> what it shows of each fault.

    It tells apart all faults that any test tells apart.
    """
    return smallest_cover({name: _pairs_told(shown) for name, shown in outcomes.items()})


def bits_of(numbers: Iterable[int]) -> int:
    """Return the integer whose bits of these numbers are 1; each is given once."""
    return sum(1 << number for number in numbers)


def numbers_of(mask: int) -> Iterator[int]:
    """Yield the numbers of the bits of `mask` that are 1, lowest first."""
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


_AS_DIGITS = b"01" + bytes(254)


def _pairs_told(shown: Sequence[object]) -> int:
    """Return the pairs of faults of which a test shows different things, as bits."""
    pairs = bytes(first != second for first, second in combinations(shown, 2))
    return int(pairs.translate(_AS_DIGITS).decode() or "0", 2)


def _without_twins(tests: Mapping[Name, int]) -> dict[Name, int]:
    """Return the tests of which no other one shows all that they show, in the order given."""
    kept: dict[Name, int] = {}
    for name, mask in sorted(tests.items(), key=lambda item: -item[1].bit_count()):
        if mask and not any(mask | other == other for other in kept.values()):
            kept[name] = mask
    return {name: mask for name, mask in tests.items() if name in kept}


def _signatures(masks: Sequence[int]) -> list[int]:
    """Return for each fault that matters the tests that show it, as bits.

    The other faults are shown along with these.
    """
    showing: dict[int, int] = {}
    for test, mask in enumerate(masks):
        for fault in numbers_of(mask):
            showing[fault] = showing.get(fault, 0) | 1 << test
    kept: list[int] = []
    for signature in sorted(set(showing.values()), key=int.bit_count):
        if not any(other & signature == other for other in kept):
            kept.append(signature)
    return kept


def _shown(signatures: Sequence[int], tests: int) -> list[int]:
    """Return for each of so many tests the faults, by index in `signatures`, that it shows."""
    masks = [0] * tests
    for fault, signature in enumerate(signatures):
        for test in numbers_of(signature):
            masks[test] |= 1 << fault
    return masks


class _Search:
    """Branch and bound: the fault with fewest tests left is shown by one of them, each is tried.

    `masks` holds the faults that each test shows, `signatures` the tests that show each fault.
    """

    def __init__(self, masks: Sequence[int], signatures: Sequence[int]) -> None:
        self._masks, self._signatures = masks, signatures
        self._nodes = 0
        self.all_faults = (1 << len(signatures)) - 1
        self.all_tests = (1 << len(masks)) - 1

    @property
    def is_spent(self) -> bool:
        """Whether the search was broken off."""
        return self._nodes > MAX_NODES

    def greedy(self) -> tuple[int, ...]:
        """Return a cover found by always taking the test that shows most of what is left."""
        chosen: list[int] = []
        left, faults = list(range(len(self._masks))), self.all_faults
        while faults:
            test = max(left, key=lambda test: self._gain(test, faults))
            chosen.append(test)
            left.remove(test)
            faults &= ~self._masks[test]
        return tuple(chosen)

    def bound(self, faults: int, available: int) -> int:
        """Return a number of tests that every cover of `faults` out of `available` needs.

        It is the greater of two: so many faults of which no two share a test, and so many tests as
        it takes when each shows as much as it can.
        """
        used = alone = 0
        for fault in numbers_of(faults):
            showing = self._signatures[fault] & available
            if not used & showing:
                used |= showing
                alone += 1
        gains = sorted((self._gain(test, faults) for test in numbers_of(available)), reverse=True)
        wanted = faults.bit_count()
        return max(alone, sum(met < wanted for met in accumulate(gains, initial=0)))

    def of_size(self, size: int, faults: int, available: int) -> tuple[int, ...] | None:
        """Return a cover of `size` tests at most, or None where none was found.

        None proves that there is none, unless the search is spent.
        """
        self._nodes += 1
        if not faults:
            return ()
        if self.is_spent or self.bound(faults, available) > size:
            return None
        for test in self._tests_of_rarest(faults, available):
            available &= ~(1 << test)
            found = self.of_size(size - 1, faults & ~self._masks[test], available)
            if found is not None:
                return (test, *found)
        return None

    def _tests_of_rarest(self, faults: int, available: int) -> list[int]:
        """Return the tests that show the fault with fewest of them, those that show most first."""
        showing = [self._signatures[fault] & available for fault in numbers_of(faults)]
        rarest = min(showing, key=int.bit_count)
        return sorted(numbers_of(rarest), key=lambda test: -self._gain(test, faults))

    def _gain(self, test: int, faults: int) -> int:
        return (self._masks[test] & faults).bit_count()
