"""What somebody noticed of a board, or told by mail: texts sent and seen, where, and keys.

Nobody says in which row a text stood. It is played in several, and a fault that shows what was seen
in half of them is half as likely as one that shows it in all. Nor does anybody say how the screen
was cleared and the cursor brought there: each text begins on a blank screen.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import and_, or_
from typing import NamedTuple

from termprobe.board.counters import Counted
from termprobe.diagnosis.area import Reading, Region
from termprobe.diagnosis.bell_symptom import BellSilent
from termprobe.diagnosis.blank_board import BlankBoard
from termprobe.diagnosis.dot_symptom import DotSymptom
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.unmodelled import Unmodelled
from termprobe.diagnosis.written_down import slips
from termprobe.profile.model import Profile

TRIED_ROWS = 4
"""In so many rows a text is played."""
ELSEWHERE = 14.0
"""What it costs where the cells that differ are none of those that were told."""
NEAR_ENOUGH = 0.1
"""Of rows and columns that differ, or were told, so many may be in one of the two alone."""
BESIDE = 0.1
"""How much of a region is held for odd where a text alone differs in it. A judgement."""
ROWS_OF_A_TEXT = 3
"""What differs in more rows is not beside the text alone."""
ROWS_BESIDE = 2
"""In so many other rows what stands there is taken for the text; in more the screen is full."""
LINE_END = b"\n"


NOWHERE = Region(frozenset(), frozenset())


class TextSymptom(NamedTuple):
    """A text that was sent, and what was seen of it."""

    sent: bytes
    seen: bytes
    """Codes of the characters; a line feed between rows."""


@dataclass(frozen=True)
class Symptom:
    """All that was noticed of one board."""

    texts: tuple[TextSymptom, ...] = ()
    area: tuple[Reading, ...] = ()
    """Where it was seen, as that may be meant; empty where it was not told."""
    keys: tuple[tuple[bytes, bytes], ...] = ()
    """(code of the key that was pressed, codes that came)."""
    dots: tuple[DotSymptom, ...] = ()
    """How characters are drawn, and what else is wrong with the light."""
    bell: BellSilent | None = None
    """A bell that was not heard; None where nobody told of it."""
    unmodelled: tuple[Unmodelled, ...] = ()
    """What no simulated fault explains."""

    @property
    def is_modelled(self) -> bool:
        """Whether anything was noticed that a simulated fault may explain."""
        return bool(self.texts or self.area or self.keys or self.dots or self.bell)


class Glimpse(NamedTuple):
    """What a board shows of a symptom's texts."""

    texts: tuple[tuple[bytes, ...], ...]
    """For each text what is seen of it in each of the rows in which it was played."""
    differing: Region
    """Rows and columns in which a screen full of the texts differs, where that matters."""
    beside: tuple[Region, ...] = ()
    """Where a screen full of them is right: rows and columns of each text that differs alone."""


class Start(NamedTuple):
    """Where a text is begun, and how likely it was begun there."""

    row: int
    column: int
    share: float


class ScreenSpan(NamedTuple):
    """Rows and columns in which a text stands; `right` is behind the last column."""

    first: int
    last: int
    left: int
    right: int


class Stagehand:
    """Plays the texts of one symptom on boards of one profile."""

    def __init__(self, profile: Profile, symptom: Symptom, good: BlankBoard) -> None:
        display = profile.display
        self._columns, self._symptom = display.columns, symptom
        self.whole = Region(frozenset(range(display.rows)), frozenset(range(display.columns)))
        self.starts = _starts(profile, symptom.area)
        self._full = _filling(profile, symptom.texts)
        self._good_full = self._screen(good, Counted(0, 0), self._full)
        self._good = [self._screens(good, text) for text in symptom.texts]
        pairs = zip(self._good, symptom.texts, strict=True)
        self._spans = [list(self._spans_of(screens, text)) for screens, text in pairs]

    def glimpse(self, board: BlankBoard) -> Glimpse:
        """Return what `board` shows."""
        texts, beside = [], []
        for number, text in enumerate(self._symptom.texts):
            seen = []
            for start, span, good in zip(
                self.starts, self._spans[number], self._good[number], strict=True
            ):
                rows = self._screen(board, _at(start), text.sent)
                seen.append(_seen(rows, span))
                if rows != good:
                    beside.append(_around(span, rows, good))
            texts.append(tuple(seen))
        if not self._symptom.area:
            return Glimpse(tuple(texts), NOWHERE)
        full = self._screen(board, Counted(0, 0), self._full)
        differing = _differing(full, self._good_full)
        if differing.rows:
            return Glimpse(tuple(texts), differing)
        return Glimpse(tuple(texts), NOWHERE, tuple(beside))

    def _screens(self, board: BlankBoard, text: TextSymptom) -> list[list[bytes]]:
        return [self._screen(board, _at(start), text.sent) for start in self.starts]

    def _spans_of(
        self, screens: Sequence[Sequence[bytes]], text: TextSymptom
    ) -> Iterator[ScreenSpan]:
        for rows, start in zip(screens, self.starts, strict=True):
            yield _span(rows, text, start)

    def _screen(self, board: BlankBoard, cursor: Counted, data: bytes) -> list[bytes]:
        codes, columns = board.shown(cursor, data), self._columns
        return [codes[start : start + columns] for start in range(0, len(codes), columns)]


def _at(start: Start) -> Counted:
    return Counted(start.row, start.column)


def _span(rows: Sequence[bytes], text: TextSymptom, start: Start) -> ScreenSpan:
    """Return where a good board, which shows `rows`, has the text."""
    written = [row for row, codes in enumerate(rows) if codes.strip(b" ")]
    first, last = min([*written, start.row]), max([*written, start.row])
    width = max(len(codes.rstrip(b" ")) for codes in rows[first : last + 1])
    seen_width = max(map(len, text.seen.split(LINE_END)))
    last = max(last, min(first + text.seen.count(LINE_END), len(rows) - 1))
    return ScreenSpan(first, last, start.column, max(width, start.column + seen_width))


def _around(span: ScreenSpan, shown: Sequence[bytes], good: Sequence[bytes]) -> Region:
    """Return where a text differs, with all rows in which it stands."""
    odd = _differing(shown, good)
    return odd._replace(rows=odd.rows.union(range(span.first, span.last + 1)))


def _differing(shown: Sequence[bytes], good: Sequence[bytes]) -> Region:
    """Return the rows and columns in which a screen is not as on a good board."""
    pairs = enumerate(zip(shown, good, strict=True))
    odd = {row: _differing_bits(*codes) for row, codes in pairs if codes[0] != codes[1]}
    in_any_row = reduce(or_, odd.values(), 0).to_bytes(len(good[0]), "big")
    columns = frozenset(column for column, bits in enumerate(in_any_row) if bits)
    return Region(frozenset(odd), columns)


def _differing_bits(first: bytes, second: bytes) -> int:
    return int.from_bytes(first, "big") ^ int.from_bytes(second, "big")


def _one_line(codes: bytes) -> bytes:
    """Return a row without blanks at its end, and with no code that would end it."""
    return codes.rstrip(b" ").replace(LINE_END, b"\x00")


def _seen(rows: Sequence[bytes], span: ScreenSpan) -> bytes:
    """Return what is seen where the text should stand, and in a few other rows if it is there."""
    written = [number for number, row in enumerate(rows) if row.strip(b" ")]
    first, last = span.first, span.last
    if len(written) <= last - first + 1 + ROWS_BESIDE:
        first, last = min([first, *written]), max([last, *written])
    lines = [_one_line(row[span.left : span.right]) for row in rows[first : last + 1]]
    return LINE_END.join(lines).strip(LINE_END)


def _starts(profile: Profile, area: Sequence[Reading]) -> list[Start]:
    """Return where texts are begun: in rows of the area, and where its columns begin, or at 0."""
    display = profile.display
    whole = Region(frozenset(range(display.rows)), frozenset(range(display.columns)))
    readings = area or (Reading(whole, 1.0),)
    count = max(TRIED_ROWS // len(readings), 1)
    starts = []
    for reading in readings[:TRIED_ROWS]:
        places = [
            (row, column)
            for row in sorted(reading.region.rows)[:count]
            for column in _first_columns(reading.region)
        ]
        starts += [Start(*place, reading.share / len(places)) for place in places]
    return starts


def _first_columns(region: Region) -> list[int]:
    """Return the columns in which a text in `region` may begin."""
    first = min(region.columns)
    if first and region.columns == frozenset(range(first, max(region.columns) + 1)):
        return [first, 0]
    return [0]


def _filling(profile: Profile, texts: Sequence[TextSymptom]) -> bytes:
    """Return what fills the screen but for its last cell: the texts, over and over.

    They are made longer until every column shows every one of their characters.
    """
    display = profile.display
    printed = bytes(code for text in texts for code in text.sent if 0x20 <= code < 0x7F)
    text = (printed or b"*U") + b" "
    while math.gcd(len(text), display.columns) > 1:
        text += b" "
    cells = display.rows * display.columns - 1
    return (text * (cells // len(text) + 1))[:cells]


def slips_in(text: TextSymptom, shown: Sequence[bytes]) -> list[int]:
    """Return for each row how many characters of what was written down are not as predicted."""
    return [slips(text.seen, one) for one in shown]


def fit_of_text(
    text: TextSymptom, shown: Sequence[bytes], rates: ErrorRates, shares: Sequence[float] = ()
) -> Fit:
    """Return the Fit of a text by what is predicted of it in each row; slips are borne.

    `shares` are how likely the rows are; they are alike by default.
    """
    counts = slips_in(text, shown)
    cost = -math.log(rates.slip / 2)
    known = shares or [1 / len(counts)] * len(counts)
    pairs = zip(known, counts, strict=True)
    chance = sum(share * math.exp(-cost * count) for share, count in pairs) / sum(known)
    log_likelihood = math.log(1 - rates.slip) + math.log(chance)
    return Fit(log_likelihood, tuple(sorted(shown)), not min(counts))


def fit_of_area(area: Sequence[Reading], glimpse: Glimpse) -> Fit:
    """Return the Fit of where something was seen, by where it is predicted."""
    odd = [_odd_share(reading, glimpse) for reading in area]
    chances = [
        reading.share * math.exp(-ELSEWHERE * share)
        for reading, share in zip(area, odd, strict=True)
    ]
    told = glimpse.differing, glimpse.beside
    return Fit(math.log(sum(chances)), told, min(odd) <= NEAR_ENOUGH)


def _meet(region: Region, beside: Region) -> bool:
    return len(beside.rows) <= ROWS_OF_A_TEXT and all(map(and_, region, beside))


def _odd_share(reading: Reading, glimpse: Glimpse) -> float:
    """Return how much of a region is not as predicted, from 0 to 1."""
    if any(_meet(reading.region, one) for one in glimpse.beside):
        return BESIDE
    if not glimpse.differing.rows:
        return 1.0
    pairs = zip(reading.region, glimpse.differing, strict=True)
    odd = [len(told ^ predicted) / len(told | predicted) for told, predicted in pairs]
    return max(share for share, is_told in zip(odd, reading.axes, strict=True) if is_told)
