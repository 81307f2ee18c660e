"""What a look shows on a board, against what it must show."""

from hashlib import blake2b
from typing import NamedTuple

from termprobe.board.board import Board
from termprobe.board.memory import codes_of
from termprobe.terminal.screen import Screen

PICTURE_BYTES = 8


class Sought(NamedTuple):
    """What a look must show."""

    codes: bytes
    """Of each cell, row after row."""
    cursor: tuple[int, int] | None
    bells: int


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


AS_WANTED = Sight(0, False, False, "")


def wanted_of(screen: Screen) -> Sought:
    """Return what must be shown for `screen` to be seen."""
    return Sought(codes_of(screen.rows), screen.cursor, screen.bells)


def shown_by(board: Board, wanted: Sought, bells: int) -> Sight:
    """Return how what `board` shows now differs; `bells` have sounded for it."""
    return sight_of(board.drawn(), board.cursor, bells, wanted)


def sight_of(codes: bytes, cursor: tuple[int, int], bells: int, wanted: Sought) -> Sight:
    """Return how a screen of `codes`, row after row, differs from what is `wanted`."""
    is_elsewhere = wanted.cursor is not None and cursor != wanted.cursor
    if codes == wanted.codes and not is_elsewhere and bells == wanted.bells:
        return AS_WANTED
    cells = count_differing(codes, wanted.codes)
    picture = picture_of(codes, cursor, bells)
    return Sight(cells, is_elsewhere, bells != wanted.bells, picture)


def picture_of(codes: bytes, cursor: tuple[int, int], bells: int) -> str:
    """Return the digest of what looks and sounds so, in hexadecimal.

    It stands in run files, and so must not change.
    """
    told = blake2b(codes, digest_size=PICTURE_BYTES)
    told.update(repr((cursor, bells)).encode())
    return told.hexdigest()


def count_differing(first: bytes, second: bytes) -> int:
    """Return at how many places two strings of one length differ."""
    differing = int.from_bytes(first, "big") ^ int.from_bytes(second, "big")
    return len(first) - differing.to_bytes(len(first), "big").count(0)
