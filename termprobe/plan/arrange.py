"""The order of the steps of a stage: as written, but with as few changes of option switches as the
needs allow.
"""

import heapq

from termprobe.plan.model import Look, Switch


def ordered(steps, positions=None):
    """Return `steps` reordered so that the fewest switches have to be moved; ties keep the written
    order.

    `positions` are those of the options before the first step, option -> position; an option not in
    it has to be set.
    Steps that go on from the one before stay behind it, and each step stays behind those of `steps`
    that it needs or that cover it.
    """
    chains = _chains(steps)
    needs = _needs(chains)
    queue, seen = [(0, *_go_on((), positions or {}, chains, needs))], set()
    while True:  # uniform-cost search; a state is what is placed and how the switches stand
        changes, placed, stand = heapq.heappop(queue)
        if len(placed) == len(chains):
            return [step for chain in placed for step in chains[chain]]
        if (frozenset(placed), stand) in seen:
            continue
        seen.add((frozenset(placed), stand))
        for chain in _different(_ready(placed, needs), chains):
            more, after = moved(chains[chain], dict(stand))
            heapq.heappush(queue, (changes + more, *_go_on((*placed, chain), after, chains, needs)))


def moved(steps, positions):
    """Return (how many switches must be moved to carry out `steps` in order, the positions after
    them).
    """
    changes, positions = 0, dict(positions)
    for step in steps:
        for option, position in _demands(step):
            changes += positions.get(option) != position
            positions[option] = position
    return changes, positions


def _demands(step):
    if step.not_fitted:
        return ()
    if isinstance(step, Switch) and not step.settings:
        return ((step.option, step.position),)
    return step.settings


def _go_on(placed, positions, chains, needs):
    """Return what is placed, and how the switches stand, after all that can be done without moving
    one.
    """
    placed, done = list(placed), set(placed)
    left = [chain for chain in range(len(chains)) if chain not in done]
    while True:
        chain = next(
            (
                chain
                for chain in left
                if needs[chain] <= done and not moved(chains[chain], positions)[0]
            ),
            None,
        )
        if chain is None:
            return tuple(placed), tuple(sorted(positions.items()))
        placed.append(chain)
        done.add(chain)
        left.remove(chain)


def _ready(placed, needs):
    """Return the chains that may come next, in written order; all that are left where each waits
    for another.
    """
    left = [chain for chain in range(len(needs)) if chain not in placed]
    return [chain for chain in left if needs[chain] <= set(placed)] or left


def _different(ready, chains):
    """Return the first of `ready` for each way of demanding switch positions."""
    return {
        tuple(_demands(step) for step in chains[chain]): chain for chain in reversed(ready)
    }.values()


def _needs(chains):
    """Return for each chain the set of the chains that must stand before it."""
    chain_of = {step.id: number for number, chain in enumerate(chains) for step in chain}
    return [
        {
            chain_of[need]
            for step in chain
            for need in (*step.needs, *_covering(step))
            if need in chain_of
        }
        - {number}
        for number, chain in enumerate(chains)
    ]


def _covering(step):
    return step.covered_by if isinstance(step, Look) else ()


def _chains(steps):
    chains = []
    for step in steps:
        if step.continues and chains:
            chains[-1].append(step)
        else:
            chains.append([step])
    return chains
