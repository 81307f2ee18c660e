"""What somebody noticed of a board, or told by mail: texts sent and seen, where, and keys.

Nobody says in which row a text stood. It is played in several, and a fault that shows what was seen
in half of them is half as likely as one that shows it in all.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_
from typing import NamedTuple

from termprobe.board.board import Board
from termprobe.diagnosis.area import Region
from termprobe.diagnosis.edits import distance
from termprobe.diagnosis.error_rates import ErrorRates
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.fits import MOST_SLIPS
from termprobe.diagnosis.score import sender_to
from termprobe.profile.encode import encode
from termprobe.profile.model import Profile

TRIED_ROWS = 4
"""In so many rows a text is played."""
ELSEWHERE = 14.0
"""What it costs where the cells that differ are none of those that were told."""
NEAR_ENOUGH = 0.1
"""Of rows and columns that differ, or were told, so many may be in one of the two alone."""
LINE_END = "\n"


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
    area: Region | None = None
    """Where it was seen; None where that was not told."""
    keys: tuple[tuple[bytes, bytes], ...] = ()
    """(code of the key that was pressed, codes that came)."""


class Glimpse(NamedTuple):
    """What a board shows of a symptom's texts."""

    texts: tuple[tuple[bytes, ...], ...]
    """For each text what is seen of it in each of the rows in which it was played."""
    differing: Region
    """Rows and columns in which a screen full of the texts differs, where that matters."""


class Stagehand:
    """Plays the texts of one symptom on boards of one profile."""

    def __init__(self, profile: Profile, symptom: Symptom) -> None:
        self._profile, self._symptom = profile, symptom
        self._clear = _command(profile, "clear") or b""
        self._starts = _starts(profile, symptom.area)
        self._spans = list(map(self._spans_of, symptom.texts))
        self._full = self._clear + _filling(profile, symptom.texts)
        self._good_full = self._screen(Board(profile), self._full)

    def glimpse(self, board: Board) -> Glimpse:
        """Return what `board` shows."""
        at_first = board.state
        texts = []
        for text, spans in zip(self._symptom.texts, self._spans, strict=True):
            seen = []
            for start, span in zip(self._starts, spans, strict=True):
                board.state = at_first
                seen.append(_seen(self._screen(board, self._clear + start.data + text.sent), span))
            texts.append(tuple(seen))
        board.state = at_first
        differing = NOWHERE
        if self._symptom.area is not None:
            differing = self._differing(board)
        return Glimpse(tuple(texts), differing)

    def _screen(self, board: Board, data: bytes) -> list[bytes]:
        sender_to(board)([data])
        codes, columns = board.drawn(), self._profile.display.columns
        return [codes[start : start + columns] for start in range(0, len(codes), columns)]

    def _spans_of(self, text: TextSymptom) -> "list[ScreenSpan]":
        return [self._span(text, start) for start in self._starts]

    def _span(self, text: TextSymptom, start: "Start") -> "ScreenSpan":
        """Return where a good board shows the text."""
        rows = self._screen(Board(self._profile), self._clear + start.data + text.sent)
        written = [row for row, codes in enumerate(rows) if codes.strip()]
        first, last = min(written, default=start.row), max(written, default=start.row)
        width = max(len(codes.rstrip()) for codes in rows[first : last + 1])
        seen_width = max(map(len, text.seen.split(LINE_END.encode())))
        return ScreenSpan(first, last, start.column, max(width, start.column + seen_width))

    def _differing(self, board: Board) -> Region:
        """Return the rows and columns in which a full screen is not as on a good board."""
        pairs = enumerate(zip(self._screen(board, self._full), self._good_full, strict=True))
        odd = {row: _differing_bits(shown, good) for row, (shown, good) in pairs if shown != good}
        width = self._profile.display.columns
        in_any_row = reduce(or_, odd.values(), 0).to_bytes(width, "big")
        columns = frozenset(column for column, bits in enumerate(in_any_row) if bits)
        return Region(frozenset(odd), columns)


def _differing_bits(first: bytes, second: bytes) -> int:
    return int.from_bytes(first, "big") ^ int.from_bytes(second, "big")


class Start(NamedTuple):
    """Where a text is begun, and what brings the cursor there after a clear."""

    row: int
    column: int
    data: bytes


class ScreenSpan(NamedTuple):
    """Rows and columns in which a text stands; `right` is behind the last column."""

    first: int
    last: int
    left: int
    right: int


def _seen(rows: Sequence[bytes], span: ScreenSpan) -> bytes:
    lines = [row[span.left : span.right].rstrip() for row in rows[span.first : span.last + 1]]
    return LINE_END.encode().join(lines).rstrip()


def _command(profile: Profile, action: str, times: int = 1) -> bytes | None:
    """Return the bytes of the first command that does `action`; None where the board has none."""
    for command in profile.commands:
        if command.action == action:
            return encode(profile, str(command.name)) * times
    return None


def _starts(profile: Profile, area: Region | None) -> list[Start]:
    """Return where texts are begun: in rows of the area, and where its columns begin."""
    display = profile.display
    rows, column = list(range(display.rows)), 0
    if area is not None:
        rows = sorted(area.rows)
        first = min(area.columns)
        if area.columns == frozenset(range(first, max(area.columns) + 1)):
            column = first
    starts = []
    for row in rows[:TRIED_ROWS]:
        down, right = _command(profile, "down", row), _command(profile, "right", column)
        if down is not None and right is not None:
            starts.append(Start(row, column, down + right))
    return starts or [Start(0, 0, b"")]


def _filling(profile: Profile, texts: Sequence[TextSymptom]) -> bytes:
    """Return what fills the screen but for its last cell: the texts, over and over.

    They are made longer until every column shows every one of their characters.
    """
    display = profile.display
    text = bytes(code for text in texts for code in text.sent if 0x20 <= code < 0x7F) or b"*U"
    while math.gcd(len(text), display.columns) > 1:
        text += b" "
    cells = display.rows * display.columns - 1
    return (text * (cells // len(text) + 1))[:cells]


def slips_in(text: TextSymptom, shown: Sequence[bytes]) -> list[int]:
    """Return for each row how many characters of what was written down are not as predicted."""
    return [min(distance(text.seen.rstrip(), one), MOST_SLIPS) for one in shown]


def fit_of_text(text: TextSymptom, shown: Sequence[bytes], rates: ErrorRates) -> Fit:
    """Return the Fit of a text by what is predicted of it in each row; slips are borne."""
    slips = slips_in(text, shown)
    cost = -math.log(rates.slip / 2)
    chance = sum(math.exp(-cost * count) for count in slips) / len(slips)
    log_likelihood = math.log(1 - rates.slip) + math.log(chance)
    return Fit(log_likelihood, tuple(sorted(shown)), not min(slips))


def fit_of_area(area: Region, differing: Region) -> Fit:
    """Return the Fit of where something was seen, by where it is predicted."""
    odd = [
        len(told ^ predicted) / len(told | predicted)
        for told, predicted in zip(area, differing, strict=True)
        if told | predicted
    ]
    worst = max(odd, default=0.0)
    return Fit(-ELSEWHERE * worst, differing, worst <= NEAR_ENOUGH)
