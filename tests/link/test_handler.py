"""Ports that pyserial's own handlers move: a loop, and one behind RFC 2217."""

import socket
import threading

import pytest
import serial
import serial.rfc2217

from helpers.lines import arrived, finishes, opened
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


class Rfc2217Server:
    """pyserial's own server side, before a loop: what the link writes comes back to it."""

    def __init__(self):
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.path = f"rfc2217://127.0.0.1:{self._listener.getsockname()[1]}"
        self.port = serial.serial_for_url("loop://", timeout=0.01)
        threading.Thread(target=self._serve, daemon=True).start()

    def _serve(self):
        connection, _ = self._listener.accept()
        self.connection = connection
        self.write = connection.sendall
        manager = serial.rfc2217.PortManager(self.port, self)
        connection.settimeout(0.01)
        while True:
            try:
                data = connection.recv(1024)
                if not data:
                    return
                self.port.write(b"".join(manager.filter(data)))
            except TimeoutError:
                pass
            except OSError:
                return
            connection.sendall(b"".join(manager.escape(self.port.read(self.port.in_waiting))))

    def vanish(self):
        self.connection.shutdown(socket.SHUT_RDWR)
        self._listener.close()


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
