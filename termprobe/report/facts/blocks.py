"""Of which blocks of a board the steps that passed exclude faults, in words. Pure."""

from collections.abc import Iterator, Sequence

from termprobe.report.block_shown import BlockShown


def blocks_in_words(blocks: Sequence[BlockShown]) -> Iterator[str]:
    """Yield `all of: baud, parity`, then `some of`, then `none of`, where there are any."""
    partly = [one for one in blocks if 0 < one.shown < one.possible]
    told = {
        "all of": [one.block for one in blocks if one.shown == one.possible],
        "some of": [f"{one.block} ({one.shown} of {one.possible})" for one in partly],
        "none of": [one.block for one in blocks if one.possible and not one.shown],
    }
    return (f"{word}: {', '.join(names)}" for word, names in told.items() if names)
