"""What a look shows on a board, against what it must show."""

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import lru_cache
from hashlib import blake2b
from typing import NamedTuple

from termprobe.board.memory import characters_of, codes_of
from termprobe.diagnosis.regions import touched
from termprobe.profile.variants import NO_VARIANT
from termprobe.terminal.dots import Misdrawn, cells_of, noticed
from termprobe.terminal.screen import Screen

PICTURE_BYTES = 8


class Sought(NamedTuple):
    """What a look must show."""

    codes: bytes
    """Of each cell, row after row."""
    cursor: tuple[int, int] | None
    bells: int
    asks_dots: bool = False
    """Whether who looks is asked to compare the dots of each character."""
    columns: int = 0
    """Of the screen; 0 where nobody asks in which regions it differs."""
    variant: str = NO_VARIANT
    """The national variant in which the codes are shown, by its id."""


class Sight(NamedTuple):
    """How a look differs from what it must show."""

    cells: int
    """How many cells differ."""
    cursor: bool
    """Whether the cursor stands elsewhere."""
    bells: bool
    """Whether the bell sounds more often, or less."""
    picture: str
    """Hexadecimal; the same for what looks and sounds the same. Empty where nothing differs."""
    dots: int = 0
    """In how many cells an eye notices dots that are wrong. No dump does."""
    where: int | None = None
    """In which regions it differs, as bits in the order of regions.py; None where nobody knows."""

    @property
    def is_of_dots_alone(self) -> bool:
        """Whether all that differs is dots."""
        return bool(self.dots) and not (self.cells or self.cursor or self.bells)


AS_WANTED = Sight(0, False, False, "", where=0)


def wanted_of(screen: Screen, asks_dots: bool = False) -> Sought:
    """Return what must be shown for `screen` to be seen."""
    columns = len(screen.rows[0])
    codes = codes_of(screen.rows, screen.variant)
    return Sought(codes, screen.cursor, screen.bells, asks_dots, columns, screen.variant)


def sight_of(
    codes: bytes,
    cursor: tuple[int, int],
    bells: int,
    wanted: Sought,
    misdrawn: Sequence[Misdrawn] = (),
) -> Sight:
    """Return how a screen of `codes`, row after row, differs from what is `wanted`.

    `misdrawn` is what on it has the wrong dots.
    """
    is_elsewhere = wanted.cursor is not None and cursor != wanted.cursor
    dots = noticed_dots(codes, misdrawn, wanted)
    if codes == wanted.codes and not is_elsewhere and bells == wanted.bells and not dots:
        return AS_WANTED
    cells = count_differing(codes, wanted.codes)
    picture = picture_of(codes, cursor, bells, dots)
    where = None
    if wanted.columns:
        where = touched(codes, wanted.codes, wanted.columns, dots, wanted.variant)
    odd_dots = cells_of(dots, counts_of(codes, wanted.variant)) if dots else 0
    return Sight(cells, is_elsewhere, bells != wanted.bells, picture, odd_dots, where)


def noticed_dots(
    codes: bytes, misdrawn: Sequence[Misdrawn], wanted: Sought
) -> tuple[Misdrawn, ...]:
    """Return what an eye that looks for what is `wanted` notices of what is misdrawn."""
    if not misdrawn:
        return ()
    counts = counts_of(codes, wanted.variant)
    return noticed(misdrawn, counts, wanted.asks_dots, wanted.cursor is not None)


@lru_cache(maxsize=512)
def counts_of(codes: bytes, variant: str = NO_VARIANT) -> Mapping[str, int]:
    """Return how often each character stands on a screen of `codes` in a national variant."""
    return Counter(characters_of(codes, variant))


def picture_of(
    codes: bytes, cursor: tuple[int, int], bells: int, misdrawn: Sequence[Misdrawn] = ()
) -> str:
    """Return the digest of what looks and sounds so, in hexadecimal.

    It stands in run files, and so must not change.
    """
    told = blake2b(codes, digest_size=PICTURE_BYTES)
    told.update(repr((cursor, bells)).encode())
    for what, dots in misdrawn:
        told.update(f"{what} {dots} ".encode())
    return told.hexdigest()


def count_differing(first: bytes, second: bytes) -> int:
    """Return at how many places two strings of one length differ."""
    differing = int.from_bytes(first, "big") ^ int.from_bytes(second, "big")
    return len(first) - differing.to_bytes(len(first), "big").count(0)
