"""Smallest sets: the fewest tests that show every fault, or tell them apart, with the proof that fewer cannot.

Faults are bits of an integer, a test is the integer of the faults that it shows.
"""

from dataclasses import dataclass
from itertools import accumulate, combinations


@dataclass(frozen=True)
class Cover:
    """A set of tests that shows all faults that can be shown."""

    tests: tuple
    """Names, in the order of the tests given."""
    lower_bound: int
    """No set of fewer tests shows them all."""

    @property
    def is_smallest(self):
        """Whether the bound proves that no smaller set will do."""
        return len(self.tests) == self.lower_bound


MAX_NODES = 60_000
"""So many partial sets the search looks at; a problem that needs more keeps its best set and a smaller bound."""


def smallest_cover(tests, times=1):
    """Return the Cover of `tests`, name -> faults shown, in which each fault is shown `times` times, or as often as it can be.

    Set sizes are searched from the lower bound up, each one to the end: what was searched in vain raises the bound.
    """
    names, masks = _without_twins(tests) if times == 1 else (tuple(tests), tuple(tests.values()))
    signatures = _signatures(masks, times)
    masks = [
        sum(1 << fault for fault, signature in enumerate(signatures) if signature >> test & 1)
        for test in range(len(masks))
    ]
    search = _Search(masks, signatures)
    needs = _needs(signatures, times)
    available = (1 << len(masks)) - 1
    best, bound = _greedy(masks, needs), search.bound(needs, available)
    for size in range(bound, len(best)):
        found = search.of_size(size, needs, available)
        if found is not None:
            best = found
        if found is not None or search.is_spent:
            break
        bound = size + 1
    return Cover(tuple(names[test] for test in sorted(best)), bound)


def smallest_separation(outcomes):
    """Return the Cover of `outcomes`, test name -> what it shows of each fault, that tells apart all faults that any test tells apart."""
    tests = {}
    for name, shown in outcomes.items():
        pairs = bytes(first != second for first, second in combinations(shown, 2))
        tests[name] = int(pairs.translate(_AS_DIGITS).decode() or "0", 2)
    return smallest_cover(tests)


_AS_DIGITS = b"01" + bytes(254)


def _without_twins(tests):
    """Return the names and masks of the tests of which no other one shows all that they show, in the order given."""
    kept = {}
    for name, mask in sorted(tests.items(), key=lambda item: -item[1].bit_count()):
        if mask and not any(mask | other == other for other in kept.values()):
            kept[name] = mask
    names = tuple(name for name in tests if name in kept)
    return names, tuple(kept[name] for name in names)


def _signatures(masks, times):
    """Return for each fault that matters the tests that show it, as an integer; the others are shown along with these."""
    showing = {}
    for test, mask in enumerate(masks):
        for fault in _bits(mask):
            showing[fault] = showing.get(fault, 0) | 1 << test
    kept = []
    for signature in sorted(set(showing.values()), key=int.bit_count):
        if not any(
            other & signature == other
            and min(times, other.bit_count()) == min(times, signature.bit_count())
            for other in kept
        ):
            kept.append(signature)
    return kept


def _needs(signatures, times):
    """Return layers: the faults that must be shown once more, twice more, and so on."""
    return tuple(
        sum(
            1 << fault
            for fault, signature in enumerate(signatures)
            if signature.bit_count() > layer
        )
        for layer in range(times)
    )


def _after(needs, mask):
    """Return what must still be shown after a test that shows `mask`."""
    return tuple(layer & ~mask | above & mask for layer, above in zip(needs, (*needs[1:], 0)))


def _bits(mask):
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def _greedy(masks, needs):
    """Return a cover found by always taking the test that meets most of what is left."""
    left = dict(enumerate(masks))
    chosen = []
    while needs[0]:
        test = max(left, key=lambda test: (left[test] & needs[0]).bit_count())
        chosen.append(test)
        needs = _after(needs, left.pop(test))
    return tuple(chosen)


class _Search:
    """Branch and bound: the fault with fewest tests left is shown by one of them, each is tried."""

    def __init__(self, masks, signatures):
        self._masks, self._signatures = masks, signatures
        self._nodes = 0

    @property
    def is_spent(self):
        """Whether the search was broken off."""
        return self._nodes > MAX_NODES

    def bound(self, needs, available):
        """Return a number of tests that every cover needs: by faults that no two share a test, and by how much one test can meet."""
        used = alone = 0
        for fault in _bits(needs[0]):
            if not used & (signature := self._signatures[fault] & available):
                used |= signature
                alone += sum(layer >> fault & 1 for layer in needs)
        gains = sorted(
            ((self._masks[test] & needs[0]).bit_count() for test in _bits(available)), reverse=True
        )
        wanted = sum(layer.bit_count() for layer in needs)
        return max(alone, sum(met < wanted for met in accumulate(gains, initial=0)))

    def of_size(self, size, needs, available):
        """Return a cover of `size` tests at most, or None; meaningless where the search is spent."""
        self._nodes += 1
        if not needs[0]:
            return ()
        if self.is_spent or self.bound(needs, available) > size:
            return None
        fault = min(
            _bits(needs[0]), key=lambda fault: (self._signatures[fault] & available).bit_count()
        )
        for test in sorted(
            _bits(self._signatures[fault] & available),
            key=lambda test: -(self._masks[test] & needs[0]).bit_count(),
        ):
            available &= ~(1 << test)
            found = self.of_size(size - 1, _after(needs, self._masks[test]), available)
            if found is not None:
                return (test, *found)
        return None
