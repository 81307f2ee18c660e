"""Spreads what is to be tried over all processors, by processes that have only so much memory."""

from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

from .guarded import limit_memory

CHUNK = 250
"""So many tries are one piece of work, where there are not many more."""
MOST_PIECES = 400


def numbered(count):
    """Return the numbers 0 to `count` - 1 in pieces."""
    size = max(CHUNK, count // MOST_PIECES)
    return [range(count)[first : first + size] for first in range(0, count, size)]


def spread(function, pieces):
    """Yield function(piece) of each of `pieces`, in order; where there is one only, right here."""
    if len(pieces) == 1:
        yield function(pieces[0])
        return
    with ProcessPoolExecutor(mp_context=get_context("spawn"), initializer=limit_memory) as pool:
        yield from pool.map(function, pieces)
