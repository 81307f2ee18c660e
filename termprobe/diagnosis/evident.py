"""By which looks a fault is shown, whatever the looks were played after, and whoever looks.

Looks are bits: the first of the plan is bit 0.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from termprobe.board.wiring import DATA_LINES
from termprobe.diagnosis.cover import bits_of
from termprobe.diagnosis.playing import BothWays, Performance, Stood
from termprobe.diagnosis.shown import Sight, noticed_dots
from termprobe.profile.characters import character_set
from termprobe.profile.model import Profile


class Evident(NamedTuple):
    """The looks that show a fault."""

    surely: int
    """However they are played."""
    perhaps: int
    """In one way of playing them at least."""

    def by(self, looks: int) -> "Evident":
        """Return what it is where these looks alone are known."""
        return Evident(self.surely & looks, self.perhaps & looks)


Seeing = Callable[[Sight], bool]
"""Tells whether somebody notices that something differs."""
WAYS_OF_SEEING: tuple[Seeing, ...] = (
    lambda shown: shown.cells > 0,
    lambda shown: shown.cells > 0 or shown.cursor,
    lambda shown: shown.cells > 0 or shown.bells,
    lambda shown: shown.cells > 0 or shown.dots > 0,
)
"""Characters alone, as a dump does; these and the cursor; these and the bell; these and their dots,
as only an eye does."""
CODES = range(256)


def _digits(bit: int, level: int) -> bytes:
    return bytes(ord("0") + ((code >> bit & 1) != level) for code in CODES)


_AS_DIGITS = [_digits(bit, level) for bit in range(DATA_LINES) for level in (0, 1)]
"""For each bit of a cell and the level at which it is stuck: 1 for each code that it changes."""


def evident_in(performances: Iterable[Performance]) -> Iterator[Evident]:
    """Yield by which looks each fault is shown, once for each way of seeing."""
    for performance in performances:
        for sees in WAYS_OF_SEEING:
            yield _evident(performance, sees)


def _evident(performance: Performance, sees: Seeing) -> Evident:
    in_order, alone = (_bits(map(sees, shown)) for shown in performance)
    return Evident(in_order & alone, in_order | alone)


def differing(shown: Sequence[Sight]) -> int:
    """Return the looks at which anything differs."""
    return _bits(bool(each.picture) for each in shown)


def _bits(truths: Iterable[bool]) -> int:
    return bits_of(number for number, is_true in enumerate(truths) if is_true)


def stuck_bits(kept: BothWays[bytes]) -> frozenset[Evident]:
    """Return by which looks the bits of single RAM cells are shown that always read the same.

    `kept` holds what each cell of a good board gives at each look.
    """
    return frozenset(evident for history in histories(kept) for evident in stuck_in(history))


def single_dots(profile: Profile, stood: BothWays[Stood]) -> dict[int, Evident]:
    """Return by each code that is drawn the looks that show it where one of its dots is wrong.

    `stood` is what a good board shows at each look. It is empty where nothing is known of dots.
    """
    box, printing = profile.display.dots, profile.display.printing
    if box is None:
        return {}
    printed = range(printing.first, printing.last + 1)
    drawn = character_set(str(box.characters)).glyphs.keys() & set(printed)
    return {code: _of_drawing(code, stood) for code in sorted(drawn)}


def _of_drawing(code: int, stood: BothWays[Stood]) -> Evident:
    in_order = _bits(_is_noticed(code, one) for one in stood.in_order)
    alone = _bits(_is_noticed(code, one) for one in stood.alone)
    return Evident(in_order & alone, in_order | alone)


def _is_noticed(code: int, stood: Stood) -> bool:
    """Return whether it is noticed at a look that the character is drawn wrong."""
    drawn_wrong = ((chr(code), ""),)
    return code in stood.codes and bool(noticed_dots(stood.codes, drawn_wrong, stood.wanted))


History = tuple[tuple[int, ...], tuple[int, ...]]
"""What a cell of a good board gives at each look, played in order and alone."""


def histories(kept: BothWays[bytes]) -> dict[History, list[int]]:
    """Return each History with the numbers of the cells that have it, in physical order."""
    found: dict[History, list[int]] = {}
    of_cells = zip(zip(*kept.in_order, strict=True), zip(*kept.alone, strict=True), strict=True)
    for cell, history in enumerate(of_cells):
        found.setdefault(history, []).append(cell)
    return found


def stuck_in(history: History) -> Iterator[Evident]:
    """Yield by which looks it is shown that a bit is stuck: bit after bit, level 0 before 1."""
    in_order, alone = history
    for digits in _AS_DIGITS:
        first, second = _changed(in_order, digits), _changed(alone, digits)
        yield Evident(first & second, first | second)


def _changed(codes: Sequence[int], digits: bytes) -> int:
    """Return the looks at which a stuck bit changes what a cell gives, of its code at each."""
    return int(bytes(reversed(codes)).translate(digits) or b"0", 2)
