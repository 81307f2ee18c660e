"""A bell that somebody has not heard, and which boards ring none."""

import re
from dataclasses import dataclass

from termprobe.board.board import Board
from termprobe.board.counters import Counted
from termprobe.board.wiring import Wiring, wire
from termprobe.diagnosis.blank_board import BlankBoard
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.playing import before_memory
from termprobe.diagnosis.score import sender_to
from termprobe.errors import UsageError
from termprobe.profile.model import Profile

RINGS = 14.0
"""What it costs where the bell rings all the same."""
MORE_IS_WRONG = 4.6
"""Who tells of the bell alone sees in one of a hundred cases that characters are wrong as well. A
judgement."""
ALL_CHARACTERS = bytes(range(0x20, 0x7F))
AT_HOME = Counted(0, 0)
_BELL = re.compile(r"\b(?:bell|beep|beeper|buzzer)s?\b")
_SILENT = re.compile(
    r"\b(?:silent|silence|mute|dead|dumb|no|not|never|nothing|missing|gone|fails?|without|lost)\b"
    r"|n't\b"
)


@dataclass(frozen=True)
class BellSilent:
    """What was told of a bell that does not ring."""

    is_told_alone: bool
    """Whether nothing was told of what is seen besides."""

    def fit(self, rings: bool, shows_all: bool) -> Fit:
        """Return the Fit by whether a board rings, and shows all characters as it should."""
        cost = RINGS * rings
        if self.is_told_alone and not shows_all:
            cost += MORE_IS_WRONG
        return Fit(-cost, (rings, shows_all), not rings)


class Ringers:
    """Sends the code of the bell to boards of one profile."""

    def __init__(self, profile: Profile, good: BlankBoard) -> None:
        self._profile, self._data = profile, _bell_of(profile)
        self._before = before_memory(wire(profile))
        self._shown = good.shown(AT_HOME, ALL_CHARACTERS)

    def rings(self, wiring: Wiring) -> bool:
        """Return whether a board that is wired so rings; what lies behind cannot silence it."""
        if before_memory(wiring) == self._before:
            return True
        board = Board(self._profile, wiring=wiring)
        sender_to(board)([self._data])
        return board.bells > 0

    def shows_all(self, board: BlankBoard) -> bool:
        """Return whether a board shows all characters as a good one does."""
        return board.shown(AT_HOME, ALL_CHARACTERS) == self._shown


def is_of_silent_bell(words: str) -> bool:
    """Return whether `words` say that the bell does not ring."""
    told = words.lower()
    return bool(_BELL.search(told) and _SILENT.search(told))


def _bell_of(profile: Profile) -> bytes:
    """Return the bytes that ring the bell; raise UsageError where there are none."""
    for command in profile.commands:
        if command.action == "bell":
            return b"".join(part for part in command.bytes if isinstance(part, bytes))
    raise UsageError(f"--noticed must be of what {profile.id} has, and it has no bell")
