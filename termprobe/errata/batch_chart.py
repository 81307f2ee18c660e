"""What a drawing of a batch shows: yields with their intervals, and which board has what. Pure."""

from collections.abc import Iterator
from typing import NamedTuple

from termprobe.errata.batch import Batch
from termprobe.errata.origin import BatchFinding, BatchFindings
from termprobe.errata.yields import Share, yields_of
from termprobe.notation import visible

MOST_BOARDS = 60
"""More are told by how many of each revision have something."""
MOST_ROWS = 40
MOST_TITLE, MOST_NAME = 56, 16
AFFECTED, CLEAN, UNTRIED = "X", "·", ""


class YieldBar(NamedTuple):
    """A share, as a bar with the ends of its interval; all in percent."""

    revision: str
    what: str
    told: str
    percent: float
    low: float
    high: float


class MatrixRow(NamedTuple):
    """A finding, and a mark for each column."""

    title: str
    origin: str
    marks: tuple[str, ...]


class Column(NamedTuple):
    """A board, or all boards of a revision."""

    name: str
    revision: str


class BatchChart(NamedTuple):
    """The drawing."""

    bars: tuple[YieldBar, ...]
    columns: tuple[Column, ...]
    rows: tuple[MatrixRow, ...]
    left_out: int
    """Findings beyond those that are drawn."""
    is_by_board: bool
    """Each column is a board; else a revision, and its marks are `3 of 40`."""

    @property
    def longest_name(self) -> int:
        """Characters above the longest column, the revision included."""
        return max(len(f"{one.name} {one.revision}") for one in self.columns)


def chart_of(batch: Batch, findings: BatchFindings) -> BatchChart:
    """Return what is drawn of a batch."""
    is_by_board = len(batch.boards) <= MOST_BOARDS
    sets = list(_sets(batch, is_by_board))
    rows = [_row(one, sets, is_by_board) for one in findings.found[:MOST_ROWS]]
    return BatchChart(
        tuple(_bars(batch)),
        tuple(column for column, _ in sets),
        tuple(rows),
        max(len(findings.found) - MOST_ROWS, 0),
        is_by_board,
    )


def _bars(batch: Batch) -> Iterator[YieldBar]:
    for one in yields_of(batch):
        revision = _cut(one.revision, 8) or "not told"
        for what, share in (("first run", one.first_pass), ("by now", one.passing)):
            if share.of:
                yield _bar(revision, what, share)


def _bar(revision: str, what: str, share: Share) -> YieldBar:
    low, high = (round(end * 100, 1) for end in share.interval)
    told = f"{share.count} of {share.of}, {low:.0f} to {high:.0f} %"
    return YieldBar(revision, what, told, round(100 * share.count / share.of, 1), low, high)


def _sets(batch: Batch, is_by_board: bool) -> Iterator[tuple[Column, int]]:
    """Yield each column with the boards that it stands for."""
    of_revision: dict[str, int] = {}
    for index, one in enumerate(batch.boards):
        revision = one.board.revision
        of_revision[revision] = of_revision.get(revision, 0) | 1 << index
        if is_by_board:
            yield Column(_cut(one.board.name, MOST_NAME), _cut(revision, MOST_NAME)), 1 << index
    if not is_by_board:
        for revision, boards in of_revision.items():
            yield Column(_cut(revision, MOST_NAME) or "not told", ""), boards


def _row(finding: BatchFinding, sets: list[tuple[Column, int]], is_by_board: bool) -> MatrixRow:
    marks = [_mark(finding, boards, is_by_board) for _, boards in sets]
    return MatrixRow(_cut(finding.item.title, MOST_TITLE), finding.origin, tuple(marks))


def _cut(text: str, most: int) -> str:
    """Return a text made to be drawn, of at most so many characters."""
    shown = visible(text)
    return shown if len(shown) <= most else shown[: most - 3] + "..."


def _mark(finding: BatchFinding, boards: int, is_by_board: bool) -> str:
    affected = (finding.item.affected & boards).bit_count()
    tried = affected + (finding.item.clean & boards).bit_count()
    if not is_by_board:
        return f"{affected} of {tried}"
    if affected:
        return AFFECTED
    return CLEAN if tried else UNTRIED
