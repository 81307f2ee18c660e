"""Serves a simulated board to any program: bytes over an endpoint, keys from lines of text, the screen into a file."""

import os
import select

from termprobe.board.endpoint import CHUNK
from termprobe.errors import UsageError
from termprobe.notation import visible

TICK_S = 0.02
"""How often to look for a client that has come."""
ORDERS = """\
  TEXT                         type TEXT, then press RETURN
  :press KEY [shift] [control] press one key, as the profile names it
  :chord KEY KEY ...           press keys in turn, hold them until all are down
  :set OPTION POSITION         move a switch
  :off-on                      switch the board off and on"""


class Hands:
    """The hands on the board: lines read from `descriptor` (None: nobody) say what to do; ORDERS says how."""

    def __init__(self, board, descriptor, complain):
        self._board, self._descriptor, self._complain = board, descriptor, complain
        self._begun = b""

    def sources(self):
        """Return what to wait for."""
        return [] if self._descriptor is None else [self._descriptor]

    def act(self, ready):
        """Do what the lines that have come say; return whether any has."""
        if self._descriptor not in ready:
            return False
        data = os.read(self._descriptor, CHUNK)
        if not data:
            self._descriptor = None
        *lines, self._begun = (self._begun + data).split(b"\n")
        for line in lines:
            try:
                obey(self._board, line.rstrip(b"\r").decode("utf-8", "replace"))
            except UsageError as error:
                self._complain(str(error))
        return bool(lines)


def obey(board, line):
    """Do to `board` what one line says; raise UsageError where it cannot be done."""
    if not line.startswith(":"):
        board.type(line + "\r")
        return
    order, *words = line[1:].split()
    if order == "press" and words and set(words[1:]) <= {"shift", "control"}:
        board.press(words[0], frozenset(words[1:]))
    elif order == "chord" and len(words) > 1:
        board.chord(words)
    elif order == "set" and len(words) == 2:
        board.set_option(*words)
    elif order == "off-on" and not words:
        board.power_up()
    else:
        raise UsageError(f"a line must be one of these, not {visible(line)!r}:\n{ORDERS}")


def serve(link, end, hands, show):
    """Carry bytes between `link`, a SimLink, and `end` for ever; call `show` with the screen whenever it may have changed."""
    show(link.board.screen())
    while True:
        ready, _, _ = select.select(end.sources() + hands.sources(), [], [], link.due_s(TICK_S))
        data = end.receive(ready)
        link.write(data)
        if hands.act(ready) or data:
            show(link.board.screen())
        for received in link.read(0):
            end.send(received.data)


class ScreenFile:
    """Writes the rows of a screen into the file at `path`, whole or not at all, when they have changed."""

    def __init__(self, path):
        self._path, self._written = path, None

    def show(self, screen):
        """Write `screen`, UTF-8, one line for each row; raise UsageError where the file cannot be written."""
        text = "".join(row + "\n" for row in screen.rows)
        if text == self._written:
            return
        passing = f"{self._path}.{os.getpid()}"
        try:
            with open(passing, "w", encoding="utf-8") as file:
                file.write(text)
            os.replace(passing, self._path)
        except OSError as error:
            raise UsageError(
                f"{self._path}: must be a file that can be written, but it is not ({error.strerror})"
            ) from None
        self._written = text
