"""What became of each board, run by run, and how long it took to find out what is wrong. Pure."""

from collections.abc import Iterator
from dataclasses import dataclass

from termprobe.errata.batch import Batch, BoardRuns
from termprobe.errata.summary import RunSummary
from termprobe.errata.time_to_cause import TimeToCause
from termprobe.verdict.model import FAIL, PASS

REPAIR = "repair"


@dataclass(frozen=True)
class BoardHistory:
    """Of one board."""

    name: str
    events: tuple[str, ...]
    """`fail (CAUSE)`, `repair`, `pass`, `incomplete`, in order."""
    missing: tuple[str, ...] = ()
    """Names of run files that its runs come after, and that are not among the files."""


@dataclass(frozen=True)
class MeanTime:
    """How long it took from the first look that differed until the cause was named."""

    runs: int
    """In which a fault was named."""
    looks: float
    minutes: float
    unnamed: int = 0
    """Runs in which looks failed and none was named."""


def histories(batch: Batch) -> tuple[BoardHistory, ...]:
    """Return what became of each board that did not simply pass, in the order of the batch."""
    found = (_history(one) for one in batch.boards)
    return tuple(one for one in found if one.events != (PASS,))


def mean_time(batch: Batch) -> MeanTime | None:
    """Return how long it took on average; None where no look failed on any board."""
    times = [run.time for one in batch.boards for run in one.runs if run.time is not None]
    if not times:
        return None
    named = [time for time in times if time.is_named]
    count = len(named)
    return MeanTime(count, _mean_looks(named), _mean_minutes(named), len(times) - count)


def _mean_looks(times: list[TimeToCause]) -> float:
    return sum(time.looks for time in times) / max(len(times), 1)


def _mean_minutes(times: list[TimeToCause]) -> float:
    return sum(time.minutes for time in times) / max(len(times), 1)


def _history(one: BoardRuns) -> BoardHistory:
    events: list[str] = []
    for before, run in zip((None, *one.runs), one.runs, strict=False):
        events += _events(before, run)
    files = {_file_name(run.path) for run in one.runs}
    missing = [run.after for run in one.runs if run.after and run.after not in files]
    return BoardHistory(one.board.name, tuple(events), tuple(dict.fromkeys(missing)))


def _events(before: RunSummary | None, run: RunSummary) -> Iterator[str]:
    """Yield what a run adds: a repair where it comes after a run that failed."""
    if before is not None and before.has_failed_once and run.after:
        yield REPAIR
    causes = ", ".join(cause.faults[0] for cause in run.causes)
    told = f" ({causes})" if causes else ""
    if run.has_failed_once:
        yield f"{FAIL}{told}"
        if run.verdict != FAIL:
            yield REPAIR
            yield run.verdict
    else:
        part = " of a part" if run.is_part else ""
        yield f"{run.verdict}{part}"


def _file_name(path: str) -> str:
    return path.replace("\\", "/").rpartition("/")[2]
