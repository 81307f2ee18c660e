"""The order of the steps of a stage: as written, but with as few changes of option switches as the needs allow."""


def ordered(steps):
    """Return `steps` reordered. Steps that go on from the one before stay behind it; ties keep the written order."""
    waiting = _chains(steps)
    inside = {step.id for step in steps}
    done, placed, settings = set(), [], None
    while waiting:
        ready = [chain for chain in waiting if all(need in done for step in chain for need in step.needs
                                                   if need in inside and need not in {other.id for other in chain})]
        chain = next((chain for chain in ready if chain[0].settings == settings), (ready or waiting)[0])
        waiting.remove(chain)
        placed += chain
        done |= {step.id for step in chain}
        settings = chain[-1].settings
    return placed


def _chains(steps):
    chains = []
    for step in steps:
        if step.continues and chains:
            chains[-1].append(step)
        else:
            chains.append([step])
    return chains
