"""A connection to a port that is served over TCP, opened without pyserial (POSIX)."""

import re
import socket

from termprobe.errors import LinkMissingError
from termprobe.link.selected import READ_BYTES, SelectedEnd
from termprobe.link.trouble import OPEN, translated

CONNECT_LIMIT_S = 5.0
_URL = re.compile(
    r"[a-z]+://\[?(?P<host>[^/?]+?)\]?:(?P<port>\d{1,5})/?(\?.*)?",
    re.IGNORECASE,
)


class TcpEnd(SelectedEnd):
    """The bytes of a connection."""

    def __init__(self, connection: socket.socket) -> None:
        super().__init__(connection.fileno())
        self._connection = connection
        connection.setblocking(False)
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)

    def _take(self) -> bytes:
        return self._connection.recv(READ_BYTES)

    def _give(self, data: bytes) -> int:
        return self._connection.send(data)

    def close(self) -> None:
        self._connection.close()
        super().close()


def connect(url: str) -> TcpEnd:
    """Return the end of a new connection to `socket://HOST:NUMBER`; raise LinkError otherwise."""
    address = _URL.fullmatch(url)
    if not address or not 0 < int(address["port"]) < 65536:
        raise LinkMissingError(
            f"{url}: a port served over TCP must read socket://HOST:NUMBER, "
            "with a number from 1 to 65535"
        )
    with translated(url, OPEN):
        where = address["host"], int(address["port"])
        return TcpEnd(socket.create_connection(where, CONNECT_LIMIT_S))
