"""The probe library: small tries in a row, each in a cell of its own, worked out from a profile.

What they try differs from one terminal to the next, so a script names the probe, and the first cell
that it may use. A probe is a function of (profile, row, column) that returns groups, and a row of
PROBES. Each raises NotFittedError where a terminal cannot do it.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from termprobe.findings import nearest
from termprobe.plan.model import Group
from termprobe.plan.sending import (
    NotFittedError,
    ScriptError,
    coded_group,
    command_group,
    text_group,
)
from termprobe.profile.encode import coordinate_bytes
from termprobe.profile.model import Profile
from termprobe.terminal.compiling import numbering
from termprobe.terminal.decoded import Ignored
from termprobe.terminal.decoder import Decoder

CONTROLS = (*range(0x20), 0x7F)
DC1, DC3, DEL = 0x11, 0x13, 0x7F
UNRULED = {
    0x05: "ENQ asks for an answer (ECMA-48 8.3.44)",
    0x0B: "VT goes to a line tab stop (ECMA-48 8.3.161), and few terminals have these",
    0x0C: "FF goes to the next page (ECMA-48 8.3.51), and few terminals have one",
    0x0E: "SO changes the character set (ECMA-48 8.3.126)",
    0x0F: "SI changes the character set (ECMA-48 8.3.119)",
    0x18: "CAN says that what came before is in error (ECMA-48 8.3.6); some show a mark",
    0x1A: "SUB stands for an invalid character (ECMA-48 8.3.148); some show a mark",
}
"""Codes that ECMA-48 gives an effect, and why a terminal of that grammar is sound which has one,
whether its profile says so or not."""
PAIR_COLUMNS, PAIR_ROWS = 8, 2
"""Distance of the pairs of letters: what a code does to one stays clear of the others."""
ROWS_BEYOND, COLUMNS_BEYOND = 8, 16
"""So many rows and columns that are not there are addressed, from the first of them on."""
SLOPE_COLUMNS = 3
"""From one row of the slope to the next, where there is room."""
BELOW = (0x1F, 0x10)
"""Codes below the first coordinate of the coding `offset`: the nearest, and one that five lines
take for a row of the screen where the borrow of the subtraction is lost."""


def undeclared_codes(profile: Profile, row: int, column: int) -> Iterator[Group]:
    """Send each code without a meaning between two equal letters: those of its CONTROL key.

    So the letters tell which code is at fault. DC1 comes right behind DC3: a board that has been
    told to stop sending goes on.
    """
    across = max((profile.display.columns - column) // PAIR_COLUMNS, 1)
    for index, code in enumerate(_undeclared(profile)):
        down, right = divmod(index, across)
        letter = text_group(chr(code ^ 0x40))
        yield _to(profile, row + PAIR_ROWS * down, column + PAIR_COLUMNS * right)
        yield letter
        yield Group(bytes([code]), f"code {code:02X}h")
        yield letter


def _undeclared(profile: Profile) -> list[int]:
    """Return the control codes that mean nothing to a terminal of `profile`, DC1 behind DC3."""
    unruled: set[int] = set()
    if profile.grammar == "ecma48":
        unruled = set(UNRULED)
    codes = [code for code in CONTROLS if code not in unruled and _is_ignored(profile, code)]
    if DC1 in codes and DC3 in codes:
        codes.remove(DC1)
        codes.insert(codes.index(DC3) + 1, DC1)
    return codes


def _is_ignored(profile: Profile, code: int) -> bool:
    return Decoder(profile).feed(bytes([code])) == [Ignored(bytes([code]))]


def left_edge(profile: Profile, row: int, column: int) -> Iterator[Group]:
    """In each row from `row` on: left from `column`, then a letter, A in the first."""
    left = command_group(profile, "left")
    for index, each in enumerate(range(row, profile.display.rows)):
        yield _to(profile, each, column)
        yield left
        yield _letter(index)


def rows_off_screen(profile: Profile, row: int, column: int) -> Iterator[Group]:
    """Address rows that are not there, each with one more column, and write a letter.

    Where such a row is left as it was, the letters are side by side in `row`.
    """
    rows = profile.display.rows
    for index, off in enumerate(_off_screen(profile, range(rows, rows + ROWS_BEYOND))):
        yield _to(profile, row, 0)
        yield _addressing(profile, off, _coordinate(profile, column + index))
        yield _letter(index)


def columns_off_screen(profile: Profile, row: int, column: int) -> Iterator[Group]:
    """Address columns that are not there, each from one more column, and write a letter.

    Where such a column is left as it was, the letters are side by side in `row`.
    """
    columns = profile.display.columns
    beyond = range(columns, columns + COLUMNS_BEYOND)
    for index, off in enumerate(_off_screen(profile, beyond)):
        yield _to(profile, 0, column + index)
        yield _addressing(profile, _coordinate(profile, row), off)
        yield _letter(index)


def _off_screen(profile: Profile, beyond: Iterable[int]) -> list[bytes]:
    """Return the codes of coordinates off the screen that can be sent: those `beyond`, and below.

    DEL is left out, for a receiver may drop it wherever it comes (RFC 20 section 5.2: time fill).
    Numbers in decimal digits have none below: 0 is their default.
    """
    codes = set(range(1 << profile.link.data_bits)) - {DEL}
    sent = [_coordinate(profile, number) for number in beyond]
    sent = [data for data in sent if data and codes.issuperset(data)]
    coordinates = numbering(profile)
    if coordinates.coding == "offset":
        first = coordinates.offset + coordinates.first
        sent += [bytes([code]) for code in BELOW if code < first]
    return sent


def _coordinate(profile: Profile, number: int) -> bytes:
    """Return a row or column as it travels; nothing where the coding cannot say it."""
    try:
        return coordinate_bytes(numbering(profile), number)
    except ValueError:
        return b""


def _addressing(profile: Profile, row: bytes, column: bytes) -> Group:
    """Return the Group that addresses what `row` and `column` stand for as they travel."""
    command = profile.command("address")
    if command is None:
        raise NotFittedError(f"profile {profile.id} declares no command address")
    sent = {"row": row, "column": column}
    data = b"".join(part if isinstance(part, bytes) else sent[part] for part in command.bytes)
    return coded_group(profile, command, data, "address off the screen")


def slope(profile: Profile, row: int, column: int) -> Iterator[Group]:
    """Address a cell in each row, from the last up to `row` and `column`, and write a letter there.

    A stands in the first; all are on one straight line.
    """
    rows, columns = profile.display.rows, profile.display.columns
    below = range(rows - row)
    distance = min(SLOPE_COLUMNS, (columns - column - 1) // max(rows - row - 1, 1))
    for index in reversed(below):
        yield _to(profile, row + index, column + index * distance)
        yield _letter(index)


def tab_stops(profile: Profile, row: int, column: int) -> Iterator[Group]:
    """Set the tab stops that the terminal has at power-up, from `row` and `column` on."""
    columns = profile.display.columns
    distance = profile.display.tab_stops or columns
    tab_set = command_group(profile, "tab-set")
    for each in range(distance, columns, distance):
        if each >= max(column, 1):
            yield _to(profile, row, each)
            yield tab_set


def _to(profile: Profile, row: int, column: int) -> Group:
    """Return the Group that addresses a cell; raise NotFittedError where the screen lacks it."""
    rows, columns = profile.display.rows, profile.display.columns
    if row >= rows or column >= columns:
        raise NotFittedError(f"{rows} x {columns} has no room for all that is tried here")
    return command_group(profile, "address", row, column)


def _letter(index: int) -> Group:
    return text_group(chr(0x41 + index % 26))


class Probe(NamedTuple):
    """One kind of small tries."""

    groups: Callable[[Profile, int, int], Iterator[Group]]
    """(profile, row, column) -> what is sent."""
    text: str
    """What it tries, in words."""


PROBES = {
    "undeclared-codes": Probe(undeclared_codes, "each code without a meaning, between two letters"),
    "left-edge": Probe(left_edge, "left from the first column of each row"),
    "rows-off-screen": Probe(rows_off_screen, "addresses of rows that are not there"),
    "columns-off-screen": Probe(columns_off_screen, "addresses of columns that are not there"),
    "slope": Probe(slope, "an address in each row, all on one straight line"),
    "tab-stops": Probe(tab_stops, "the tab stops of power-up, set again"),
}
"""Name in a script -> the Probe."""


def probe_groups(profile: Profile, name: str, row: int, column: int) -> list[Group]:
    """Return the Groups of one probe; raise NotFittedError, or ScriptError without such a probe."""
    if name not in PROBES:
        words = f'probe must be one of {", ".join(PROBES)}, not "{name}"'
        raise ScriptError(words + nearest(name, PROBES))
    return list(PROBES[name].groups(profile, row, column))
