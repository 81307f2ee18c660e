"""Waits for bytes and for room for them: the one file here that asks the system's select."""

import select
from collections.abc import Sequence
from typing import Protocol


class HasDescriptor(Protocol):
    """A socket, or anything else with a file descriptor."""

    def fileno(self) -> int:
        """Return the descriptor."""


Source = int | HasDescriptor
"""A file descriptor (POSIX), or a socket (any system)."""


def readable(sources: Sequence[Source], limit_s: float | None = None) -> list[Source]:
    """Return those of `sources` that have bytes, or a caller.

    Wait for the first, at most `limit_s`, for ever where that is None.
    """
    ready, _, _ = select.select(sources, [], [], limit_s)
    return ready


def has_room(descriptor: Source, canceller: Source, limit_s: float) -> bool:
    """Wait until `descriptor` takes bytes, and return True.

    Return False where it does not within `limit_s`, or `canceller` speaks before.
    """
    _, room, _ = select.select([canceller], [descriptor], [], limit_s)
    return bool(room)


def is_hung_up(descriptor: int) -> bool:
    """Tell whether nobody holds the other end of a pseudo-terminal (POSIX)."""
    poll = select.poll()
    poll.register(descriptor, 0)
    return bool(poll.poll(0))
