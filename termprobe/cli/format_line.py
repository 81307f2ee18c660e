"""The line whose speed and frame are to be found: a port, or a simulated board on a cable."""

import argparse
from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from termprobe.board.base import SimulatedBoard
from termprobe.board.cable.link import CableLink
from termprobe.cli.line_options import line_of
from termprobe.cli.opened_line import line_at, open_link
from termprobe.clock import Clock, CrankedClock, SystemClock
from termprobe.errors import UsageError
from termprobe.link.base import LineFormat, Link, is_simulated
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile


class FormatLine(NamedTuple):
    """An opened line, and what its board should be set to."""

    link: Link
    clock: Clock
    wanted: LineFormat | None
    """None where no profile and no option tells it."""
    speeds_baud: tuple[int, ...]
    """That a board of the profile can be set to."""
    type: Callable[[str], None] | None
    """Presses keys of a simulated board; None where a builder does."""
    shown: Callable[[], str] | None
    """Returns what a simulated screen shows before its cursor; None where a builder looks."""


def opened_format_line(arguments: argparse.Namespace) -> FormatLine:
    """Return the line to `--port`; raise TermprobeError where it cannot be opened."""
    if not arguments.port:
        raise UsageError("--port must name the port of the board; `termprobe ports` lists them")
    profile = profiles.load(arguments.profile) if arguments.profile else None
    wanted = _wanted(arguments, profile)
    speeds_baud: tuple[int, ...] = ()
    if profile:
        speeds_baud = profile.link.speeds_baud
    if is_simulated(arguments.port):
        return _simulated(arguments.port, profile, wanted, speeds_baud)
    clock = SystemClock()
    link = line_at(arguments.port, wanted or LineFormat(), clock)
    return FormatLine(link, clock, wanted, speeds_baud, None, None)


def _simulated(
    port: str, profile: Profile | None, wanted: LineFormat | None, speeds_baud: tuple[int, ...]
) -> FormatLine:
    """Return a board on a cable, in time that passes only as far as something waits for it."""
    if profile is None:
        raise UsageError("--profile must say which board --port sim: simulates")
    clock = CrankedClock()
    board = open_link(port, profile, clock).board
    assert board is not None
    link = CableLink(board, clock, name=port)
    return FormatLine(link, clock, wanted, speeds_baud, board.type, partial(_row_of_cursor, board))


def _row_of_cursor(board: SimulatedBoard) -> str:
    """Return what stands before the cursor; behind it is what memories held at power-up."""
    picture = board.screen()
    row, column = picture.cursor
    return picture.rows[min(row, len(picture.rows) - 1)][:column]


def _wanted(arguments: argparse.Namespace, profile: Profile | None) -> LineFormat | None:
    """Return what the options say, and beyond them the profile; None where these say not all."""
    if profile is None and not (arguments.format and arguments.speed):
        return None
    return line_of(arguments)[0]
