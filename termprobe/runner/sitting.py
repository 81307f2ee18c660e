"""The end of a sitting at a run, for every loop over its steps."""

from collections.abc import Iterator
from contextlib import contextmanager

from termprobe.runner.course import BY_BUILDER, INTERRUPTED
from termprobe.runner.run import Run


@contextmanager
def sitting(run: Run) -> Iterator[None]:
    """Write the last record of the sitting when the block is left.

    It says interrupted after a KeyboardInterrupt, which passes through. Any other error passes
    through unsaid, so that the sitting can go on.
    """
    try:
        yield
    except KeyboardInterrupt:
        run.end(INTERRUPTED)
        raise
    run.end(BY_BUILDER)
