"""What is wrong with boards of a batch, one item a cause, and which boards have it. Pure.

Steps that no cause explains are an item together where they failed on just the same boards.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from termprobe.errata.batch import Batch, BoardRuns, BoardSet
from termprobe.errata.summary import BoardCause, FailedStep

OWN_FAULTS = "own-faults"
"""Stands for the name of a fault in the item of all boards that have one of their own."""
FEWEST_OWN = 2


@dataclass(frozen=True)
class BatchItem:
    """One cause, or steps that fail together."""

    what: str
    """The name of the fault, or the id of the first step."""
    title: str
    symptom: str
    """What was seen in the first of its steps."""
    steps: tuple[str, ...]
    """Ids of the steps that show it: those that show it on every board, else all."""
    titles: tuple[str, ...]
    """Those of these steps, in the same order."""
    scripts: tuple[str, ...]
    """Ids of the scripts in whose runs any of them failed."""
    affected: BoardSet
    clean: BoardSet
    """Boards on which it would have shown, and has not. What is in neither set was not tried."""
    alike: tuple[str, ...] = ()
    """Other faults that no board tells from it."""
    is_cause: bool = True


@dataclass
class _Group:
    """Causes of several boards that may be one fault."""

    faults: tuple[str, ...]
    """Those that all of them may be."""
    title: str
    boards: BoardSet = 0
    on_all: dict[str, None] = field(default_factory=dict)
    on_any: dict[str, None] = field(default_factory=dict)

    def takes(self, board: BoardSet, cause: BoardCause) -> bool:
        """Take the cause of a board in, where it may be the same fault; return whether it is."""
        shared = tuple(fault for fault in self.faults if fault in cause.faults)
        if not shared:
            return False
        if self.boards:
            self.on_all = {step: None for step in self.on_all if step in cause.steps}
        else:
            self.on_all = dict.fromkeys(cause.steps)
        self.on_any |= dict.fromkeys(cause.steps)
        self.faults = shared
        self.boards |= board
        return True


class _Shown:
    """Which steps passed and failed on which boards."""

    def __init__(self, batch: Batch) -> None:
        self.passed: dict[str, BoardSet] = {}
        self.failed: dict[str, BoardSet] = {}
        self.steps: dict[str, FailedStep] = {}
        self._scripts: dict[str, dict[str, None]] = {}
        for index, one in enumerate(batch.boards):
            for run in one.runs:
                for step in run.passed:
                    self.passed[step] = self.passed.get(step, 0) | 1 << index
                for failed in run.failed:
                    self.failed[failed.id] = self.failed.get(failed.id, 0) | 1 << index
                    self.steps.setdefault(failed.id, failed)
                    self._scripts.setdefault(failed.id, {})[run.script] = None

    def titles(self, steps: Iterable[str]) -> tuple[str, ...]:
        """Return the titles of steps; of one that failed nowhere its id."""
        return tuple(self.steps[step].title if step in self.steps else step for step in steps)

    def scripts(self, steps: Iterable[str]) -> tuple[str, ...]:
        """Return the ids of the scripts in whose runs any of the steps failed."""
        found = {script: None for step in steps for script in self._scripts.get(step, ())}
        return tuple(filter(None, found))

    def clean(self, steps: Sequence[str], affected: BoardSet, is_shown_by_each: bool) -> BoardSet:
        """Return the boards on which what `steps` show is not there.

        Where each of these would show it, one that passed is enough.
        """
        passed = failed = 0
        for step in steps:
            passed |= self.passed.get(step, 0)
            failed |= self.failed.get(step, 0)
        if not is_shown_by_each:
            passed &= ~failed
        return passed & ~affected


def items_of(batch: Batch) -> tuple[BatchItem, ...]:
    """Return what is wrong with boards of the batch: what most boards have first."""
    shown = _Shown(batch)
    groups = _groups(batch)
    items = [_item(group, shown) for group in groups]
    items += _unexplained(batch, shown)
    return tuple(sorted(items, key=lambda item: (-item.affected.bit_count(), item.what)))


def own_faults(items: Iterable[BatchItem], batch: Batch) -> BatchItem | None:
    """Return the item of all boards that have a fault of their own; None of fewer than two.

    A builder who solders badly makes another fault on each board, so no single one tells of it.
    """
    affected = 0
    for item in items:
        if item.is_cause and item.affected.bit_count() == 1:
            affected |= item.affected
    if affected.bit_count() < FEWEST_OWN:
        return None
    tried = 0
    for index, one in enumerate(batch.boards):
        if any(run.passed for run in one.runs):
            tried |= 1 << index
    clean = tried & ~affected
    title = "faults of one board each, on every board another one"
    return BatchItem(OWN_FAULTS, title, "", (), (), (), affected, clean, is_cause=False)


def failed_steps(batch: Batch) -> dict[str, BoardSet]:
    """Return id of each step that failed on any board -> those boards."""
    return _Shown(batch).failed


def _groups(batch: Batch) -> list[_Group]:
    """Return the causes of all boards, each once: those that tell most of themselves first."""
    found = [(1 << index, cause) for index, one in enumerate(batch.boards) for cause in _own(one)]
    groups: list[_Group] = []
    for board, cause in sorted(found, key=lambda pair: len(pair[1].faults)):
        if not any(group.takes(board, cause) for group in groups):
            group = _Group(cause.faults, cause.title)
            group.takes(board, cause)
            groups.append(group)
    return groups


def _own(one: BoardRuns) -> Iterator[BoardCause]:
    for run in one.runs:
        yield from run.causes


def _item(group: _Group, shown: _Shown) -> BatchItem:
    what, *alike = group.faults
    steps = tuple(group.on_all or group.on_any)
    clean = shown.clean(steps, group.boards, bool(group.on_all))
    symptom = _symptom(steps, shown)
    told = steps, shown.titles(steps), shown.scripts(steps)
    return BatchItem(what, group.title, symptom, *told, group.boards, clean, tuple(alike))


def _symptom(steps: Sequence[str], shown: _Shown) -> str:
    """Return what was seen in the first step of which anything was told."""
    for step in steps:
        failed = shown.steps.get(step)
        if failed is not None and failed.symptom:
            return f"{failed.title}: {failed.symptom}"
    titles = [shown.steps[step].title for step in steps if step in shown.steps]
    return next(iter(titles), "")


def _unexplained(batch: Batch, shown: _Shown) -> Iterator[BatchItem]:
    """Yield what no cause explains: one item for all steps that failed on the same boards."""
    boards_of: dict[str, BoardSet] = {}
    for index, one in enumerate(batch.boards):
        for step in _left_open(one):
            boards_of[step] = boards_of.get(step, 0) | 1 << index
    together: dict[BoardSet, list[str]] = {}
    for step, boards in boards_of.items():
        together.setdefault(boards, []).append(step)
    for boards, steps in together.items():
        first = shown.steps[steps[0]]
        clean = shown.clean(steps, boards, is_shown_by_each=False)
        title = first.title
        if len(steps) > 1:
            title += f", and {len(steps) - 1} more that failed with it"
        symptom = _symptom(steps, shown)
        told = tuple(steps), shown.titles(steps), shown.scripts(steps)
        yield BatchItem(first.id, title, symptom, *told, boards, clean, is_cause=False)


def _left_open(one: BoardRuns) -> Iterable[str]:
    """Return ids of the steps that failed on a board and that no cause of it explains."""
    explained = {step for cause in _own(one) for step in cause.steps}
    left = [step.id for run in one.runs for step in run.unexplained]
    return dict.fromkeys(step for step in left if step not in explained)
