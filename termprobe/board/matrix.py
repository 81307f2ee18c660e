"""The key matrix: contacts that are held close crossings, and which of them a scan finds closed."""

from collections.abc import Collection
from typing import Literal, NamedTuple

Crossing = tuple[int, int]
"""Row and column."""
Pair = tuple[int, int]


class Bridges(NamedTuple):
    """What joins the lines of a matrix beyond its keys."""

    rows: tuple[Pair, ...] = ()
    """Rows that touch."""
    columns: tuple[Pair, ...] = ()
    """Columns that touch."""
    shorted: frozenset[Crossing] = frozenset()
    """Crossings whose diode conducts both ways; of no effect where there are no diodes."""


NO_BRIDGES = Bridges()


class _Line(NamedTuple):
    """A line of the matrix."""

    kind: Literal["row", "column"]
    number: int


_Conducts = dict[_Line, set[_Line]]
"""For each line those that it conducts to."""


def closed(
    held: Collection[Crossing], diodes: bool, bridges: Bridges = NO_BRIDGES
) -> set[Crossing]:
    """Return the crossings that a scan finds closed while the contacts at `held` are.

    The scan drives one column and sees each row that has a path to it. A contact conducts both
    ways, with a diode from row to column only; lines that touch conduct both ways.
    """
    if len(held) < 2 and not bridges.rows and not bridges.columns:
        return set(held)  # one contact joins one row and one column, and no more
    conducts: _Conducts = {}
    for row, column in held:
        both_ways = not diodes or (row, column) in bridges.shorted
        _join(conducts, _Line("row", row), _Line("column", column), both_ways)
    for first, second in bridges.rows:
        _join(conducts, _Line("row", first), _Line("row", second), both_ways=True)
    for first, second in bridges.columns:
        _join(conducts, _Line("column", first), _Line("column", second), both_ways=True)
    return {
        (line.number, reached.number)
        for line in conducts
        if line.kind == "row"
        for reached in _reached(conducts, line)
        if reached.kind == "column"
    }


def _join(conducts: _Conducts, first: _Line, second: _Line, both_ways: bool) -> None:
    conducts.setdefault(first, set()).add(second)
    back = conducts.setdefault(second, set())
    if both_ways:
        back.add(first)


def _reached(conducts: _Conducts, start: _Line) -> set[_Line]:
    reached, ahead = {start}, [start]
    while ahead:
        new = conducts[ahead.pop()] - reached
        reached |= new
        ahead += new
    return reached
