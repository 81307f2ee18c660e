"""The half of a UART that receives: it samples a wire with a clock of 16 times its rate.

A start bit counts once it is still low at its eighth clock; from there each bit is sampled once, 16
clocks apart (data sheets of hard-wired UARTs).
"""

import math

from termprobe.board.cable.pins import InputPin
from termprobe.link.base import LineFormat, Received
from termprobe.link.frame import parity_bit
from termprobe.link.rate_facts import SAMPLES_PER_BIT

MIDDLE = SAMPLES_PER_BIT // 2
A_LITTLE = 1e-6
"""Of a clock: what is nearer to one falls on it."""


class Receiver:
    """Receives from `pin` in `format`, by a clock `speed_ratio` as fast as that says."""

    def __init__(self, pin: InputPin, format: LineFormat, speed_ratio: float = 1.0) -> None:
        self._pin = pin
        self._begins_s = math.inf
        """When the start bit of a frame that is not complete was found."""
        self._ends_s = math.inf
        self._broken_from_s: float | None = None
        self.last_break_s = 0.0
        """How long the last break lasted that is over."""
        self.set_format(format, speed_ratio)

    def set_format(self, format: LineFormat, speed_ratio: float) -> None:
        """Take another format; a character on its way is lost."""
        self.format = format
        self._clock_s = 1 / (format.speed_baud * speed_ratio * SAMPLES_PER_BIT)
        self._samples = format.data_bits + (format.parity != "none") + 1
        self._frame_s = (self._samples * SAMPLES_PER_BIT + MIDDLE) * self._clock_s
        self._begins_s = self._ends_s = math.inf

    @property
    def next_s(self) -> float:
        """When there is something to do; for ever where nothing is known to come.

        No frame is complete before a whole one has passed from the next change.
        """
        if self._ends_s < math.inf:
            return self._ends_s
        changes_s = self._pin.next_s
        if changes_s == math.inf:
            return changes_s
        return self._at_clock_s(changes_s) + self._frame_s

    def break_s(self, at_s: float) -> float:
        """Return how long the last break lasted, or has lasted so far; 0 where there was none."""
        if self._broken_from_s is not None:
            return at_s - self._broken_from_s
        return self.last_break_s

    def advance(self, at_s: float) -> list[Received]:
        """Return what is complete at `at_s`, each with the moment in which it was."""
        complete: list[Received] = []
        while True:
            if self._ends_s == math.inf and not self._finds_start(at_s):
                return complete
            if self._ends_s > at_s:
                return complete
            received = self._sampled()
            if received:
                complete.append(received)

    def _finds_start(self, at_s: float) -> bool:
        """Look for a start bit that has begun up to `at_s`."""
        while change := self._pin.next_edge(at_s):
            if change.is_space:
                self._begins_s = self._at_clock_s(change.at_s)
                self._ends_s = self._begins_s + self._frame_s
                return True
            if self._broken_from_s is not None:
                self.last_break_s = change.at_s - self._broken_from_s
                self._broken_from_s = None
        return False

    def _at_clock_s(self, at_s: float) -> float:
        """Return when the clock notices what happens at `at_s`."""
        return math.ceil(at_s / self._clock_s - A_LITTLE) * self._clock_s

    def _sampled(self) -> Received | None:
        """Return what the frame holds whose end has come; None where it was no start bit."""
        ends_s, self._ends_s = self._ends_s, math.inf
        begins_s, clock_s, level_at = self._begins_s, self._clock_s, self._pin.level_at
        middle_s = begins_s + MIDDLE * clock_s
        if not level_at(middle_s):
            return None
        bit_s = SAMPLES_PER_BIT * clock_s
        marks = [not level_at(middle_s + bit * bit_s) for bit in range(1, self._samples + 1)]
        if not any(marks):
            self._broken_from_s = begins_s
            return Received(ends_s, b"\0", "break")
        return Received(ends_s, *self._decoded(marks))

    def _decoded(self, marks: list[bool]) -> tuple[bytes, str]:
        """Return (the character, its error) of the samples: data, parity, stop."""
        data = marks[: self.format.data_bits]
        code = int("".join("01"[mark] for mark in reversed(data)), 2)
        error = ""
        parity = self.format.parity
        if parity != "none" and marks[-2] != parity_bit(sum(data), parity):
            error = "parity"
        if not marks[-1]:
            error = "framing"
        return bytes([code]), error
