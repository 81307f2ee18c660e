"""What the steps that passed prove of each block of a board: a record, for all formats."""

from typing import NamedTuple


class BlockShown(NamedTuple):
    """Faults of one block that are modelled."""

    block: str
    shown: int
    """How many a step that passed would have shown."""
    possible: int
    """How many make a difference that can be seen or heard at all."""
