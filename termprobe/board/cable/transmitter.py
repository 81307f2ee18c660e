"""The half of a UART that sends: characters become levels on a wire, one frame after the other."""

import functools
import itertools
import math
from collections import deque
from collections.abc import Callable
from typing import NamedTuple

from termprobe.board.cable.pins import OutputPin
from termprobe.link.base import LineFormat
from termprobe.link.frame import parity_bit


class _Waiting(NamedTuple):
    """A character that is to be sent."""

    from_s: float
    """Not before this moment."""
    code: int
    """Where it is 0 or more; BREAK_CODE for a break."""


BREAK_CODE = -1


class Transmitter:
    """Sends on `pin` in `format`, by a clock that runs `speed_ratio` as fast as that says.

    `parity_fault` is as in Wiring.parity. It begins a character only where `may_send()`.
    """

    def __init__(
        self, pin: OutputPin, format: LineFormat, speed_ratio: float = 1.0, parity_fault: str = ""
    ) -> None:
        self.format, self.speed_ratio = format, speed_ratio
        self.may_send: Callable[[], bool] = _always
        self._pin, self._parity_fault = pin, parity_fault
        self._waiting: deque[_Waiting] = deque()
        self._ends_s = -math.inf
        self._is_breaking = False
        self._break_s = 0.0

    def put(self, at_s: float, data: bytes) -> None:
        """Have `data` sent behind all that waits, from `at_s` on."""
        self._waiting.extend(_Waiting(at_s, code) for code in data)

    def put_break(self, at_s: float, length_s: float) -> None:
        """Have a break sent behind all that waits."""
        self._break_s = length_s
        self._waiting.append(_Waiting(at_s, BREAK_CODE))

    def put_first(self, at_s: float, code: int) -> None:
        """Have one code sent before all that waits."""
        self._waiting.appendleft(_Waiting(at_s, code))

    def unsent(self, at_s: float) -> int:
        """Return how many characters have not left, the one that leaves now among them."""
        return len(self._waiting) + (self._ends_s > at_s)

    def set_break(self, at_s: float, on: bool) -> None:
        """Hold the line at space from `at_s` on, or let it go; a character on its way is cut."""
        if on == self._is_breaking:
            return
        self._is_breaking = on
        self._pin.cut(at_s, on)
        self._ends_s = at_s + self._bit_s

    def forget(self) -> None:
        """Throw away what waits."""
        self._waiting.clear()

    def free_s(self, at_s: float) -> float:
        """Return when all will have left that waits at `at_s`, where nothing holds it."""
        frame_s = self.format.frame_bits * self._bit_s
        return max(self._ends_s, at_s) + len(self._waiting) * frame_s

    @property
    def _bit_s(self) -> float:
        return 1 / (self.format.speed_baud * self.speed_ratio)

    @property
    def next_s(self) -> float:
        """When it may begin the next character; for ever where nothing waits, or it may not."""
        if not self._waiting or self._is_breaking or not self.may_send():
            return math.inf
        return max(self._ends_s, self._waiting[0].from_s)

    def advance(self, at_s: float) -> None:
        """Begin the character whose time has come; to be called at each `next_s`."""
        if self.next_s > at_s:
            return
        self._pin.pass_time(at_s)
        code = self._waiting.popleft().code
        if code == BREAK_CODE:
            self._send_break(at_s)
        else:
            self._send(at_s, code)

    def _send_break(self, begins_s: float) -> None:
        self._pin.drive(begins_s, True)
        self._pin.drive(begins_s + self._break_s, False)
        self._ends_s = begins_s + self._break_s + self._bit_s

    def _send(self, begins_s: float, code: int) -> None:
        bit_s = self._bit_s
        for bit, is_space in edges(code, self.format, self._parity_fault):
            self._pin.drive(begins_s + bit * bit_s, is_space)
        self._ends_s = begins_s + self.format.frame_bits * bit_s


def _always() -> bool:
    return True


class Edge(NamedTuple):
    """Where the level changes in a frame."""

    bit: int
    """Before which bit; the start bit is 0."""
    is_space: bool


@functools.cache
def edges(code: int, format: LineFormat, parity_fault: str = "") -> tuple[Edge, ...]:
    """Return the changes of level of one character, from its start bit to its stop bit."""
    bits = [code >> number & 1 for number in range(format.data_bits)]
    if format.parity != "none":
        bits.append(parity_bit(sum(bits), format.parity, parity_fault))
    spaces = [False, True, *(bit == 0 for bit in bits), False]
    changed = enumerate(itertools.pairwise(spaces))
    return tuple(Edge(number, after) for number, (before, after) in changed if before != after)
