"""Where on a screen something was seen, as rows and columns.

Words may mean several parts of a screen: every other row may begin with the first or the second,
and who does not say so may count rows from 1. Each is a reading, with how likely it is meant.
"""

import math
import re
from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import product
from typing import NamedTuple

from termprobe.diagnosis.area_phrases import phrases_of
from termprobe.diagnosis.area_words import AREA_EXAMPLES, Cells, meanings
from termprobe.diagnosis.nearest_phrase import nearest_phrase
from termprobe.errors import UsageError

FROM_ONE = 0.05
"""So often rows and columns are counted from 1 where that is not said. A judgement."""
MOST_READINGS = 100
"""Words that may mean more say nothing."""
_SOME = '"odd rows", "right half" or "rows 2-9, column 5"'
_COUNTED = re.compile(r"\(?\bcount(?:ing|ed)? from (0|zero|1|one)\b\)?")
_BASES = {"0": (0,), "zero": (0,), "1": (1,), "one": (1,)}


class Region(NamedTuple):
    """Cells of a screen: those in one of the rows and one of the columns."""

    rows: frozenset[int]
    columns: frozenset[int]


class Reading(NamedTuple):
    """What words may mean."""

    region: Region
    share: float
    """How likely it is meant; those of all readings make 1."""
    axes: tuple[bool, bool] = (True, True)
    """Whether it tells of rows, and of columns: some of all rows leave it open in which columns."""


def area_of(words: str, rows: int, columns: int) -> Region:
    """Return the Region that `words` most probably mean on a screen of that size.

    Raise UsageError where they mean none.
    """
    return readings_of(words, rows, columns)[0].region


def readings_of(words: str, rows: int, columns: int) -> tuple[Reading, ...]:
    """Return what `words` may mean on a screen of that size, the likeliest first.

    Raise UsageError where they mean nothing.
    """
    found = _read(words, (rows, columns))
    if found:
        return found
    near = nearest_phrase(words, AREA_EXAMPLES, lambda one: bool(_read(one, (rows, columns))))
    raise UsageError(
        f"--where must be words such as {_SOME}, on a screen of {rows} rows and {columns} columns, "
        f'not "{words}"{near}; `termprobe explain --words` prints all that is understood'
    )


def _read(words: str, size: tuple[int, int]) -> tuple[Reading, ...]:
    """Return what `words` may mean on a screen of that size; nothing where they mean nothing."""
    told = words.lower()
    counted = _COUNTED.search(told)
    bases: Sequence[int] = (0, 1)
    if counted is not None:
        bases = _BASES[counted[1]]
        told = _COUNTED.sub(" ", told)
    of_base = [list(_regions(told, size, base)) for base in bases]
    return _weighed([regions for regions in of_base if regions], size)


def _weighed(of_base: Sequence[Sequence[Region]], size: tuple[int, int]) -> tuple[Reading, ...]:
    """Return the readings by all ways of counting that are possible, the usual one first."""
    shares: dict[Region, float] = {}
    for number, regions in enumerate(of_base):
        share = FROM_ONE
        if number == 0:
            share = 1.0 - FROM_ONE * (len(of_base) - 1)
        for region in regions:
            shares[region] = shares.get(region, 0.0) + share / len(regions)
    readings = [Reading(region, share, _axes(region, size)) for region, share in shares.items()]
    return tuple(sorted(readings, key=lambda one: -one.share))


def _axes(region: Region, size: tuple[int, int]) -> tuple[bool, bool]:
    """Return of what a region tells; all of the screen tells of both."""
    rows, columns = (len(found) < count for found, count in zip(region, size, strict=True))
    return (rows, columns) if rows or columns else (True, True)


def _regions(told: str, size: tuple[int, int], base: int) -> Iterator[Region]:
    """Yield each Region that the phrases may mean together, where rows count from `base`."""
    of_phrases = [meanings(phrase, size, base) for phrase in phrases_of(told)]
    if math.prod(map(len, of_phrases)) > MOST_READINGS:
        return
    for cells in product(*of_phrases):
        common = reduce(_common, cells, (frozenset(range(size[0])), frozenset(range(size[1]))))
        if cells and all(common):
            yield Region(*common)


def _common(first: Cells, second: Cells) -> Cells:
    """Return the rows and the columns that are in both."""
    return first[0] & second[0], first[1] & second[1]
