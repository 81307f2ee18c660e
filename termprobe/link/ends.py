"""Two ways to the bytes of an opened port on POSIX: a terminal device and a TCP connection (a third: handler.py).

An end throws whatever the system throws (termprobe/link/port.py translates), and has: read() -> tuples (characters,
mark), None after cancel(); write(data); unsent() -> characters; lines(); set_line(); cancel(); close();
`is_stream` where characters travel instead of line frames.
"""

import errno
import fcntl
import os
import queue
import select
import socket
import struct
import termios

from termprobe.link.marks import BAD, MarkParser

WRITE_LIMIT_S = 5.0
"""A line that takes no byte for this long is held."""
CHUNK = 4096
NO_CONTROL_LINES = "this port has no control lines"


class _Selected:
    """Bytes of a file descriptor; cancel() ends every wait."""

    is_stream = True

    def __init__(self, descriptor):
        self._descriptor = descriptor
        self._cancelled, self._canceller = socket.socketpair()

    def read(self):
        ready, _, _ = select.select([self._descriptor, self._cancelled], [], [])
        if self._cancelled in ready:
            return None
        data = self._take()
        if not data:
            raise OSError(errno.EIO, "the other end hung up")
        return self._marked(data)

    def write(self, data):
        while data:
            try:
                data = data[self._give(data) :]
            except BlockingIOError:
                self._wait_for_room()

    def _wait_for_room(self):
        _, room, _ = select.select([self._cancelled], [self._descriptor], [], WRITE_LIMIT_S)
        if not room:
            raise queue.Full

    def _marked(self, data):
        return ((data, ""),)

    def unsent(self):
        return 0

    def lines(self):
        return None

    def set_line(self, line, on):
        raise NotImplementedError(NO_CONTROL_LINES)

    def cancel(self):
        self._canceller.send(b".")

    def close(self):
        self._canceller.close()
        self._cancelled.close()


class TcpEnd(_Selected):
    """A connection to a port served over TCP."""

    def __init__(self, connection):
        super().__init__(connection.fileno())
        self._connection = connection
        connection.setblocking(False)
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)

    def _take(self):
        return self._connection.recv(CHUNK)

    def _give(self, data):
        return self._connection.send(data)

    def close(self):
        self._connection.close()
        super().close()


LINE_BITS = {
    "cts": termios.TIOCM_CTS,
    "dsr": termios.TIOCM_DSR,
    "dcd": termios.TIOCM_CAR,
    "ri": termios.TIOCM_RNG,
}
DRIVEN_BITS = {"rts": termios.TIOCM_RTS, "dtr": termios.TIOCM_DTR}
COUNTER_NAMES = "cts dsr rng dcd rx tx framing overrun parity break".split()
"""The first words of Linux' struct serial_icounter_struct (linux/serial.h), frame and brk by their names here."""


class TtyEnd(_Selected):
    """A port that pyserial has opened and set up; from then on only these calls touch it."""

    def __init__(self, port, is_stream, has_parity):
        super().__init__(port.fileno())
        self._port = port
        self.is_stream = is_stream
        self._has_parity = has_parity
        self._marks = None if is_stream else MarkParser()
        self._counters = self._read_counters()

    def _take(self):
        return os.read(self._descriptor, CHUNK)

    def _give(self, data):
        return os.write(self._descriptor, data)

    def _marked(self, data):
        if self._marks is None:
            return ((data, ""),)
        before, self._counters = self._counters, self._read_counters()
        risen = {name for name in self._counters if self._counters[name] > before.get(name, 0)}
        pieces = tuple(
            (text, _cause(mark, risen, self._has_parity)) for text, mark in self._marks.feed(data)
        )
        return pieces + ((b"", "overrun"),) if "overrun" in risen else pieces

    def _read_counters(self):
        try:
            filled = fcntl.ioctl(
                self._descriptor, getattr(termios, "TIOCGICOUNT", 0x545D), bytes(80)
            )
        except OSError:
            return {}
        return dict(zip(COUNTER_NAMES, struct.unpack("20i", filled)))

    def unsent(self):
        return struct.unpack("i", fcntl.ioctl(self._descriptor, termios.TIOCOUTQ, bytes(4)))[0]

    def lines(self):
        try:
            state = struct.unpack("i", fcntl.ioctl(self._descriptor, termios.TIOCMGET, bytes(4)))[0]
        except OSError as error:
            if error.errno in (errno.ENOTTY, errno.EINVAL):
                return None
            raise
        return {name: bool(state & bit) for name, bit in LINE_BITS.items()}

    def set_line(self, line, on):
        if line == "break" and not self.is_stream:
            fcntl.ioctl(self._descriptor, termios.TIOCSBRK if on else termios.TIOCCBRK)
        elif line in DRIVEN_BITS and not self.is_stream:
            request = termios.TIOCMBIS if on else termios.TIOCMBIC
            fcntl.ioctl(self._descriptor, request, struct.pack("i", DRIVEN_BITS[line]))
        else:
            raise NotImplementedError(NO_CONTROL_LINES)

    def close(self):
        try:
            termios.tcflush(self._descriptor, termios.TCOFLUSH)
        except termios.error:
            pass  # the port has gone; nothing is left to throw away
        self._port.close()
        super().close()


def _cause(mark, risen, has_parity):
    """Return what a marked character suffered: the mark does not tell parity from framing, the driver's counters do."""
    if mark != BAD:
        return mark
    return "parity" if has_parity and ("parity" in risen or "framing" not in risen) else "framing"
