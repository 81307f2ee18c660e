"""Screens of a step, as they had to be and as they were seen. Pure."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.journal.records import Answered
from termprobe.plan.model import Plan, Step, expected_of
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference
from termprobe.verdict.model import FAIL, StepVerdict

RowTexts = tuple[str, ...]
Cell = tuple[int, int]


class CellRun(NamedTuple):
    """Cells side by side that are not as they must be."""

    row: int
    column: int
    length: int


@dataclass(frozen=True)
class ScreenFacts:
    """What a screen had to show, and what was seen of it."""

    columns: int
    expected: RowTexts
    """Each as long as the screen is wide."""
    cursor: Cell | None
    """Where it had to be, row and column; None where that is not asked."""
    seen: RowTexts | None = None
    """None where it was as it must be, or nobody told more than that it was not. A cell that was
    only marked is blank."""
    cursor_seen: Cell | None = None
    differing: tuple[CellRun, ...] = ()

    @property
    def marked_rows(self) -> RowTexts:
        """A row each of blanks, and of `^` below the cells that differ."""
        marks = [[" "] * self.columns for _ in self.expected]
        for row, column, length in self.differing:
            if row < len(marks):
                marks[row][column : column + length] = "^" * length
        return tuple("".join(row)[: self.columns] for row in marks)


def screen_of(
    plan: Plan, step: Step, verdict: StepVerdict, answered: Answered | None
) -> ScreenFacts | None:
    """Return the screen of a step; None where it has none to be compared.

    `answered` is the answer that counts.
    """
    expected = expected_of(step)
    if expected is None or step.not_fitted:
        return None
    rows, cursor = expected.rows, expected.cursor
    if answered is not None and answered.against is not None:
        rows, cursor = answered.against.rows, answered.against.cursor
    wanted = fitted(rows, plan.rows, plan.columns)
    if verdict.verdict != FAIL or answered is None:
        return ScreenFacts(plan.columns, wanted, cursor)
    seen = None
    if answered.answer.seen is not None:
        told = [row.replace(UNKNOWN_CHARACTER, " ") for row in answered.answer.seen[: plan.rows]]
        seen = fitted(told, plan.rows, plan.columns)
    inside = [one for one in verdict.differs if one.row < plan.rows and one.column < plan.columns]
    stretches = tuple(_stretches(inside))
    return ScreenFacts(plan.columns, wanted, cursor, seen, answered.answer.cursor, stretches)


def fitted(rows: Sequence[str], count: int, columns: int) -> RowTexts:
    """Return `count` rows of `columns` characters each: what is missing is blank."""
    known = [row[:columns].ljust(columns) for row in rows[:count]]
    return (*known, *([" " * columns] * (count - len(known))))


def _stretches(cells: Iterable[Difference]) -> Iterator[CellRun]:
    """Yield the cells, those side by side as one."""
    last: CellRun | None = None
    for row, column, _, _ in sorted(cells):
        if last is not None and (row, column) == (last.row, last.column + last.length):
            last = last._replace(length=last.length + 1)
            continue
        if last is not None:
            yield last
        last = CellRun(row, column, 1)
    if last is not None:
        yield last
