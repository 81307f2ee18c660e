"""A terminal device of a POSIX system: its settings, its bytes, its control lines.

The one file here that speaks to the driver. pyserial opens the device and sets it up; from then on
only these calls touch it.
"""

import contextlib
import errno
import fcntl
import os
import struct
import termios

import serial
from serial.serialposix import TIOCCBRK, TIOCSBRK

from termprobe.link.base import LineFormat
from termprobe.link.end import NO_CONTROL_LINES, Piece
from termprobe.link.marks import BAD, MarkParser
from termprobe.link.selected import READ_BYTES, SelectedEnd
from termprobe.link.settings import line_settings

SPEED_TOLERANCE = 0.02
"""A UART that samples in mid-bit fails at about twice this over a ten-bit frame."""
LINE_BITS = {
    "cts": termios.TIOCM_CTS,
    "dsr": termios.TIOCM_DSR,
    "dcd": termios.TIOCM_CAR,
    "ri": termios.TIOCM_RNG,
}
DRIVEN_BITS = {"rts": termios.TIOCM_RTS, "dtr": termios.TIOCM_DTR}
DATA_BITS = {termios.CS5: 5, termios.CS6: 6, termios.CS7: 7, termios.CS8: 8}
COUNTER_NAMES = (
    *("cts", "dsr", "rng", "dcd", "rx", "tx"),
    *("framing", "overrun", "parity", "break"),
)
"""The first words of Linux' struct serial_icounter_struct (linux/serial.h).

Its frame and brk stand here by the names that termprobe uses.
"""
ERROR_COUNTERS = COUNTER_NAMES[6:]
READ_COUNTERS = 0x545D
"""TIOCGICOUNT of Linux (asm-generic/ioctls.h)."""
READ_SPEED = 0x802C542A
"""TCGETS2 of Linux (asm-generic/termbits.h)."""
INPUT_FLAGS, CONTROL_FLAGS = 0, 2
"""Where they stand among what tcgetattr returns."""


class TtyEnd(SelectedEnd):
    """The bytes of a port that pyserial has opened, and the control lines of a real line."""

    def __init__(self, port: serial.Serial, is_stream: bool, has_parity: bool) -> None:
        super().__init__(port.fileno())
        self._port = port
        self.is_stream = is_stream
        self._has_parity = has_parity
        self._marks = MarkParser()
        self._counters = self._read_counters()

    def _take(self) -> bytes:
        return os.read(self._descriptor, READ_BYTES)

    def _give(self, data: bytes) -> int:
        return os.write(self._descriptor, data)

    def _marked(self, data: bytes) -> tuple[Piece, ...]:
        if self.is_stream:
            return super()._marked(data)
        risen = self._risen()
        pieces = [
            Piece(piece.data, self._cause(piece.mark, risen)) for piece in self._marks.feed(data)
        ]
        if "overrun" in risen:
            pieces.append(Piece(b"", "overrun"))
        return tuple(pieces)

    def _risen(self) -> set[str]:
        """Return the names of the driver's counters that have risen since the last call."""
        before, self._counters = self._counters, self._read_counters()
        return {name for name in self._counters if self._counters[name] > before.get(name, 0)}

    def _read_counters(self) -> dict[str, int]:
        try:
            filled = _counters_of(self._descriptor)
        except OSError:
            return {}
        return dict(zip(COUNTER_NAMES, struct.unpack("20i", filled), strict=False))

    def _cause(self, mark: str, risen: set[str]) -> str:
        """Return what a marked character suffered.

        The mark does not tell parity from framing, but the driver's counters do.
        """
        if mark != BAD:
            return mark
        if self._has_parity and ("parity" in risen or "framing" not in risen):
            return "parity"
        return "framing"

    @property
    def abilities(self) -> frozenset[str]:
        if self.is_stream:
            return frozenset()
        found = {"frames", "break", "marks", "unsent"}
        if self.lines() is not None:
            found.add("lines")
        if self._counters:
            found.add("counters")
        return frozenset(found)

    def set_format(self, format: LineFormat) -> None:
        """Set speed and frame; errors are marked as before."""
        self._port.apply_settings(line_settings(format))
        settle_port(self._descriptor)
        refusal = refused(self._descriptor, format)
        if refusal:
            raise ValueError(refusal)
        self._has_parity = format.parity != "none"

    def counters(self) -> dict[str, int]:
        counted = self._read_counters()
        return {name: counted[name] for name in ERROR_COUNTERS if name in counted}

    def unsent(self) -> int:
        return _number_from(self._descriptor, termios.TIOCOUTQ)

    def lines(self) -> dict[str, bool] | None:
        try:
            state = _number_from(self._descriptor, termios.TIOCMGET)
        except OSError as error:
            if error.errno in (errno.ENOTTY, errno.EINVAL):
                return None
            raise
        return {name: bool(state & bit) for name, bit in LINE_BITS.items()}

    def set_line(self, line: str, on: bool) -> None:
        if self.is_stream:
            raise NotImplementedError(NO_CONTROL_LINES)
        match line, on:
            case "break", True:
                fcntl.ioctl(self._descriptor, TIOCSBRK)
            case "break", False:
                fcntl.ioctl(self._descriptor, TIOCCBRK)
            case "rts" | "dtr", True:
                fcntl.ioctl(self._descriptor, termios.TIOCMBIS, _packed(DRIVEN_BITS[line]))
            case "rts" | "dtr", False:
                fcntl.ioctl(self._descriptor, termios.TIOCMBIC, _packed(DRIVEN_BITS[line]))
            case _:
                raise NotImplementedError(NO_CONTROL_LINES)

    def close(self) -> None:
        with contextlib.suppress(termios.error):  # the port has gone: nothing to throw away
            termios.tcflush(self._descriptor, termios.TCOFLUSH)
        self._port.close()
        super().close()


def _counters_of(descriptor: int) -> bytes:
    """Return the driver's counters, as its structure holds them."""
    return fcntl.ioctl(descriptor, READ_COUNTERS, bytes(80))


def _number_from(descriptor: int, request: int) -> int:
    """Return the one number that the driver answers."""
    (number,) = struct.unpack("i", fcntl.ioctl(descriptor, request, _packed(0)))
    return int(number)


def _packed(number: int) -> bytes:
    return struct.pack("i", number)


def settle_pseudo_terminal(descriptor: int) -> None:
    """Undo what the last user may have set. Nothing can be marked where no frames travel.

    It is not made exclusive: that would outlive a crash, and shut out whoever resumes.
    """
    settings = termios.tcgetattr(descriptor)
    _let_through(settings)
    termios.tcsetattr(descriptor, termios.TCSANOW, settings)


def settle_port(descriptor: int) -> None:
    """Make the port ours alone, undo what the last user may have set, and have errors marked."""
    settings = termios.tcgetattr(descriptor)
    _let_through(settings)
    fcntl.ioctl(descriptor, termios.TIOCEXCL)
    settings[INPUT_FLAGS] |= termios.PARMRK | termios.INPCK
    settings[CONTROL_FLAGS] &= ~termios.HUPCL  # DTR must not fall and rise between two runs
    termios.tcsetattr(descriptor, termios.TCSANOW, settings)


def _let_through(settings: list[int]) -> None:
    """Clear what would make the driver drop or change characters that pyserial leaves as it was."""
    settings[INPUT_FLAGS] &= ~(termios.BRKINT | termios.IGNPAR | termios.IGNBRK | termios.ISTRIP)


def refused(descriptor: int, format: LineFormat) -> str:
    """Return in words what the driver has made of the settings; empty where it took them."""
    flags = termios.tcgetattr(descriptor)[CONTROL_FLAGS]
    bits = DATA_BITS[flags & termios.CSIZE]
    if bits != format.data_bits:
        return f"its driver makes that {bits} data bits"
    if bool(flags & termios.PARENB) != (format.parity != "none"):
        return "its driver takes no parity"
    speed_baud = actual_speed_baud(descriptor)
    if speed_baud and abs(speed_baud / format.speed_baud - 1) > SPEED_TOLERANCE:
        return f"its driver makes that {speed_baud} baud"
    return ""


def actual_speed_baud(descriptor: int) -> int:
    """Return the speed that the Linux driver tells; 0 where it tells none."""
    try:
        answer = fcntl.ioctl(descriptor, READ_SPEED, bytes(44))
    except OSError:
        return 0
    (speed_baud,) = struct.unpack("I", answer[40:44])
    return int(speed_baud)
