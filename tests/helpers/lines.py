"""Pseudo-terminals and TCP ports for tests of links: the test plays the board at the far end."""

import contextlib
import os
import select
import socket
import subprocess
import sys
import threading
import tty

from termprobe.clock import SystemClock
from termprobe.link.base import LineFormat
from termprobe.link.open import open_port

HANG_S = 20.0
"""No call under test takes a second; one that is not back by then hangs."""
USUAL = LineFormat()


class PtyBoard:
    """The far end of a pseudo-terminal; `path` is what a link opens."""

    def __init__(self):
        self.master, slave = os.openpty()
        tty.setraw(slave)
        self.path = os.ttyname(slave)
        os.close(slave)

    def take(self):
        return os.read(self.master, 4096)

    def reply(self, data):
        os.write(self.master, data)

    def wait(self, limit_s):
        return bool(select.select([self.master], [], [], limit_s)[0])

    def vanish(self):
        if self.master is not None:
            os.close(self.master)
            self.master = None


class TcpBoard:
    """The far end of one TCP connection on the loopback interface."""

    def __init__(self):
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.path = f"socket://127.0.0.1:{self._listener.getsockname()[1]}"
        self._connection = None

    def _connected(self):
        if self._connection is None:
            self._connection, _ = self._listener.accept()
        return self._connection

    def take(self):
        return self._connected().recv(4096)

    def reply(self, data):
        self._connected().sendall(data)

    def wait(self, limit_s):
        return bool(select.select([self._connected()], [], [], limit_s)[0])

    def vanish(self):
        with contextlib.suppress(OSError):
            self._connected().shutdown(socket.SHUT_RDWR)
        self._connected().close()
        self._listener.close()


def taken(board, count, limit_s=5.0):
    """Return what the board got: `count` bytes, or fewer where no more come within `limit_s`."""
    data = b""
    while len(data) < count and board.wait(limit_s):
        data += board.take()
    return data


def arrived(link, count, waits=100, wait_s=0.05):
    """Return the bytes that the link received: `count` of them, or fewer where no more come."""
    data = b""
    while len(data) < count and waits:
        data += b"".join(received.data for received in link.read(wait_s))
        waits -= 1
    return data


def opened(url, format=USUAL, **settings):
    """Return a link to `url` in the system's time."""
    return open_port(url, format, SystemClock(), **settings)


def finishes(call):
    """Return whether `call` comes back at all."""
    thread = threading.Thread(target=call, daemon=True)
    thread.start()
    thread.join(HANG_S)
    return not thread.is_alive()


@contextlib.contextmanager
def holding(path, opening="f = open(sys.argv[1])"):
    """For the time of the block have another program hold `path`; give its process number."""
    program = f"import fcntl, os, sys; {opening}; print('held', flush=True); input()"
    with subprocess.Popen(
        [sys.executable, "-c", program, path], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as other:
        assert other.stdout.readline() == b"held\n"
        yield other.pid
        other.communicate(b"\n")


@contextlib.contextmanager
def as_user(number):
    """For the time of the block be this user, where we may; only root is stopped by nothing."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(number)
    try:
        yield
    finally:
        os.seteuid(0)
