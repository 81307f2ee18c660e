"""Ports that pyserial's own handlers move: a loop, and one behind RFC 2217."""

import pytest

from helpers.lines import arrived, finishes, opened
from helpers.rfc2217_server import Rfc2217Server
from termprobe.errors import LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat


def test_control_lines_are_those_of_the_port():
    with opened("loop://", rts=True) as link:
        assert link.lines()["cts"] is True, "a loop joins RTS to CTS"
        link.set_line("rts", False)
        assert link.lines()["cts"] is False
        with pytest.raises(LinkSettingsError, match="control lines"):
            link.set_line("reset", True)
    with opened("loop://", rts=False, dtr=False) as link:
        assert (link.lines()["cts"], link.lines()["dsr"]) == (False, False)


def test_more_than_a_loop_holds_goes_through():
    data = bytes(range(256)) * 40
    with opened("loop://") as link:
        link.write(data)
        assert arrived(link, len(data)) == data


def test_a_port_behind_rfc_2217_has_a_real_line_and_can_be_lost():
    server = Rfc2217Server()
    link = opened(server.path, LineFormat(2400, 7, "even", 1), rts=False)
    assert (server.port.baudrate, server.port.bytesize, server.port.parity, server.port.rts) == (
        2400,
        7,
        "E",
        False,
    )
    link.write(b"to and fro\xff")
    assert arrived(link, 11) == b"to and fro\xff"
    assert link.drain(1.0)
    server.vanish()
    with pytest.raises(LinkLostError):
        for _ in range(100):
            link.read(0.1)
    assert finishes(link.close)
