"""What is drawn fits into the console that it is drawn on."""

import fcntl
import io
import os
import pty
import struct
import subprocess
import termios

import pytest

from helpers.served import TERMPROBE
from termprobe.cli import console


def on_a_terminal(columns, *arguments, typed=b""):
    """Return what `termprobe` with `arguments` shows on a terminal of `columns` columns, line by line."""
    near, far = pty.openpty()
    fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    program = subprocess.Popen(
        [*TERMPROBE, *arguments], stdin=subprocess.PIPE, stdout=far, stderr=far
    )
    os.close(far)
    program.stdin.write(typed)
    program.stdin.close()
    shown = b""
    try:
        while data := os.read(near, 65536):
            shown += data
    except OSError:  # the other end is closed
        pass
    os.close(near)
    assert program.wait(20) == 0
    return shown.decode().replace("\r", "").split("\n")


def test_a_stream_that_is_no_terminal_has_no_columns(tmp_path):
    with open(tmp_path / "file", "w", encoding="utf-8") as file:
        assert console.columns(file) is None
    assert console.columns(file) is None, "closed"
    assert console.columns(io.StringIO()) is None


@pytest.mark.parametrize(
    "columns, first", [(100, " 0|HELLO"), (84, " 0|HELLO"), (80, "HELLO"), (40, "HELLO")]
)
def test_a_screen_is_drawn_in_the_width_of_the_terminal(columns, first):
    lines = on_a_terminal(columns, "render", "--profile", "singlebyte-24x80", typed=b"HELLO\r\x0a")
    assert max(map(len, lines)) <= columns
    assert any(line.startswith(first) for line in lines)
