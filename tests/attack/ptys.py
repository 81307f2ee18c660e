"""The program on a terminal of any size, at which somebody types whatever comes to mind."""

import contextlib
import fcntl
import os
import pty
import select
import shlex
import signal
import struct
import subprocess
import sys
import termios
import time

from .programs import ENTRY, LIMIT_S, Ended, code_of, surroundings, wait_for_signals

USUAL = {"TERM": "xterm-256color"}
QUIET_S = 0.4
"""So long nothing is printed before the next keys are typed."""
KEYS = (b"\r", b"y", b"?", b"\x1b", b"n", b"stop\r", b"\x03", b"\x03")


class OnTerminal:
    """A program under way on a terminal."""

    def __init__(self, words, folder, environment=(), size=(24, 80), python=sys.executable):
        self.printed = b""
        self._master, console = pty.openpty()
        fcntl.ioctl(console, termios.TIOCSWINSZ, struct.pack("HHHH", *size, 0, 0))
        command = shlex.join([python, *ENTRY, *map(str, words)])
        self.process = subprocess.Popen(
            ["bash", "-c", f"exec {command}"],
            stdin=console,
            stdout=console,
            stderr=console,
            cwd=folder,
            env=surroundings(folder, {**USUAL, **dict(environment)}),
            start_new_session=True,
            preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0),
        )
        os.close(console)

    def read(self, wait_s):
        """Take what is printed within `wait_s`; return whether anything was."""
        if self._master is None or not select.select([self._master], [], [], wait_s)[0]:
            return False
        try:
            data = os.read(self._master, 65536)
        except OSError:  # nobody holds the terminal any more
            return False
        self.printed += data
        return bool(data)

    def wait_for(self, words, limit_s=LIMIT_S):
        """Wait until `words` are printed; return whether they were."""
        end_s = time.monotonic() + limit_s
        while words.encode() not in self.printed:
            self.read(0.05)
            if self.process.poll() is not None or time.monotonic() > end_s:
                return words.encode() in self.printed
        return True

    def type(self, keys):
        """Type keys, where anybody still reads them."""
        with contextlib.suppress(OSError):
            os.write(self._master, keys)

    def type_one_by_one(self, keys, limit_s=LIMIT_S):
        """Type each of `keys` once nothing has been printed for a while, until it has ended."""
        end_s, left = time.monotonic() + limit_s, list(keys)
        while self.process.poll() is None and left and time.monotonic() < end_s:
            if not self.read(QUIET_S) and self.process.poll() is None:
                self.type(left.pop(0))

    def hang_up(self):
        """Close the terminal, as when its window is closed."""
        os.close(self._master)
        self._master = None

    def wait_for_signals(self):
        """Wait until the program has come so far that it hears signals."""
        wait_for_signals(self.process)

    def signal(self, number):
        """Signal the program as its console does: all processes that it has begun."""
        with contextlib.suppress(ProcessLookupError):
            os.killpg(self.process.pid, number)

    def ended(self, limit_s=LIMIT_S):
        """Return how it Ended; it is killed where it does not within `limit_s`."""
        from_s = time.monotonic()
        while self.process.poll() is None and time.monotonic() - from_s < limit_s:
            if not self.read(0.05):
                time.sleep(0.01)
        seconds = time.monotonic() - from_s
        code = code_of(self.process)
        if code is None:
            self.signal(signal.SIGKILL)
            self.process.wait()
        while self.read(0.0):
            pass
        if self._master is not None:
            os.close(self._master)
        return Ended(code, self.printed.decode("utf-8", "surrogateescape"), "", seconds)


def on_terminal(words, folder, environment=(), size=(24, 80), python=sys.executable):
    """Return how a program Ended at whose terminal KEYS are typed."""
    program = OnTerminal(words, folder, environment, size, python)
    program.type_one_by_one(KEYS)
    return program.ended(LIMIT_S / 3)
