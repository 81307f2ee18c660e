"""A TCP port, on this computer alone unless another address is named."""

import contextlib
import errno
import socket
from collections.abc import Sequence

from termprobe.board.endpoint import CLIENT_BYTES
from termprobe.errors import (
    LinkBusyError,
    LinkDeniedError,
    LinkError,
    LinkMissingError,
    UsageError,
)
from termprobe.link.readiness import Source

SEND_LIMIT_S = 1.0
LOOPBACK = "127.0.0.1"
LISTENING: dict[int | None, type[LinkError]] = {
    errno.EADDRINUSE: LinkBusyError,
    errno.EACCES: LinkDeniedError,
}
"""What an error number means while the port is being taken; LinkMissingError otherwise."""


class TcpEndpoint:
    """A TCP port; an Endpoint.

    `address` is HOST:PORT, or PORT alone for this computer only; port 0 takes a free one. Raise a
    LinkError where it cannot be had.
    """

    def __init__(self, address: str) -> None:
        host, port = _host_and_port(address)
        try:
            family = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0][0]
            self._listener = socket.create_server((host, port), family=family, backlog=1)
        except OSError as error:
            raise LISTENING.get(error.errno, LinkMissingError)(
                f"{address}: must be an address of this computer with a free port, but it is not "
                f"({error.strerror or error}); try {LOOPBACK}:0 for any free port"
            ) from None
        self._client: socket.socket | None = None
        self.name = _url_of(self._listener)

    def sources(self) -> list[Source]:
        if self._client is None:
            return [self._listener]
        return [self._listener, self._client]

    def receive(self, ready: Sequence[Source]) -> bytes:
        data = b""
        if self._client is not None and self._client in ready:
            data = self._take(self._client)
        if self._listener in ready:
            self._admit()
        return data

    def _take(self, client: socket.socket) -> bytes:
        data = b""
        with contextlib.suppress(OSError):
            data = client.recv(CLIENT_BYTES)
        if not data:
            self._part()
        return data

    def _admit(self) -> None:
        with contextlib.suppress(OSError):
            client, _ = self._listener.accept()
            if self._client is not None:
                client.close()
                return
            client.settimeout(SEND_LIMIT_S)
            client.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._client = client

    def send(self, data: bytes) -> None:
        if self._client is not None:
            try:
                self._client.sendall(data)
            except OSError:
                self._part()

    def _part(self) -> None:
        if self._client is not None:
            self._client.close()
        self._client = None

    def close(self) -> None:
        self._part()
        self._listener.close()


def _host_and_port(address: str) -> tuple[str, int]:
    host, _, port = address.rpartition(":")
    if not port.isascii() or not port.isdigit() or int(port) > 65535:
        raise UsageError(f"--tcp must be HOST:PORT, the port from 0 to 65535, not {address!r}")
    return host.strip("[]") or LOOPBACK, int(port)


def _url_of(listener: socket.socket) -> str:
    host, port = listener.getsockname()[:2]
    if ":" in host:
        host = f"[{host}]"
    return f"socket://{host}:{port}"
