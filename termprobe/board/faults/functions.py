"""Parts of functions that are missing: of margin, scroll, clear, home and address."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple

from termprobe.board.faults.model import Fault, make
from termprobe.board.wiring import Wiring
from termprobe.profile.model import Profile

BLOCKS = ("margin", "scroll", "clear", "home", "address")


def _wraps(profile: Profile) -> bool:
    return profile.display.printing.last_column != "overwrite"


def _scrolls(profile: Profile) -> bool:
    at_edges = [command.edge for command in profile.commands]
    return "scroll" in (profile.display.printing.last_row, *at_edges)


def _has(*actions: str) -> Callable[[Profile], bool]:
    return lambda profile: any(command.action in actions for command in profile.commands)


_clears = _has("clear", "erase-display")
_addresses = _has("address", "address-row", "address-column")


class FunctionPart(NamedTuple):
    """A part of a function that can be missing."""

    name: str
    """Of the fault. termprobe/board/functions.py and memory.py ask for it in Wiring.missing."""
    applies: Callable[[Profile], bool]
    """Whether a board of a profile has the function."""
    title: str
    """What is seen."""


PARTS = (
    FunctionPart("margin/no-wrap", _wraps, "after the last column the cursor stays there"),
    FunctionPart(
        "margin/column-kept",
        _wraps,
        "after the last column the row is counted up, but the column is not set to 0",
    ),
    FunctionPart(
        "margin/row-kept",
        _wraps,
        "after the last column the column is set to 0, but the row is not counted up",
    ),
    FunctionPart("scroll/dead", _scrolls, "nothing moves where the screen should scroll"),
    FunctionPart("scroll/line-not-cleared", _scrolls, "the row that scrolls in is not blanked"),
    FunctionPart("clear/bank-0-skipped", _clears, "clearing the screen does not reach RAM bank 0"),
    FunctionPart("clear/bank-1-skipped", _clears, "clearing the screen does not reach RAM bank 1"),
    FunctionPart(
        "clear/no-home", _has("clear"), "clearing the screen does not move the cursor home"
    ),
    FunctionPart("home/row-kept", _has("home"), "home does not set the row to 0"),
    FunctionPart("home/column-kept", _has("home"), "home does not set the column to 0"),
    FunctionPart(
        "address/row-ignored",
        _has("address", "address-row"),
        "addressing does not load the row",
    ),
    FunctionPart(
        "address/column-ignored",
        _has("address", "address-column"),
        "addressing does not load the column",
    ),
    FunctionPart(
        "address/exchanged",
        _has("address"),
        "addressing loads the row with the column, and the column with the row",
    ),
)


class Offset(NamedTuple):
    """A wrong number that is added to both coordinates."""

    offset: int
    word: str


OFFSETS = (Offset(-1, "low"), Offset(1, "high"))


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield the faults of each function that a board of `profile` has."""
    for part in PARTS:
        if part.applies(profile):
            yield make(part.name, part.title, partial(_leave_out, part.name))
    if _addresses(profile):
        for offset, word in OFFSETS:
            yield make(
                f"address/offset/{offset:+d}",
                f"an address lands {abs(offset)} too {word} in row and column",
                partial(_shift, offset),
            )


def _leave_out(name: str, wiring: Wiring) -> None:
    wiring.missing.add(name)


def _shift(offset: int, wiring: Wiring) -> None:
    wiring.address_offset += offset
