"""What is said of a run that comes after another of the same board, in words."""

from collections.abc import Callable, Iterator, Sequence

from termprobe.folding import first_of
from termprobe.journal.comes_after import ComesAfter
from termprobe.report.changes import Changes

NAMED = 8
"""So many steps are told one by one."""
_Told = tuple[str, tuple[str, ...]]
"""What is said of steps, and their ids."""


def order_in_words(after: ComesAfter) -> str:
    """Return in which order the steps of a run are asked."""
    if not after.failed:
        return f"In {after.run} nothing failed: all is asked in the order of the script."
    order = f"In {after.run} {_steps(after.failed)} failed. Asked first: what failed there"
    needed = set(after.first) - set(after.failed)
    if needed:
        order += f", behind {len(needed)} that it needs"
    if after.sharing:
        blocks = first_of(after.blocks, NAMED)
        order += f"; next {_steps(after.sharing)} on the same part of the circuit ({blocks})"
    return f"{order}; then the rest in order."


def new_faults_in_words(changes: Changes | None, named: Callable[[str], str] = str) -> str:
    """Return the line on steps that passed in the run before and fail now; empty for none.

    `named(id)` is what a step is called in it; its id by default.
    """
    if changes is None or not changes.new_faults:
        return ""
    told = first_of([named(step) for step in changes.new_faults], NAMED, "; ")
    count = _steps(changes.new_faults)
    return f"NEW since {changes.after.run}: {count} passed there, not here: {told}."


def changes_in_words(changes: Changes | None, named: Callable[[str], str] = str) -> Iterator[str]:
    """Yield what has changed since the run before, a phrase each; nothing where none came before.

    `named(id)` is what a step is called in it; its id by default.
    """
    if changes is None:
        return
    yield f"What changed since {changes.after.run}"
    is_changed = False
    for said, steps in _told(changes):
        if steps:
            is_changed = True
            told = first_of([named(step) for step in steps], NAMED, "; ")
            yield f"{said}: {_steps(steps)}: {told}"
    if changes.waiting:
        yield f"passed then, not asked again yet: {changes.waiting}"
    elif not is_changed:
        yield "nothing: what passed then passes now"


def _told(changes: Changes) -> Iterator[_Told]:
    yield "passed then, FAIL now", changes.new_faults
    yield "failed then, FAIL now as well", changes.still_failing
    yield "failed then, pass now", changes.mended
    yield "failed then, not proven by now", changes.not_proven
    yield "no verdict then, FAIL now", changes.first_known


def _steps(steps: Sequence[str]) -> str:
    return "1 step" if len(steps) == 1 else f"{len(steps)} steps"
