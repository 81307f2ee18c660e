"""Where the differences of an Evidence are, and what is made of the codes there. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass

from termprobe.verdict.changes import Axis, Block, Change, EveryOther, OneLine, Part, block_of
from termprobe.verdict.evidence import Evidence, Explanation

FEW = 3
"""So many cells are named one by one."""


@dataclass(frozen=True)
class OfBytes:
    """Some of the characters that came back differ."""

    differing: int
    of: int


@dataclass(frozen=True)
class Only:
    """A few cells differ, and no others."""

    cells: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Spread:
    """The differences reach all edges of the screen."""


@dataclass(frozen=True)
class Within:
    """All differences are in a part of the screen."""

    part: Part


@dataclass(frozen=True)
class WithinCells:
    """All differences are in single cells, which have nothing else in common."""

    is_one: bool


@dataclass(frozen=True)
class Mostly:
    """Some of the differences are in a part of the screen."""

    part: Part
    inside: int
    of: int


Whereabouts = OfBytes | Only | Spread | Within | WithinCells | Mostly


@dataclass(frozen=True)
class Gist:
    """What an Evidence says before all else; steps that fail alike have the same."""

    where: Whereabouts
    change: Change | None
    """None where no change explains the differences."""


def gist(evidence: Evidence) -> Gist:
    """Return where the differences are, and the change that explains them best."""
    found = evidence.explanation
    if found is None:
        return Gist(_of_differences(evidence), None)
    return Gist(_of_explained(evidence, found), found.change)


def _of_explained(evidence: Evidence, found: Explanation) -> Whereabouts:
    part = found.part
    is_few = part.is_everywhere and len(evidence.differs) <= FEW
    if evidence.is_of_bytes or not evidence.is_whole or is_few:
        return _of_differences(evidence)
    inside = [
        part.holds(row, column, expected == " ") for row, column, expected, _ in evidence.differs
    ]
    if part.is_last_resort:
        return WithinCells(len(inside) == 1)
    if part.is_everywhere or all(inside):
        return Within(part)
    return Mostly(part, sum(inside), len(inside))


def _of_differences(evidence: Evidence) -> Whereabouts:
    """Return where the differences are, whatever explains them."""
    if evidence.is_of_bytes:
        return OfBytes(len(evidence.differs), evidence.columns)
    cells = tuple((row, column) for row, column, *_ in evidence.differs)
    if len(cells) <= FEW:
        return Only(cells)
    rows, columns = zip(*cells, strict=True)
    line = _of_numbers("row", rows) or _of_numbers("column", columns)
    if line is not None:
        return Within(Part(line))
    block = block_of(cells)
    if block == Block(0, evidence.rows - 1, 0, evidence.columns - 1):
        return Spread()
    return Within(Part(block))


def _of_numbers(axis: Axis, numbers: Iterable[int]) -> OneLine | EveryOther | None:
    """Return what the rows, or the columns, with these numbers have in common, or None."""
    first, *others = set(numbers)
    if not others:
        return OneLine(axis, first)
    if all(number % 2 == first % 2 for number in others):
        return EveryOther(axis, first % 2)
    return None
