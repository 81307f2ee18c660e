"""Two runs side by side as JSON: the records of the document, and what makes them. Pure."""

from dataclasses import dataclass

from termprobe.report.comparison import FieldCompared, PhotosCompared, RunComparison, StepCompared
from termprobe.report.facts.pictures import Cell, RowTexts, ScreenFacts
from termprobe.report.plain import Plain, plain_record


@dataclass(frozen=True)
class ScreensTold:
    """What both runs showed in a step, row by row."""

    first: RowTexts
    second: RowTexts
    cursors: tuple[Cell | None, Cell | None]
    """Row and column in the first run, and in the second."""


@dataclass(frozen=True)
class StepComparedTold:
    """A step of which something is not the same, or that fails in both runs."""

    id: str
    became: str
    first: str
    """Its verdict; empty where the run has it not."""
    second: str
    screens: ScreensTold | None


@dataclass(frozen=True)
class ComparisonDocument:
    """The document of `compare --format json`."""

    first: str
    second: str
    worse: bool
    same: int
    fields: tuple[FieldCompared, ...]
    steps: tuple[StepComparedTold, ...]
    photos: tuple[PhotosCompared, ...]


def comparison_document(found: RunComparison) -> Plain:
    """Return the document of `compare --format json`."""
    return plain_record(
        ComparisonDocument(
            found.first,
            found.second,
            found.is_worse,
            found.same,
            found.fields,
            tuple(map(_step, found.steps)),
            found.photos,
        )
    )


def _step(step: StepCompared) -> StepComparedTold:
    return StepComparedTold(step.id, step.became, step.first, step.second, _screens(step.screen))


def _screens(screen: ScreenFacts | None) -> ScreensTold | None:
    """Return both screens; None where either is not known."""
    if screen is None or screen.seen is None:
        return None
    return ScreensTold(screen.expected, screen.seen, (screen.cursor, screen.cursor_seen))
