"""The end of a sitting at a run, for every loop over its steps."""

from collections.abc import Iterator
from contextlib import contextmanager

from termprobe.runner.course import BY_BUILDER, INTERRUPTED
from termprobe.runner.run import Run


@contextmanager
def interruptible(run: Run) -> Iterator[None]:
    """Write the last record of the sitting where a KeyboardInterrupt leaves the block."""
    try:
        yield
    except KeyboardInterrupt:
        run.end(INTERRUPTED)
        raise


@contextmanager
def sitting(run: Run) -> Iterator[None]:
    """Write the last record of the sitting when the block is left, or interrupted.

    Another error leaves it unwritten, so that the sitting can go on. All errors pass through.
    """
    with interruptible(run):
        yield
    run.end(BY_BUILDER)
