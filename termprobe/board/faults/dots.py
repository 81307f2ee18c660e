"""Faults behind the character's code: of the character generator, the shift register, the light.

Each leaves every code right, and lets characters look wrong in their dots. Only eyes see that.
"""

import re
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from termprobe.board.faults.bus import STUCK_LEVELS, edit_of, faults_of_bus, line_words, stuck
from termprobe.board.faults.model import Fault, make
from termprobe.board.generator import ALL_DARK, CURSOR_EVERYWHERE, HALF_DARK, NO_BLANKING, NO_CURSOR
from termprobe.board.wiring import DOT_COLUMN, ROW_SCAN, Wiring
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.profile.characters import CharacterSet, character_set
from termprobe.profile.check_dots import row_lines
from termprobe.profile.model import Profile

BLOCKS = (
    ROW_SCAN.where,
    DOT_COLUMN.where,
    "shift-register",
    "glyph-cell",
    "dots",
    "blanking",
    "cursor",
)
LIGHT_WORDS = ("never", "always")
_CELL = re.compile(r"glyph-cell/stuck/(\d{1,3})-(\d{1,2})-(\d{1,2})/([01])")


class PartMissing(NamedTuple):
    """A part of the way from the shift register to the light that is missing, or never at rest."""

    name: str
    """Of the fault; the character generator asks for it."""
    title: str


PARTS = (
    PartMissing(HALF_DARK, "every second scan line is dark"),
    PartMissing(NO_BLANKING, "the beam is not blanked: its ways back are seen on the whole screen"),
    PartMissing(ALL_DARK, "the beam is always blanked: the screen stays dark"),
    PartMissing(NO_CURSOR, "the cursor is not mixed in: it is nowhere to be seen"),
    PartMissing(CURSOR_EVERYWHERE, "the cursor is mixed into every cell"),
)


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield every fault of the dots; none where the profile does not tell of them.

    Single dots of single drawings are left out: there are thousands, and each has a name.
    """
    dots = profile.display.dots
    if dots is None:
        return
    drawn = character_set(str(dots.characters))
    yield from faults_of_bus(ROW_SCAN.where, profile, row_lines(drawn))
    yield from _of_columns(profile, drawn.columns)
    yield from _of_shift_register(dots.columns)
    for part in PARTS:
        yield make(part.name, part.title, partial(_leave_out, part.name))


def fault_named(profile: Profile, name: str) -> Fault:
    """Return the fault `glyph-cell/stuck/CODE-ROW-COLUMN/LEVEL`; raise UsageError without it."""
    dots = profile.display.dots
    if dots is None:
        raise UsageError(
            f"{profile.id}: a fault of dots needs a profile whose display has a section dots"
        )
    drawn = character_set(str(dots.characters))
    parts = _CELL.fullmatch(name)
    if parts:
        code, row, column, level = map(int, parts.groups())
        if code in drawn.glyphs and row < drawn.rows and column < drawn.columns:
            return _stuck_dot(code, row, column, level)
    near = nearest(name, [one.name for one in faults(profile)])
    raise UsageError(_no_such_dot(name, drawn) + near)


def _no_such_dot(name: str, drawn: CharacterSet) -> str:
    return (
        "a fault of dots must be one that `termprobe sim --faults all` lists, or of one dot, "
        f"glyph-cell/stuck/CODE-ROW-COLUMN/LEVEL, code {min(drawn.glyphs)} to "
        f"{max(drawn.glyphs)}, row 0 to {drawn.rows - 1}, column 0 to {drawn.columns - 1}, "
        f'level 0 or 1, not "{name}"'
    )


def _of_columns(profile: Profile, columns: int) -> Iterator[Fault]:
    words = line_words(DOT_COLUMN._replace(lines=columns), profile)
    for column in range(columns):
        line = f"dot line {words[column]} of the character generator"
        yield make(
            f"dot-column/missing/{column}",
            f"{line} is dead: that column of dots is never lit",
            edit_of(DOT_COLUMN, stuck, column, 0),
        )
        yield make(
            f"dot-column/stuck/{column}/1",
            f"{line} is stuck at 1: that column of dots is always lit",
            edit_of(DOT_COLUMN, stuck, column, 1),
        )
    yield from faults_of_bus(DOT_COLUMN.where, profile, columns)


def _of_shift_register(stages: int) -> Iterator[Fault]:
    for stage in range(stages):
        for level in STUCK_LEVELS:
            yield make(
                f"shift-register/stuck/{stage}/{level}",
                f"stage {stage} of the shift register is stuck at {level}: so are the dots from "
                f"column {stage} of each cell on",
                partial(_stick_stage, stage, level),
            )


def _stick_stage(stage: int, level: int, wiring: Wiring) -> None:
    wiring.shift_register[stage] = level


def _leave_out(name: str, wiring: Wiring) -> None:
    wiring.light.add(name)


def _stuck_dot(code: int, row: int, column: int, level: int) -> Fault:
    return make(
        f"glyph-cell/stuck/{code}-{row}-{column}/{level}",
        f"in the drawing of {chr(code)} ({code:02X}h) the dot in row {row}, column {column} is "
        f"{LIGHT_WORDS[level]} lit",
        partial(_stick_dot, (code, row), 1 << column, level),
    )


def _stick_dot(code_and_row: tuple[int, int], dot: int, level: int, wiring: Wiring) -> None:
    lit, dark = wiring.stuck_dots.get(code_and_row, (0, 0))
    if level:
        wiring.stuck_dots[code_and_row] = lit | dot, dark & ~dot
    else:
        wiring.stuck_dots[code_and_row] = lit & ~dot, dark | dot
