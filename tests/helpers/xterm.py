"""xterm on a display of its own as a board under test."""

import contextlib
import os
import select
import subprocess

from helpers.emulators import wait_for

LIMIT_S = 10.0


@contextlib.contextmanager
def display():
    """Yield the name of a display that nobody else uses."""
    read, write = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x1024x24", "-nolisten", "tcp"],
        pass_fds=[write],
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    try:
        with os.fdopen(read) as announced:
            assert select.select([announced], [], [], LIMIT_S)[0], "Xvfb must announce its display"
            number = announced.readline().strip()
        assert number, "Xvfb must start"
        yield f":{number}"
    finally:
        server.terminate()
        server.wait(LIMIT_S)


@contextlib.contextmanager
def xterm(folder, rows=24, columns=80):
    """Yield the port of an xterm; it has no dump command, and ends with its display."""
    port = folder / "port"
    relay = f"exec socat -,raw,echo=0 PTY,link={port},raw,echo=0"
    with display() as name:
        window = subprocess.Popen(
            ["xterm", "-geometry", f"{columns}x{rows}", "-e", "sh", "-c", relay],
            env={**os.environ, "DISPLAY": name, "LC_ALL": "C.UTF-8"},
            stderr=subprocess.DEVNULL,
        )
        try:
            wait_for(lambda: port.exists() or window.poll() is not None, "the port of xterm")
            yield str(port)
        finally:
            window.terminate()
            window.wait(LIMIT_S)
