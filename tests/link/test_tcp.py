"""Ports served over TCP where nobody listens."""

import socket

import pytest

from helpers.lines import opened
from termprobe.errors import LinkMissingError


def test_a_tcp_port_where_nobody_listens_is_missing():
    with socket.create_server(("127.0.0.1", 0)) as listener:
        number = listener.getsockname()[1]
    with pytest.raises(LinkMissingError, match="Connection refused"):
        opened(f"socket://127.0.0.1:{number}")
    with pytest.raises(LinkMissingError):
        opened(f"rfc2217://127.0.0.1:{number}")
