"""The order of the steps of a stage: as written, but with as few changes of switches as can be.

A chain is a step with those that go on from its screen; it is never torn apart. Chains go by their
index in written order.
"""

import heapq
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from termprobe.plan.model import Step, Switch

Chain = list[Step]
Demand = tuple[str, str]
"""Option and position."""
Positions = Mapping[str, str]
"""Option -> position of its switch; an option not in it has to be set."""


class _State(NamedTuple):
    """A way to have begun; the search goes on from the least, by these fields."""

    changes: int
    """Switches moved so far."""
    placed: tuple[int, ...]
    """Chains in the order in which they are carried out."""
    stand: tuple[Demand, ...]
    """How the switches stand then, sorted."""


def ordered(steps: Sequence[Step], positions: Positions | None = None) -> list[Step]:
    """Return `steps` reordered so that the fewest switches have to be moved.

    Ties keep the written order. `positions` are those before the first step. Steps that go on from
    the one before stay behind it, and each step stays behind those of `steps` that it needs.
    """
    search = _Search(_chains(steps))
    placed = search.fewest_changes(positions or {})
    return [step for chain in placed for step in search.chains[chain]]


def moved(steps: Iterable[Step], positions: Positions) -> tuple[int, dict[str, str]]:
    """Return how many switches must be moved for `steps` in order, and the positions after them."""
    changes, after = 0, dict(positions)
    for step in steps:
        for option, position in _demands(step):
            changes += after.get(option) != position
            after[option] = position
    return changes, after


def _demands(step: Step) -> tuple[Demand, ...]:
    """Return how `step` wants the switches."""
    if step.not_fitted:
        return ()
    if isinstance(step, Switch) and not step.settings:
        return ((step.option, step.position),)
    return step.settings


class _Search:
    """Uniform-cost search for an order of the chains."""

    def __init__(self, chains: Sequence[Chain]) -> None:
        self.chains = chains
        self._needs = _needs(chains)

    def fewest_changes(self, positions: Positions) -> tuple[int, ...]:
        """Return the chains in the order in which the fewest switches have to be moved."""
        queue = [self._gone_on(0, (), positions)]
        known = set()
        while True:
            state = heapq.heappop(queue)
            if len(state.placed) == len(self.chains):
                return state.placed
            what_is_left = frozenset(state.placed), state.stand
            if what_is_left in known:
                continue
            known.add(what_is_left)
            for chain in self._different(self._ready(state.placed)):
                heapq.heappush(queue, self._after(state, chain))

    def _after(self, state: _State, chain: int) -> _State:
        more, positions = moved(self.chains[chain], dict(state.stand))
        return self._gone_on(state.changes + more, (*state.placed, chain), positions)

    def _gone_on(self, changes: int, placed: Iterable[int], positions: Positions) -> _State:
        """Return the state once all is placed that can be carried out without moving a switch."""
        done = list(placed)
        while (chain := self._at_once(done, positions)) is not None:
            done.append(chain)
        return _State(changes, tuple(done), tuple(sorted(positions.items())))

    def _at_once(self, placed: Sequence[int], positions: Positions) -> int | None:
        """Return the first chain that may come next and moves no switch, or None."""
        for chain in self._with_needs_met(placed):
            changes, _ = moved(self.chains[chain], positions)
            if not changes:
                return chain
        return None

    def _ready(self, placed: Sequence[int]) -> list[int]:
        """Return the chains that may come next; all that are left where each waits for another."""
        return list(self._with_needs_met(placed)) or self._left(placed)

    def _with_needs_met(self, placed: Sequence[int]) -> Iterator[int]:
        done = set(placed)
        return (chain for chain in self._left(placed) if self._needs[chain] <= done)

    def _left(self, placed: Sequence[int]) -> list[int]:
        done = set(placed)
        return [chain for chain in range(len(self.chains)) if chain not in done]

    def _different(self, ready: Sequence[int]) -> Collection[int]:
        """Return the first of `ready` for each way of demanding switch positions."""
        first: dict[tuple[tuple[Demand, ...], ...], int] = {}
        for chain in ready:
            first.setdefault(tuple(map(_demands, self.chains[chain])), chain)
        return first.values()


def _needs(chains: Sequence[Chain]) -> list[set[int]]:
    """Return for each chain the set of the chains that must stand before it."""
    chain_of = {step.id: number for number, chain in enumerate(chains) for step in chain}
    return [_needs_of(chain, chain_of) - {number} for number, chain in enumerate(chains)]


def _needs_of(chain: Chain, chain_of: Mapping[str, int]) -> set[int]:
    needs: list[str] = []
    for step in chain:
        needs += step.needs
    return {chain_of[need] for need in needs if need in chain_of}


def _chains(steps: Iterable[Step]) -> list[Chain]:
    chains: list[Chain] = []
    for step in steps:
        if step.continues and chains:
            chains[-1].append(step)
        else:
            chains.append([step])
    return chains
