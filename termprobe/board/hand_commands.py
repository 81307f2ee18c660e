"""Lines of text that are the hands at a served board: they press keys and move switches."""

import os
from collections.abc import Callable, Sequence

from termprobe.board.base import SimulatedBoard
from termprobe.board.endpoint import CLIENT_BYTES
from termprobe.errors import UsageError
from termprobe.link.readiness import Source
from termprobe.notation import visible

HAND_COMMANDS = """\
  TEXT                         type TEXT, then press RETURN
  :press KEY [shift] [control] press one key, as the profile names it
  :chord KEY KEY ...           press keys in turn, hold them until all are down
  :set OPTION POSITION         move a switch
  :off-on                      switch the board off and on"""
HELD = {"shift", "control"}


class CommandedHands:
    """Lines read from `descriptor` (None: nobody) say what to do to `board`.

    `complain` is told what cannot be done.
    """

    def __init__(
        self, board: SimulatedBoard, descriptor: int | None, complain: Callable[[str], None]
    ) -> None:
        self._board, self._descriptor, self._complain = board, descriptor, complain
        self._begun = b""

    def sources(self) -> list[Source]:
        """Return what to wait for."""
        if self._descriptor is None:
            return []
        return [self._descriptor]

    def act(self, ready: Sequence[Source]) -> bool:
        """Do what the lines that have come say; return whether any has."""
        if self._descriptor is None or self._descriptor not in ready:
            return False
        data = os.read(self._descriptor, CLIENT_BYTES)
        if not data:
            self._descriptor = None
        *lines, self._begun = (self._begun + data).split(b"\n")
        for line in lines:
            try:
                obey(self._board, line.rstrip(b"\r").decode("utf-8", "replace"))
            except UsageError as error:
                self._complain(str(error))
        return bool(lines)


def obey(board: SimulatedBoard, line: str) -> None:
    """Do to `board` what one line says; raise UsageError where it cannot be done."""
    if not line.startswith(":"):
        board.type(line + "\r")
        return
    match line[1:].split():
        case ["press", key, *modifiers] if HELD.issuperset(modifiers):
            board.press(key, modifiers)
        case ["chord", first, second, *more]:
            board.chord([first, second, *more])
        case ["set", option, position]:
            board.set_option(option, position)
        case ["off-on"]:
            board.power_up()
        case _:
            raise UsageError(
                f"a line must be one of these, not {visible(line)!r}:\n{HAND_COMMANDS}"
            )
