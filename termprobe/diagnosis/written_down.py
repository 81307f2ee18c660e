"""How many slips there are in what somebody wrote down of a screen, by what it shows. Pure.

To count blanks wrongly is one slip, and so is to write all in another case. Of a code that has no
character of its own nobody knows how to write it: a blank, a full stop or a question mark will do.
"""

import re
from functools import lru_cache

from termprobe.diagnosis.edits import distance_within

MOST_SLIPS = 4
"""More than so many tell no more: the one is not the other."""
NO_CHARACTER = re.compile(rb"[\x00-\x09\x0b-\x1f\x7f]")
WRITTEN_FOR_IT = (b" ", b".", b"?", b"")
_RETURNS = re.compile(rb"\r\n?")
_TRAILING = re.compile(rb"[ \t]+(?=\n|$)")
_EMPTY_ROWS = re.compile(rb"\n{2,}")
_MANY = re.compile(rb" +|\n+")


@lru_cache(maxsize=1 << 14)
def slips(told: bytes, shown: bytes) -> int:
    """Return how many slips make what was told of what is shown, at most MOST_SLIPS.

    Rows are parted by line feeds.
    """
    told, shown = _tidied(_RETURNS.sub(b"\n", told)), _tidied(shown)
    ways = {shown, *(_tidied(NO_CHARACTER.sub(by, shown)) for by in WRITTEN_FOR_IT)}
    return min(_fewest(told, way) for way in ways)


def _fewest(told: bytes, shown: bytes) -> int:
    """Return the fewest slips, where a habit counts as one."""
    exact = distance_within(told, shown, MOST_SLIPS)
    if exact <= 1:
        return exact
    spaced = distance_within(_spaced_once(told), _spaced_once(shown), MOST_SLIPS)
    in_one_case = distance_within(told.lower(), shown.lower(), MOST_SLIPS)
    return min(exact, spaced + 1, in_one_case + 1, MOST_SLIPS)


def _spaced_once(text: bytes) -> bytes:
    """Return `text` with one blank, or one end of a row, for many."""
    return _MANY.sub(lambda many: many[0][:1], text).strip(b" ")


def _tidied(text: bytes) -> bytes:
    """Return `text` without blanks at the ends of rows, and without empty rows around it.

    Between two of its rows there is one empty row or none: in which row it began is not known.
    """
    rows = _TRAILING.sub(b"", text).strip(b"\n")
    return _EMPTY_ROWS.sub(b"\n\n", rows)
