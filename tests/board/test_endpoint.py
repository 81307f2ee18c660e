"""Every endpoint keeps to one contract: one client at a time, and what nobody takes is lost."""

import os
import select
import socket
import time

import pytest

from helpers.lines import finishes
from termprobe.board.pty_end import PtyEndpoint
from termprobe.board.tcp_end import TcpEndpoint

LIMIT_S = 10.0


def client_of_pty(end):
    """Open it as it is: to set it up would throw away what waits there."""
    return open(os.open(end.name, os.O_RDWR | os.O_NOCTTY), "r+b", buffering=0)


def client_of_tcp(end):
    host, port = end.name.removeprefix("socket://").split(":")
    with socket.create_connection((host, int(port)), LIMIT_S) as near:
        return near.makefile("rwb", buffering=0)


KINDS = {
    "pty": (lambda folder: PtyEndpoint(str(folder / "board")), client_of_pty),
    "tcp": (lambda folder: TcpEndpoint(":0"), client_of_tcp),
}


@pytest.fixture(params=KINDS)
def served(request, tmp_path):
    """Return (an endpoint, a function that opens it as a client)."""
    make, client = KINDS[request.param]
    end = make(tmp_path)
    yield end, lambda: client(end)
    end.close()


def received(end, count):
    """Return the bytes that the endpoint receives: `count` of them, or fewer within LIMIT_S."""
    data, deadline_s = b"", time.monotonic() + LIMIT_S
    while len(data) < count and time.monotonic() < deadline_s:
        ready = select.select(end.sources(), [], [], 0.02)[0]
        data += end.receive(ready)
    return data


def test_bytes_go_both_ways(served):
    end, open_client = served
    with open_client() as client:
        client.write(bytes(range(256)))
        assert received(end, 256) == bytes(range(256))
        end.send(b"\x06")
        assert client.read(1) == b"\x06"


def test_what_is_sent_before_a_client_comes_is_lost(served):
    end, open_client = served
    end.send(b"lost")
    with open_client() as client:
        client.write(b"here")
        assert received(end, 4) == b"here"
        end.send(b"now")
        assert client.read(3) == b"now"


def test_a_client_may_go_and_another_come(served):
    end, open_client = served
    for word in (b"first", b"second"):
        with open_client() as client:
            client.write(word)
            assert received(end, len(word)) == word


def test_sources_that_are_not_ready_give_nothing(served):
    end, open_client = served
    assert end.receive([]) == b""
    with open_client() as client:
        client.write(b"x")
        assert end.receive([]) == b""
        assert received(end, 1) == b"x"


def test_a_client_that_reads_nothing_does_not_stop_the_board(served):
    end, open_client = served
    with open_client() as client:
        client.write(b"here")
        assert received(end, 4) == b"here"
        assert finishes(lambda: end.send(bytes(20_000_000)))


@pytest.mark.parametrize("make, client", KINDS.values(), ids=KINDS)
def test_after_close_nobody_can_open_it(make, client, tmp_path):
    end = make(tmp_path)
    client(end).close()
    end.close()
    with pytest.raises((FileNotFoundError, ConnectionRefusedError)):
        client(end)
