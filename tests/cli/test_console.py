"""The console: what it is told and asked, and that what is drawn fits into it."""

import fcntl
import io
import os
import pty
import struct
import subprocess
import sys
import termios

import pytest

from helpers.served import TERMPROBE
from termprobe.cli import console
from termprobe.cli.console import Console
from termprobe.terminal.dots import Enlarged


def on_a_terminal(columns, *arguments, typed=b""):
    """Return the lines that `termprobe` with `arguments` shows on a terminal so wide."""
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


@pytest.fixture(name="told")
def _told():
    return io.StringIO()


def test_what_is_told_stands_on_lines_of_its_own(told):
    made = console.Console(told)
    made.tell("one")
    made.tell("two\nlines")
    assert told.getvalue() == "one\ntwo\nlines\n"


def test_what_is_asked_is_answered_by_a_line(told, monkeypatch):
    monkeypatch.setattr(sys, "stdin", io.StringIO("yes \n\n"))
    made = console.Console(told)
    assert (made.ask("Is it? "), made.ask("Sure? ")) == ("yes ", "")
    assert told.getvalue() == "Is it? Sure? "


def test_behind_the_end_of_the_input_a_new_line_begins(told, monkeypatch):
    monkeypatch.setattr(sys, "stdin", io.StringIO(""))
    with pytest.raises(EOFError):
        console.Console(told).ask("Is it? ")
    assert told.getvalue() == "Is it? \n"


def test_behind_an_interrupt_too(told, monkeypatch):
    class Interrupted:
        def readline(self):
            raise KeyboardInterrupt

    monkeypatch.setattr(sys, "stdin", Interrupted())
    with pytest.raises(KeyboardInterrupt):
        console.Console(told).ask("Is it? ")
    assert told.getvalue() == "Is it? \n"


class Stream(io.StringIO):
    def __init__(self, is_terminal):
        super().__init__()
        self.isatty = lambda: is_terminal


@pytest.mark.parametrize(
    "is_typed, is_shown, is_full",
    [(True, True, True), (True, False, False), (False, True, False), (False, False, False)],
)
def test_a_full_screen_needs_a_keyboard_and_a_screen(is_typed, is_shown, is_full, monkeypatch):
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr(sys, "stdin", Stream(is_typed))
    monkeypatch.setattr(sys, "stdout", Stream(is_shown))
    assert (console.is_typed_at(), console.is_full_screen()) == (is_typed, is_full)


@pytest.mark.parametrize("kind", ["dumb", "", None])
def test_a_terminal_that_only_prints_is_no_full_screen(kind, monkeypatch):
    monkeypatch.setattr(sys, "stdin", Stream(True))
    monkeypatch.setattr(sys, "stdout", Stream(True))
    monkeypatch.delenv("TERM", raising=False)
    if kind is not None:
        monkeypatch.setenv("TERM", kind)
    assert console.is_typed_at() and not console.is_full_screen()


class EncodedStream(io.StringIO):
    """A stream that says of itself what a test wants."""

    def __init__(self, encoding, is_terminal):
        super().__init__()
        self._encoding, self._is_terminal = encoding, is_terminal

    @property
    def encoding(self):
        return self._encoding

    def isatty(self):
        return self._is_terminal

    def fileno(self):
        raise io.UnsupportedOperation


@pytest.mark.parametrize(
    "encoding, is_terminal, drawn",
    [
        ("UTF-8", True, "L\n\u2588\n\u2580\u2580\u2580"),
        ("ascii", True, "L\n#..\n#..\n###"),
        ("utf-8", False, "L\n#..\n#..\n###"),
        (None, True, "L\n#..\n#..\n###"),
    ],
)
def test_dots_are_drawn_in_blocks_where_the_console_has_them(encoding, is_terminal, drawn):
    made = console.Console(EncodedStream(encoding, is_terminal))
    assert made.draw_dots([Enlarged("L", ("#..", "#..", "###"))]) == drawn


def test_a_paragraph_is_folded_whatever_the_console():
    stream = io.StringIO()
    Console(stream).tell_paragraph("many words " * 20)
    lines = stream.getvalue().splitlines()
    assert len(lines) == 3 and max(map(len, lines)) <= 78
