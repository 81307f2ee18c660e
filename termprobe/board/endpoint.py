"""The interface Endpoint: where a served board's cable ends. One client at a time.

One file an endpoint: pty_end.py, tcp_end.py.
"""

from collections.abc import Sequence
from typing import Protocol

from termprobe.link.readiness import Source

CLIENT_BYTES = 65536
"""Bytes taken at a time."""


class Endpoint(Protocol):
    """What a board is served on."""

    name: str
    """What a client opens."""

    def sources(self) -> list[Source]:
        """Return what to wait for: nothing while nobody can send."""

    def receive(self, ready: Sequence[Source]) -> bytes:
        """Return the bytes that have come; `ready` are the sources that can be read."""

    def send(self, data: bytes) -> None:
        """Send `data`; what nobody takes is lost."""

    def close(self) -> None:
        """Let go of client and address."""
