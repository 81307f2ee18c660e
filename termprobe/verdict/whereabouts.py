"""Where the differences of an Evidence are, and what is made of the codes there. Pure."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product, starmap

from termprobe.verdict.changes import (
    Area,
    Axis,
    Block,
    Change,
    EveryOther,
    OneLine,
    Part,
    block_of,
)
from termprobe.verdict.evidence import Evidence, Explanation, code_of_character

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
    is_whole: bool = True
    """As of the Evidence."""
    is_told: bool = True
    """Of some differences it is known what is seen there."""


def gist(evidence: Evidence) -> Gist:
    """Return where the differences are, and the change that explains them best."""
    found = evidence.explanation
    is_whole, is_told = evidence.is_whole, bool(evidence.told)
    if found is None:
        return Gist(_of_differences(evidence), None, is_whole, is_told)
    return Gist(_of_explained(evidence, found), found.change, is_whole, is_told)


def where_it_can_show(evidence: Evidence) -> Part | None:
    """Return the part of the screen that alone can show a change that acts on all of it.

    None is returned where most of the screen can show it, and where the change acts on less.
    """
    where, found = gist(evidence).where, evidence.explanation
    if found is None or not isinstance(where, Within) or not where.part.is_everywhere:
        return None
    cells = {
        (cell.row, cell.column)
        for cell in (*evidence.differs, *found.contradictions)
        if _is_changed(cell.expected, found.change, evidence.variant)
    }
    part = _of_cells(tuple(cells), evidence.rows, evidence.columns)
    if not isinstance(part, Within) or _is_most(part.part.area, evidence):
        return None
    return Part(part.part.area, where.part.is_written_only)


def _is_changed(expected: str, change: Change, variant: str) -> bool:
    code = code_of_character(expected, variant)
    return code is not None and change.table[code] != code


def _is_most(area: Area, evidence: Evidence) -> bool:
    """Return whether the area is more than two thirds of the screen."""
    cells = list(product(range(evidence.rows), range(evidence.columns)))
    return sum(starmap(area.holds, cells)) * 3 > len(cells) * 2


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
    return _of_cells(cells, evidence.rows, evidence.columns)


def _of_cells(cells: Sequence[tuple[int, int]], height: int, width: int) -> Only | Within | Spread:
    """Return where cells (row, column) are on a screen of that size."""
    if len(cells) <= FEW:
        return Only(tuple(cells))
    rows, columns = zip(*cells, strict=True)
    line = _of_numbers("row", rows) or _of_numbers("column", columns)
    if line is not None:
        return Within(Part(line))
    block = block_of(cells)
    if block == Block(0, height - 1, 0, width - 1):
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
