"""Far ends of lines that no board has: they never read, never stop, never answer, or go away."""

import contextlib
import itertools
import os
import pathlib
import socket
import threading
import time
import tty

from helpers.rfc2217_server import Rfc2217Server

READ_BYTES = 65536
POLL_S = 0.02
FILLINGS = 5
FLOOD = bytes(range(256)) * 16
FLOOD_S = 0.004
"""A megabyte a second, which no line carries."""
MARKS = b"\xff\x00\x41\xff\x00\x00\xff\xffOK\x11\x13\x1b[6n\x9b31m\x00\x07\r\n"
"""What drivers of POSIX put into the stream for a wrong parity, a break, and a good FFh."""
HAND_S = 0.15
ANSWER = b"\x1b[1;3R"


class PtyFarEnd:
    """A pseudo-terminal; `url` is a link to it that stays when it is unplugged and plugged in."""

    def __init__(self, kind, folder):
        self._kind, self._link = kind, pathlib.Path(folder, "board")
        self.url = str(self._link)
        self.plug_in()

    def plug_in(self):
        """Make the port, where the one before was."""
        self._master, slave = os.openpty()
        tty.setraw(slave)
        self._link.unlink(missing_ok=True)
        self._link.symlink_to(os.ttyname(slave))
        if self._kind == "never reads":
            _fill(slave)
        os.close(slave)
        os.set_blocking(self._master, False)
        thread = threading.Thread(target=self._play, args=(self._master,), daemon=True)
        thread.start()

    def _play(self, master):
        """Be the far end until it is unplugged."""
        act = ACTS[self._kind]
        while self._master == master:
            with contextlib.suppress(BlockingIOError, ValueError):
                try:
                    act(master)
                except OSError:  # nobody has opened it, or it has been closed
                    time.sleep(POLL_S)
            time.sleep(POLL_S / 20)

    def unplug(self):
        """Take the port away."""
        master, self._master = self._master, None
        self._link.unlink()
        if master is not None:
            time.sleep(POLL_S)
            os.close(master)

    def close(self):
        """End it."""
        if self._master is not None:
            self.unplug()


def _fill(slave):
    """Write until nothing is taken any more; the system may make room for a moment."""
    os.set_blocking(slave, False)
    for _ in range(FILLINGS):
        with contextlib.suppress(BlockingIOError):
            while os.write(slave, b"x" * READ_BYTES):
                pass
        time.sleep(POLL_S)


def _swallow(master):
    os.read(master, READ_BYTES)


def _echo(master):
    os.write(master, os.read(master, READ_BYTES))


def _answer(master):
    if b"\x1b[6n" in os.read(master, READ_BYTES):
        os.write(master, ANSWER)


def _flood(master):
    with contextlib.suppress(BlockingIOError):
        os.read(master, READ_BYTES)
    os.write(master, FLOOD)
    time.sleep(FLOOD_S)


def _marks(master):
    with contextlib.suppress(BlockingIOError):
        os.read(master, READ_BYTES)
    os.write(master, MARKS)
    time.sleep(POLL_S)


def _nothing(_):
    time.sleep(POLL_S)


_hand = itertools.cycle(b"asdfghjkl;qwertyuiopzxcvbnm")


def _type(master):
    """Press one key after the other, as a quick hand does."""
    os.write(master, bytes([next(_hand)]))
    time.sleep(HAND_S)


ACTS = {
    "answers": _answer,
    "echoes": _echo,
    "swallows": _swallow,
    "floods": _flood,
    "sends marks": _marks,
    "never reads": _nothing,
    "types": _type,
}
"""Kind of a pseudo-terminal -> what it does again and again."""


class TcpFarEnd:
    """A port on loopback that is no terminal server at all."""

    def __init__(self, kind, scheme):
        self._kind, self._connections = kind, []
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.url = f"{scheme}://127.0.0.1:{self._listener.getsockname()[1]}"
        if kind == "refuses":
            self._listener.close()
        else:
            threading.Thread(target=self._accept, daemon=True).start()

    def _accept(self):
        with contextlib.suppress(OSError):
            while True:
                connection, _ = self._listener.accept()
                self._connections.append(connection)
                if self._kind == "closes at once":
                    connection.close()
                elif self._kind == "sends garbage":
                    threading.Thread(target=_pour, args=(connection,), daemon=True).start()

    def unplug(self):
        """Take the port and all connections away."""
        self._listener.close()
        for connection in self._connections:
            with contextlib.suppress(OSError):
                connection.shutdown(socket.SHUT_RDWR)

    def plug_in(self):
        """Stay away: a computer that has gone does not come back at once."""

    close = unplug


def _pour(connection):
    with contextlib.suppress(OSError):
        while True:
            connection.sendall(FLOOD)
            time.sleep(POLL_S)


class StoppingServer(Rfc2217Server):
    """A terminal server that stops for ever, the connection still standing, some time after."""

    def __init__(self, after_s):
        super().__init__()
        self.url = self.path
        self._until_s = time.monotonic() + after_s
        self.write = self._written

    def _written(self, data):
        if time.monotonic() > self._until_s:
            threading.Event().wait()
        self.connection.sendall(data)

    def unplug(self):
        """Take it away, where somebody has connected."""
        with contextlib.suppress(OSError, AttributeError):
            self.vanish()

    def plug_in(self):
        """Stay away."""

    close = unplug


TCP_KINDS = ("refuses", "never answers", "closes at once", "sends garbage")
SCHEMES = ("socket", "rfc2217")


def makers(chance):
    """Return name -> function of a folder that begins such a far end."""
    found = {kind: lambda folder, kind=kind: PtyFarEnd(kind, folder) for kind in ACTS}
    for scheme in SCHEMES:
        for kind in TCP_KINDS:
            found[f"{scheme} {kind}"] = lambda _, kind=kind, to=scheme: TcpFarEnd(kind, to)
    found["rfc2217 stops"] = lambda _: StoppingServer(chance.uniform(0, 3))
    return found
