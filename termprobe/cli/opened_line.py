"""The line to the board, opened, with the board itself where that is simulated."""

import random
from typing import NamedTuple

from termprobe.board.base import SimulatedBoard
from termprobe.board.board import Board
from termprobe.board.cable.link import CableLink, side_of
from termprobe.board.faults.catalogue import catalogue, keyboard_catalogue
from termprobe.board.keyboard_board import KeyboardBoard
from termprobe.board.link import SimLink
from termprobe.clock import Clock
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.link.base import SIMULATED, LineFormat, Link, is_simulated
from termprobe.link.wirings import WIRINGS
from termprobe.profile.model import Profile

RANDOM = "random"
"""Stands behind `sim:` for a fault that the user is not told."""


class OpenedLink(NamedTuple):
    """A link, and what is at its other end where that is known."""

    link: Link
    board: SimulatedBoard | None
    """None where the board is real."""
    hidden_fault: str = ""
    """The fault that `sim:random` chose."""


def line_format(profile: Profile, speed_baud: int | None = None) -> LineFormat:
    """Return the format of a line to a board of `profile`, at its usual speed or another one."""
    needs = profile.link
    return LineFormat(
        speed_baud or needs.speed_baud, needs.data_bits, needs.parity, needs.stop_bits
    )


def unlisted_speed(profile: Profile, speed_baud: int | None) -> str:
    """Return the sentence that a board of `profile` has no such speed; empty where it has."""
    speeds = profile.link.speeds_baud
    if speed_baud is None or speed_baud in speeds:
        return ""
    listed = ", ".join(map(str, speeds))
    return f"{speed_baud} baud is none of the speeds of {profile.id}: {listed}. Is it mistyped?"


def open_link(
    url: str,
    profile: Profile,
    clock: Clock,
    speed_baud: int | None = None,
    chance: int = 0,
    is_of_keys: bool = False,
    cable: str | None = None,
) -> OpenedLink:
    """Return the link to the port `url`, as the user wrote it; raise TermprobeError.

    The number `chance` decides which fault `sim:random` has, so that a practice that is resumed
    has the same one. `is_of_keys`: only keyboard and line of the board are needed. `cable` is a
    name of link/wirings.py: a simulated board is then reached over that, in the time it takes.
    """
    _refuse_unknown(cable, url)
    line = line_format(profile, speed_baud)
    if not is_simulated(url):
        return OpenedLink(link_to(url, None, line, clock, profile), None)
    name, fault, hidden_fault = url, url.removeprefix(SIMULATED), ""
    if fault == RANDOM:
        fault = hidden_fault = _any_fault(profile, chance, is_of_keys)
        name = SIMULATED
    board = _simulated_board(profile, fault, is_of_keys)
    link = link_to(name, board, line, clock, profile, cable)
    return OpenedLink(link, board, hidden_fault)


def _refuse_unknown(cable: str | None, url: str) -> None:
    """Raise UsageError where there is no such cable, or it cannot be put to the port `url`."""
    if cable is None:
        return
    if cable not in WIRINGS:
        raise UsageError(
            f'--cable must be one of {", ".join(WIRINGS)}, not "{cable}"{nearest(cable, WIRINGS)}'
        )
    if not is_simulated(url):
        raise UsageError(
            f"--cable must go with --port {SIMULATED}, not {url}: a real port has a real cable"
        )


def link_to(
    name: str,
    board: SimulatedBoard | None,
    line: LineFormat,
    clock: Clock,
    profile: Profile,
    cable: str | None = None,
) -> Link:
    """Return a new link in the format `line` to the simulated `board`, or else to the port `name`.

    A `cable` is plugged in between, where one is named. Raises LinkError where it cannot be opened.
    """
    if board is None:
        return line_at(name, line, clock, profile.link.rts, profile.link.dtr)
    if cable is None:
        return SimLink(board, clock, line, name)
    side = side_of(board, line.speed_baud)
    return CableLink(board, clock, line, name, wiring=cable, side=side)


def line_at(
    port: str, format: LineFormat, clock: Clock, rts: bool = True, dtr: bool = True
) -> Link:
    """Return a link to the `port`, whatever is at its other end; raises LinkError."""
    from termprobe.link.open import open_port  # it loads pyserial

    return open_port(port, format, clock, rts, dtr)


def _simulated_board(profile: Profile, fault: str, is_of_keys: bool) -> SimulatedBoard:
    faults = [fault] if fault else []
    if is_of_keys and profile.circuit is None:
        return KeyboardBoard(profile, faults)
    return Board(profile, faults)


def _any_fault(profile: Profile, chance: int, is_of_keys: bool) -> str:
    known = keyboard_catalogue(profile) if is_of_keys else catalogue(profile)
    return random.Random(chance).choice(sorted(known))
