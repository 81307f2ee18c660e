"""xterm on a display of its own as a board under test."""

import contextlib
import os
import subprocess

from helpers.emulators import wait_for


@contextlib.contextmanager
def xterm(folder, rows=24, columns=80):
    """Yield the port of an xterm; it has no dump command, and ends with its display."""
    port = folder / "port"
    read, write = os.pipe()
    display = subprocess.Popen(["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x1024x24", "-nolisten", "tcp"],
                               pass_fds=[write], stderr=subprocess.DEVNULL)
    os.close(write)
    try:
        with os.fdopen(read) as announced:
            number = announced.readline().strip()
        assert number, "Xvfb must start and announce its display"
        relay = f"exec socat -,raw,echo=0 PTY,link={port},raw,echo=0"
        window = subprocess.Popen(["xterm", "-geometry", f"{columns}x{rows}", "-e", "sh", "-c", relay],
                                  env={**os.environ, "DISPLAY": f":{number}", "LC_ALL": "C.UTF-8"}, stderr=subprocess.DEVNULL)
        try:
            wait_for(lambda: port.exists() or window.poll() is not None, "the port of xterm")
            yield str(port)
        finally:
            window.terminate()
            window.wait(10)
    finally:
        display.terminate()
        display.wait(10)
