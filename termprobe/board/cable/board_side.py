"""The board's side of a cable: what its UART brings to the board, and the handshake it keeps."""

import math
from collections import deque
from dataclasses import dataclass

from termprobe.board.base import BREAK, SimulatedBoard
from termprobe.board.cable.end import CableEnd
from termprobe.link.base import LineFormat

XON, XOFF = 0x11, 0x13  # RFC 20, section 2: DC1 and DC3; as a handshake common practice
SEVEN_BITS = 0x7F
READY_ON = {
    ("dte", "rts-cts"): "rts",
    ("dte", "dtr"): "dtr",
    ("dce", "rts-cts"): "cts",
    ("dce", "dtr"): "dsr",
}
"""Kind of end and handshake: the circuit that says that it has room."""
WAITS_FOR = {("dte", "rts-cts"): ("cts",), ("dce", "rts-cts"): ("rts",)}
"""Kind of end and handshake: the circuits that must be on before it sends."""
KEY_BREAK_S = 0.25
"""How long the line is at space for a BREAK key (common practice: a fifth to half a second)."""


@dataclass(frozen=True)
class BoardSide:
    """How a board's serial line is built and set."""

    format: LineFormat
    handshake: str = "none"
    """none, xon-xoff, rts-cts, or dtr: its DTR alone says that it has room."""
    kind: str = "dte"
    """dte as terminals are, or dce."""
    levels: str = "rs232"
    """A word of voltages.LEVELS."""
    waits_for: tuple[str, ...] | None = None
    """Circuits that must be on before it sends; None as its handshake has it."""
    takes_s: float = 0.0
    """How long it needs for each character."""
    buffer_characters: int = 2
    """Characters that may wait, from 1; a UART's own two where the board has no more."""
    full_at: int = 1
    """From so many waiting characters on it says that it has no room."""
    free_at: int = 0
    """Down to so many it says that it has room again."""


class CabledBoard:
    """A simulated board on its end of a cable."""

    def __init__(self, board: SimulatedBoard, side: BoardSide) -> None:
        wiring = board.wiring
        self.board, self.side, self.lost = board, side, 0
        """`lost`: how many characters came while there was no room."""
        self.end = CableEnd(side.format, wiring.speed_ratio, side.kind, side.levels, wiring.parity)
        self.end.transmitter.may_send = self._may_send
        self._waiting: deque[int] = deque()
        self._busy_until_s = -math.inf
        self._is_stopped = False
        self._has_room = True
        self._waits_for = side.waits_for
        if self._waits_for is None:
            self._waits_for = WAITS_FOR.get((side.kind, side.handshake), ())
        for circuit in self.end.outputs:
            if circuit not in ("txd", "rxd", "ri"):
                self.end.drive(-math.inf, circuit, True)

    def _may_send(self) -> bool:
        if self.board.wiring.handshake_ignored:
            return True
        if self._is_stopped:
            return False
        return all(self.end.is_on(math.inf, circuit) for circuit in self._waits_for or ())

    @property
    def next_s(self) -> float:
        """When there is something to do."""
        if self._waiting:
            return min(self.end.next_s, self._busy_until_s)
        return self.end.next_s

    def advance(self, at_s: float) -> None:
        """Do what is to be done at `at_s`; to be called at each `next_s`."""
        for received in self.end.receiver.advance(at_s):
            self._take(received.data[0])
        while self._waiting and self._busy_until_s <= at_s:
            self._busy_until_s = at_s + self.side.takes_s
            self.board.receive(bytes([self._waiting.popleft()]))
        self._tell_room(at_s)
        self.look(at_s)

    def look(self, at_s: float) -> None:
        """Look whether the board has something to send; to be called after each press of a key."""
        for delay_s, data in self.board.take_sent():
            if data == BREAK:
                self.end.transmitter.put_break(at_s + delay_s, KEY_BREAK_S)
            else:
                self.end.transmitter.put(at_s + delay_s, data)
        self.end.transmitter.advance(at_s)

    def _take(self, code: int) -> None:
        if self.side.handshake == "xon-xoff" and code & SEVEN_BITS in (XON, XOFF):
            self._is_stopped = code & SEVEN_BITS == XOFF
        if len(self._waiting) < self.side.buffer_characters:
            self._waiting.append(code)
        else:
            self.lost += 1

    def _tell_room(self, at_s: float) -> None:
        """Say that there is room, or none, where that has changed."""
        has_room = len(self._waiting) <= self.side.free_at
        if len(self._waiting) < self.side.full_at and self._has_room:
            has_room = True
        if has_room == self._has_room:
            return
        self._has_room = has_room
        ready = READY_ON.get((self.side.kind, self.side.handshake))
        if ready:
            self.end.drive(at_s, ready, has_room)
        if self.side.handshake == "xon-xoff":
            self.end.transmitter.put_first(at_s, {True: XON, False: XOFF}[has_room])
