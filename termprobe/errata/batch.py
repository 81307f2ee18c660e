"""The boards of many runs: which runs are of one board, and what each board has shown. Pure.

Boards go by their number in the batch, and a set of them is a whole number with a bit for each: of
ten thousand boards a set is then a kilobyte, and two are compared at once.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import NamedTuple

from termprobe.errata.summary import RunSummary

BoardSet = int
"""A bit for each board of a batch, the first board the lowest."""


class BoardOfBatch(NamedTuple):
    """A board, as its runs name it; empty what none of them tells."""

    name: str
    """Its serial number; with revision and builder where two boards have the same."""
    serial: str
    revision: str
    builder: str
    batch: str


@dataclass(frozen=True)
class BoardRuns:
    """A board and its runs, in the order of time."""

    board: BoardOfBatch
    runs: tuple[RunSummary, ...]


@dataclass(frozen=True)
class Batch:
    """Many boards."""

    boards: tuple[BoardRuns, ...]
    """By revision, then by serial number."""
    is_practice: bool = False
    """All boards are simulated ones."""
    practice_left_out: int = 0
    """Runs that do not count, since they are practice and others are not."""
    with_practice: int = 0
    """Runs that count though they are practice, beside others."""
    doubles: int = 0
    """Files that hold just what another one holds."""

    @property
    def count_of_runs(self) -> int:
        """How many runs count."""
        return sum(len(one.runs) for one in self.boards)

    @property
    def from_cards(self) -> int:
        """How many of the runs that count were filled in from cards, whole or in part."""
        return sum(run.is_from_card for one in self.boards for run in one.runs)

    def names_in(self, boards: BoardSet) -> tuple[str, ...]:
        """Return the names of the boards of a set, in order."""
        return tuple(one.board.name for one in self.boards_in(boards))

    def boards_in(self, boards: BoardSet) -> Iterator[BoardRuns]:
        """Yield the boards of a set, in order."""
        for index, one in enumerate(self.boards):
            if boards >> index & 1:
                yield one


def batch_of(found: Iterable[RunSummary], counts_practice: bool = False) -> Batch:
    """Return the Batch of all runs `found`.

    Runs of simulated boards count where there are no others, or with `counts_practice`.
    """
    runs: dict[str, RunSummary] = {}
    doubles = 0
    for run in found:
        doubles += run.digest in runs
        runs.setdefault(run.digest, run)
    practice = [run for run in runs.values() if run.is_practice]
    real = [run for run in runs.values() if not run.is_practice]
    is_practice = bool(practice) and not real
    counted = real
    if counts_practice or is_practice:
        counted = list(runs.values())
    left_out = len(runs) - len(counted)
    with_practice = len(practice) - left_out if real else 0
    boards = sorted(_boards(counted), key=_order)
    return Batch(tuple(boards), is_practice, left_out, with_practice, doubles)


def begun_at(run: RunSummary) -> datetime:
    """Return when a run began; long ago where its file does not tell."""
    try:
        when = datetime.fromisoformat(run.begun)
    except ValueError:
        return datetime.min.replace(tzinfo=UTC)
    return when if when.tzinfo else when.replace(tzinfo=UTC)


def natural(text: str) -> list[tuple[int, str]]:
    """Return what sorts `text` as people do: `rev 9` before `rev 10`."""
    parts: list[tuple[int, str]] = []
    for character in text:
        if character.isdecimal() and parts and parts[-1][0] >= 0:
            parts[-1] = (parts[-1][0] * 10 + int(character), "")
        elif character.isdecimal():
            parts.append((int(character), ""))
        else:
            parts.append((-1, character.casefold()))
    return parts


def _order(one: BoardRuns) -> tuple[object, ...]:
    return natural(one.board.revision), natural(one.board.serial), natural(one.board.name)


def _boards(runs: Iterable[RunSummary]) -> Iterator[BoardRuns]:
    """Yield the boards, each with its runs."""
    of_serial: dict[str, list[RunSummary]] = {}
    for run in sorted(runs, key=begun_at):
        of_serial.setdefault(run.serial.strip(), []).append(run)
    for serial, own in of_serial.items():
        boards = _told_apart(serial, own)
        for one in boards:
            if len(boards) > 1:
                one = replace(one, board=_named_apart(one.board))
            yield one


def _told_apart(serial: str, runs: Sequence[RunSummary]) -> list[BoardRuns]:
    """Return the boards of one serial number: two where revision or builder are not the same.

    Builders that number their own boards may use a number twice. What a run does not tell is taken
    to be as in the others.
    """
    boards: list[BoardRuns] = []
    for run in runs:
        own = BoardOfBatch(serial, serial, *_labels(run))
        index = next((n for n, one in enumerate(boards) if _is_one(one.board, own)), None)
        if index is None:
            boards.append(BoardRuns(own, (run,)))
        else:
            one = boards[index]
            boards[index] = BoardRuns(_filled(one.board, own), (*one.runs, run))
    return boards


def _labels(run: RunSummary) -> tuple[str, str, str]:
    return run.revision.strip(), run.builder.strip(), run.batch.strip()


def _is_one(known: BoardOfBatch, other: BoardOfBatch) -> bool:
    pairs = ((known.revision, other.revision), (known.builder, other.builder))
    return all(first == second or not first or not second for first, second in pairs)


def _filled(known: BoardOfBatch, other: BoardOfBatch) -> BoardOfBatch:
    return known._replace(
        revision=known.revision or other.revision,
        builder=known.builder or other.builder,
        batch=known.batch or other.batch,
    )


def _named_apart(board: BoardOfBatch) -> BoardOfBatch:
    revision = board.revision and f"rev. {board.revision}"
    beside = ", ".join(filter(None, (revision, board.builder)))
    return board._replace(name=f"{board.serial} ({beside})")
