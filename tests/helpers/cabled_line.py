"""A simulated board on a cable as checks use a line, in time that is cranked."""

from termprobe.board.board import Board
from termprobe.board.cable.link import CableLink
from termprobe.clock import CrankedClock
from termprobe.link.pacer import Pacer
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
LATER_S = 0.05


class CabledInUse:
    """A LineInUse of `board` on a CableLink; `settings` are those of CableLink.

    `answers` are what a person told: word -> whether all was right. `at_work(line)` is called
    whenever time has passed, for whoever presses keys meanwhile.
    """

    def __init__(self, board=None, handshake="none", answers=(), **settings):
        self.clock = CrankedClock()
        self.board = board or Board(PROFILE)
        self.link = CableLink(self.board, self.clock, **settings)
        self.handshake, self.answers, self.heard = handshake, dict(answers), {}
        self._pacer = Pacer(self.link, self.clock)

    @property
    def link_format(self):
        return self.link.format

    @property
    def abilities(self):
        return self.link.abilities

    def counters(self):
        return self.link.counters()

    def send(self, data):
        self._pacer.send(data)

    def write(self, data):
        self.link.write(data)

    def poll_events(self, wait_s=0.0):
        return self.link.read(wait_s)

    def lines(self):
        return self.link.lines()

    def set_line(self, line, on):
        self.link.set_line(line, on)

    text = b"\x1a" + b"01 02 03 04 05 06 07 08 09 10"

    def told(self, word):
        return self.answers.get(word)

    delay_s = 0.0

    def measured(self, word):
        return self.delay_s

    def came(self, word):
        return self.heard.get(word)

    def wanted(self, word):
        return b"K"

    def ask(self):
        """Have a person try a key, a character, and a typed key; keep what comes of it."""
        board = self.board
        board.receive(b"\x1a")
        board.type("K")
        self.heard["key"] = b"".join(one.data for one in self.link.read(LATER_S))
        self.answers["typed"] = not board.screen().rows[0].strip()
        board.receive(b"\x1a")
        self.send(b"S")
        self.link.read(LATER_S)
        self.answers["shows"] = bool(board.screen().rows[0].strip())
        return self
