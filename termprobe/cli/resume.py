"""Tells how to go on with what ended early."""

import contextlib
import pathlib
from collections.abc import Iterator

from termprobe.cli.console import Console
from termprobe.verdict.model import INCOMPLETE, UNANSWERED, RunVerdict


@contextlib.contextmanager
def kept(path: pathlib.Path, what: str, console: Console) -> Iterator[None]:
    """Tell where the answers are if what is done within this ends early, by whatever it is.

    `what` is called so: `run`, `walk`. What ended it passes through.
    """
    try:
        yield
    except BaseException:
        console.tell(f"The {what} so far is in {path}; go on with --resume {path}")
        raise


def tell_resume(verdict: RunVerdict, path: pathlib.Path, console: Console) -> None:
    """Tell how to go on with the run file at `path`, where its `verdict` leaves anything to do."""
    if verdict.switch_off:
        console.tell("The board must be switched off. Put it right, then measure again:")
    if verdict.verdict == INCOMPLETE or verdict.count(UNANSWERED) or verdict.switch_off:
        console.tell(f"Go on with --resume {path}")
