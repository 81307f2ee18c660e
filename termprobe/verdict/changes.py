"""What a fault of one or two bits makes of every code, and on which parts of a screen."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

BITS = 7
PARITY = ("even", "odd")


@dataclass(frozen=True)
class Change:
    """What a fault makes of every code."""

    text: str
    is_single_bit: bool
    cost: float
    """In contradictions: by so many the simpler change may be worse and is still preferred."""
    table: tuple[int, ...]
    """Code seen for each code 0 to 127."""


@dataclass(frozen=True)
class Part:
    """A part of the screen."""

    where: str
    """After "every difference is": `in an odd row`; for the whole screen a phrase of its own."""
    cost: float
    holds: Callable[[int, int, bool], bool]
    """(row, column, whether the cell is expected blank) -> whether the cell belongs to it."""
    is_everywhere: bool = False
    """It is the whole screen."""

    @property
    def is_last_resort(self) -> bool:
        """Whether it is told only where no other part explains anything."""
        return self.cost == float("inf")


@lru_cache(1)
def changes() -> tuple[Change, ...]:
    """Return every Change that is tried: blank, each bit stuck, each two bridged or exchanged."""
    found = [_change("what should be there is blank", 0, lambda code: 0x20)]
    for bit in range(BITS):
        found += _stuck(bit)
    for first, second in combinations(range(BITS), 2):
        found += _of_two(first, second)
    return tuple(found)


def _change(text: str, cost: float, of_code: Callable[[int], int], single: bool = False) -> Change:
    return Change(text, single, cost, tuple(of_code(code) for code in range(1 << BITS)))


def _stuck(bit: int) -> Iterator[Change]:
    mask = 1 << bit
    yield _change(f"bit {bit} arrives as 0", 0, lambda code: code & ~mask, single=True)
    yield _change(f"bit {bit} arrives as 1", 0, lambda code: code | mask, single=True)


def _of_two(first: int, second: int) -> Iterator[Change]:
    both, names = (1 << first) | (1 << second), f"bits {first} and {second}"
    yield _change(
        f"{names} both arrive as 0 unless both should be 1",
        1,
        lambda code: code if code & both == both else code & ~both,
    )
    yield _change(
        f"{names} both arrive as 1 unless both should be 0",
        1,
        lambda code: code | both if code & both else code,
    )
    yield _change(
        f"{names} arrive exchanged",
        1,
        lambda code: code if code & both in (0, both) else code ^ both,
    )


def parts(cells: Sequence[tuple[int, int]]) -> tuple[Part, ...]:
    """Return every Part that is tried for differences in `cells`, larger parts first.

    Each cell is (row, column).
    """
    rows, columns = [row for row, _ in cells], [column for _, column in cells]
    top, bottom, left, right = min(rows), max(rows), min(columns), max(columns)
    found = [Part("all over the screen", 0, lambda row, column, blank: True, is_everywhere=True)]
    for parity in (0, 1):
        found += _of_parity(parity)
    if left == right:
        found.append(Part(f"in column {left}", 2, lambda row, column, blank: column == left))
    if top == bottom:
        found.append(Part(f"in row {top}", 2, lambda row, column, blank: row == top))
    block = f"in {span('row', top, bottom)}, {span('column', left, right)}"
    found.append(Part(block, 3, _of_block(range(top, bottom + 1), range(left, right + 1))))
    some = frozenset(cells)
    single = "in a single cell" if len(some) == 1 else "in single cells"
    last = Part(single, float("inf"), lambda row, column, blank: (row, column) in some)
    return (*found, *map(_written_only, found), last)


def _of_parity(parity: int) -> Iterator[Part]:
    word = PARITY[parity]
    yield Part(f"in an {word} row", 1, lambda row, column, blank: row % 2 == parity)
    yield Part(f"in an {word} column", 1.5, lambda row, column, blank: column % 2 == parity)


def _of_block(rows: range, columns: range) -> Callable[[int, int, bool], bool]:
    return lambda row, column, blank: row in rows and column in columns


def _written_only(part: Part) -> Part:
    """Return the cells of `part` that are not expected blank."""
    return Part(
        f"{part.where}, blanks being right",
        part.cost + 0.5,
        lambda row, column, blank: not blank and part.holds(row, column, blank),
        part.is_everywhere,
    )


def span(word: str, first: int, last: int) -> str:
    """Return `row 3`, or `rows 3 to 5`."""
    return f"{word} {first}" if first == last else f"{word}s {first} to {last}"
