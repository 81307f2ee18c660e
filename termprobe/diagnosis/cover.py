"""Smallest sets: the fewest tests that show every fault, with the proof that fewer cannot.

Faults are bits of an integer, a test is the integer of the faults that it shows.
"""

from dataclasses import dataclass


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
    """Return the Cover of `tests`, name -> faults shown, in which each fault is shown `times` times, or as often as it can be."""
    tests = _without_twins(tests) if times == 1 else dict(tests)
    demands = _demands(tests, times)
    best = _greedy(tests, demands)
    search = _Search(tests, best)
    search.go_on((), dict(demands))
    bound = len(search.best) if search.is_done else _independent(tests, demands)
    order = {name: number for number, name in enumerate(tests)}
    return Cover(tuple(sorted(search.best, key=order.get)), bound)


def _without_twins(tests):
    """Leave out tests that show no more than another one does."""
    kept = {}
    for name, mask in sorted(tests.items(), key=lambda item: -item[1].bit_count()):
        if mask and not any(mask | other == other for other in kept.values()):
            kept[name] = mask
    return {name: mask for name, mask in tests.items() if name in kept}


def _demands(tests, times):
    """Return faults -> how often each must be shown; faults that the same tests show are one."""
    by_signature = {}
    union = 0
    for mask in tests.values():
        union |= mask
    for fault in _bits(union):
        signature = tuple(name for name, mask in tests.items() if mask >> fault & 1)
        by_signature.setdefault(signature, fault)
    return {fault: (signature, min(times, len(signature))) for signature, fault in by_signature.items()}


def _bits(mask):
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def _greedy(tests, demands):
    """Return a cover found by always taking the test that meets most of what is left."""
    left, chosen = {fault: need for fault, (_, need) in demands.items()}, []
    while any(left.values()):
        name = max((name for name in tests if name not in chosen), key=lambda name: sum(
            1 for fault, need in left.items() if need and tests[name] >> fault & 1))
        chosen.append(name)
        for fault in left:
            if left[fault] and tests[name] >> fault & 1:
                left[fault] -= 1
    return tuple(chosen)


def _independent(tests, demands):
    """Return a number of tests that every cover has: faults no two of which any one test shows need a test each."""
    used, bound = set(), 0
    for signature, need in sorted(demands.values(), key=lambda demand: len(demand[0])):
        if not used & set(signature):
            used |= set(signature)
            bound += need
    return bound


class _Search:
    """Branch and bound: the fault with fewest tests left is shown by one of them, each is tried."""

    def __init__(self, tests, best):
        self._tests, self.best = tests, best
        self._nodes, self.is_done = 0, True

    def go_on(self, chosen, demands):
        """Look for covers smaller than the best that hold `chosen` and meet `demands`."""
        self._nodes += 1
        if self._nodes > MAX_NODES:
            self.is_done = False
            return
        if not demands:
            self.best = chosen
            return
        if len(chosen) + _independent(self._tests, demands) >= len(self.best):
            return
        _, (signature, _) = min(demands.items(), key=lambda item: len(item[1][0]) - item[1][1])
        excluded = set()
        for name in sorted(signature, key=lambda name: -sum(self._tests[name] >> fault & 1 for fault in demands)):
            left = self._after(name, demands, excluded)
            if left is not None:
                self.go_on((*chosen, name), left)
            excluded.add(name)

    def _after(self, name, demands, excluded):
        """Return what is left to be shown after `name` without the `excluded` tests; None where that cannot be done."""
        left = {}
        for fault, (signature, need) in demands.items():
            need -= self._tests[name] >> fault & 1
            rest = tuple(other for other in signature if other != name and other not in excluded)
            if need > len(rest):
                return None
            if need > 0:
                left[fault] = rest, need
        return left
