"""A TCP port that a board answers on."""

import select
import socket
import threading

import pytest

from termprobe.board.tcp_end import TcpEndpoint
from termprobe.errors import LinkBusyError, LinkMissingError, UsageError

LIMIT_S = 10.0


@pytest.mark.parametrize("address", ["0", ":0", "127.0.0.1:0"])
def test_only_this_computer_may_call_unless_another_address_is_named(address):
    end = TcpEndpoint(address)
    assert end.name.startswith("socket://127.0.0.1:")
    end.close()


def test_an_address_that_another_program_has_is_refused():
    first = TcpEndpoint(":0")
    with pytest.raises(LinkBusyError, match="free port"):
        TcpEndpoint(first.name.removeprefix("socket://"))
    first.close()
    with pytest.raises(LinkMissingError, match="address of this computer"):
        TcpEndpoint("192.0.2.1:1")  # RFC 5737: nobody has this address


@pytest.mark.parametrize("address", ["", "localhost", "host:port", "1:99999", "::\u0663"])
def test_an_address_without_a_port_is_refused(address):
    with pytest.raises(UsageError, match="HOST:PORT"):
        TcpEndpoint(address)


def test_a_client_that_reads_nothing_does_not_stop_the_board():
    end = TcpEndpoint(":0")
    client = socket.create_connection(("127.0.0.1", int(end.name.rpartition(":")[2])), LIMIT_S)
    end.receive(select.select(end.sources(), [], [], LIMIT_S)[0])
    worker = threading.Thread(target=end.send, args=(b"x" * 50_000_000,), daemon=True)
    worker.start()
    worker.join(LIMIT_S)
    assert (
        not worker.is_alive() and len(end.sources()) == 1
    )  # parted from the client, still listening
    client.close()
    end.close()
