"""What ends have in common that the system can wait for by a descriptor."""

import errno
import queue
import socket
from abc import ABC, abstractmethod

from termprobe.link.base import LineFormat
from termprobe.link.end import NO_CONTROL_LINES, Piece
from termprobe.link.readiness import has_room, readable

WRITE_LIMIT_S = 3.0
"""A line that takes no byte for this long is held; whoever ends the program waits no longer."""
READ_BYTES = 4096


class SelectedEnd(ABC):
    """The bytes of a descriptor, as an End; cancel() ends every wait."""

    is_stream = True

    def __init__(self, descriptor: int) -> None:
        self._descriptor = descriptor
        self._cancelled, self._canceller = socket.socketpair()

    @abstractmethod
    def _take(self) -> bytes:
        """Return some of the bytes that have come; none where the other end has hung up."""

    @abstractmethod
    def _give(self, data: bytes) -> int:
        """Return how many of the bytes are taken; raise BlockingIOError where there is no room."""

    def _marked(self, data: bytes) -> tuple[Piece, ...]:
        """Return the pieces of what has come."""
        return (Piece(data),)

    def read(self) -> tuple[Piece, ...] | None:
        if self._cancelled in readable([self._descriptor, self._cancelled]):
            return None
        data = self._take()
        if not data:
            raise OSError(errno.EIO, "the other end hung up")
        return self._marked(data)

    def write(self, data: bytes) -> None:
        while data:
            try:
                data = data[self._give(data) :]
            except BlockingIOError:
                self._wait_for_room()

    def _wait_for_room(self) -> None:
        if not has_room(self._descriptor, self._cancelled, WRITE_LIMIT_S):
            raise queue.Full

    @property
    def abilities(self) -> frozenset[str]:
        return frozenset()

    def set_format(self, format: LineFormat) -> None:
        """Refuse: a stream has no frame."""
        raise ValueError(f"a stream of characters has no frame {format}")

    def counters(self) -> dict[str, int]:
        return {}

    def unsent(self) -> int:
        return 0

    def lines(self) -> dict[str, bool] | None:
        return None

    def set_line(self, line: str, on: bool) -> None:
        raise NotImplementedError(NO_CONTROL_LINES)

    def cancel(self) -> None:
        self._canceller.send(b".")

    def close(self) -> None:
        self._canceller.close()
        self._cancelled.close()
