"""What a fault of one or two bits makes of every code, and on which parts of a screen."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import combinations
from typing import Literal

BITS = 7
BLANK = 0x20

Axis = Literal["row", "column"]


@dataclass(frozen=True)
class Change:
    """What a fault makes of every code."""

    kind: Literal["blank", "stuck", "bridged", "exchanged"]
    """All is blank; one bit always arrives as `level`; two bits arrive alike, both as `level`
    where one of them has it; two bits arrive in each other's place."""
    bits: tuple[int, ...] = ()
    level: int = 0

    @property
    def is_single_bit(self) -> bool:
        """Whether a single bit is at fault."""
        return len(self.bits) == 1

    @property
    def cost(self) -> float:
        """In contradictions: by so many the simpler change may be worse and is still preferred."""
        return float(len(self.bits) == 2)

    @cached_property
    def table(self) -> tuple[int, ...]:
        """Code seen for each code 0 to 127."""
        return tuple(map(self._seen, range(1 << BITS)))

    def _seen(self, code: int) -> int:
        mask = sum(1 << bit for bit in self.bits)
        forced = code | mask if self.level else code & ~mask
        match self.kind:
            case "blank":
                return BLANK
            case "stuck":
                return forced
            case "bridged":
                weaker = 0 if self.level else mask
                return code if code & mask == weaker else forced
            case "exchanged":
                return code if code & mask in (0, mask) else code ^ mask


@dataclass(frozen=True)
class Everywhere:
    """The whole screen."""

    cost = 0.0

    def holds(self, row: int, column: int) -> bool:
        """Return whether the cell belongs to it: each does."""
        return True


@dataclass(frozen=True)
class EveryOther:
    """Every other row, or every other column."""

    axis: Axis
    parity: int
    """0 for the even ones, 1 for the odd ones."""

    @property
    def cost(self) -> float:
        """In contradictions; rows are preferred."""
        return {"row": 1.0, "column": 1.5}[self.axis]

    def holds(self, row: int, column: int) -> bool:
        """Return whether the cell belongs to it."""
        number = row if self.axis == "row" else column
        return number % 2 == self.parity


@dataclass(frozen=True)
class OneLine:
    """One row, or one column."""

    axis: Axis
    number: int
    cost = 2.0

    def holds(self, row: int, column: int) -> bool:
        """Return whether the cell belongs to it."""
        return self.number == (row if self.axis == "row" else column)


@dataclass(frozen=True)
class Block:
    """The cells from one corner to the other, both included."""

    top: int
    bottom: int
    left: int
    right: int
    cost = 3.0

    def holds(self, row: int, column: int) -> bool:
        """Return whether the cell belongs to it."""
        return self.top <= row <= self.bottom and self.left <= column <= self.right


@dataclass(frozen=True)
class SingleCells:
    """Some cells: told only where no other area explains anything."""

    cells: frozenset[tuple[int, int]]
    cost = float("inf")

    def holds(self, row: int, column: int) -> bool:
        """Return whether the cell belongs to it."""
        return (row, column) in self.cells


Area = Everywhere | EveryOther | OneLine | Block | SingleCells


@dataclass(frozen=True)
class Part:
    """A part of the screen."""

    area: Area
    is_written_only: bool = False
    """Cells that are expected blank do not belong to it."""

    @property
    def cost(self) -> float:
        """In contradictions, as of a Change."""
        return self.area.cost + 0.5 * self.is_written_only

    @property
    def is_everywhere(self) -> bool:
        """Whether it is the whole screen, or all that is written there."""
        return isinstance(self.area, Everywhere)

    @property
    def is_last_resort(self) -> bool:
        """Whether it is told only where no other part explains anything."""
        return isinstance(self.area, SingleCells)

    def holds(self, row: int, column: int, is_blank: bool) -> bool:
        """Return whether the cell belongs to it; `is_blank` tells whether it is expected blank."""
        if self.is_written_only and is_blank:
            return False
        return self.area.holds(row, column)


@lru_cache(1)
def changes() -> tuple[Change, ...]:
    """Return every Change that is tried: blank, each bit stuck, each two bridged or exchanged."""
    found = [Change("blank")]
    for bit in range(BITS):
        found += [Change("stuck", (bit,), 0), Change("stuck", (bit,), 1)]
    for both in combinations(range(BITS), 2):
        found += [Change("bridged", both, 0), Change("bridged", both, 1), Change("exchanged", both)]
    return tuple(found)


def parts(cells: Sequence[tuple[int, int]]) -> tuple[Part, ...]:
    """Return every Part that is tried for differences in `cells`, larger parts first.

    Each cell is (row, column).
    """
    areas = tuple(_areas(cells))
    last = Part(SingleCells(frozenset(cells)))
    return (*map(Part, areas), *(Part(area, is_written_only=True) for area in areas), last)


def _areas(cells: Sequence[tuple[int, int]]) -> Iterator[Area]:
    block = block_of(cells)
    yield Everywhere()
    for parity in (0, 1):
        yield EveryOther("row", parity)
        yield EveryOther("column", parity)
    if block.left == block.right:
        yield OneLine("column", block.left)
    if block.top == block.bottom:
        yield OneLine("row", block.top)
    yield block


def block_of(cells: Sequence[tuple[int, int]]) -> Block:
    """Return the smallest Block that holds all `cells` ((row, column), ...), at least one."""
    rows, columns = [row for row, _ in cells], [column for _, column in cells]
    return Block(min(rows), max(rows), min(columns), max(columns))
