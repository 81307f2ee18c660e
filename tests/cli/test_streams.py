"""Standard streams that are closed, full, without a reader or without letters."""

import contextlib
import io
import os
import sys

import pytest

from termprobe.cli import streams
from termprobe.cli.streams import ERRORS, OUTPUT, Printed, leave_nothing, make_fit
from termprobe.errors import FileError


@contextlib.contextmanager
def put_in_place_of(descriptor, other):
    """For the time of the block let `descriptor` be the `other`, or closed where that is None."""
    kept = os.dup(descriptor)
    os.close(descriptor)
    if other is not None:
        os.dup2(other, descriptor)
    try:
        yield
    finally:
        os.dup2(kept, descriptor)
        os.close(kept)


@pytest.fixture
def own(monkeypatch):
    """Keep the streams of this process."""
    for name in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(sys, name, getattr(sys, name))


def full():
    return os.open("/dev/full", os.O_WRONLY)


def without_reader():
    reader, writer = os.pipe()
    os.close(reader)
    return writer


def test_output_that_cannot_be_printed_is_told_once():
    descriptor = full()
    printed = Printed(descriptor, must_be_read=True)
    with pytest.raises(FileError, match="standard output must take what is printed"):
        printed.write(b"a page")
        printed.flush()
    assert printed.write(b"more") == 4
    printed.flush()
    os.close(descriptor)


def test_complaints_that_cannot_be_printed_end_nothing():
    descriptor = full()
    printed = Printed(descriptor, must_be_read=False)
    assert printed.write(b"a word") == 6
    printed.flush()
    os.close(descriptor)


@pytest.mark.parametrize("must_be_read", [True, False])
def test_that_nobody_reads_is_told_once(must_be_read):
    descriptor = without_reader()
    printed = Printed(descriptor, must_be_read)
    with pytest.raises(BrokenPipeError):
        printed.write(b"a page")
        printed.flush()
    assert printed.write(b"more") == 4
    printed.flush()
    os.close(descriptor)


def test_a_console_that_was_closed_takes_all_in_silence():
    near, far = os.openpty()
    os.close(near)
    printed = Printed(far, must_be_read=True)
    assert printed.write(b"a page") == 6
    printed.flush()
    os.close(far)


def test_an_interrupt_prints_nothing_twice():
    """It can come behind each step of Python code, but not between writing and knowing of it."""
    reader, writer = os.pipe()
    printed = Printed(writer, must_be_read=True)
    assert type(printed.raw) is io.FileIO
    printed.write(b"a page")
    printed.flush()
    printed.flush()
    os.close(writer)
    assert os.read(reader, 99) == b"a page"
    os.close(reader)


def test_closed_streams_are_opened_on_nothing(own, monkeypatch):
    for name in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(sys, name, None)
    with contextlib.ExitStack() as stack:
        for descriptor in range(3):
            stack.enter_context(put_in_place_of(descriptor, None))
        make_fit()
        print("nowhere")
        print("nowhere", file=sys.stderr)
        read = sys.stdin.readline(), sys.stdin.isatty(), sys.stdout.isatty()
        paths = [os.readlink(f"/proc/self/fd/{number}") for number in range(3)]
        leave_nothing()
    assert read == ("", False, False) and paths == [os.devnull] * 3


def test_a_character_that_the_encoding_does_not_have_is_an_escape(own, tmp_path):
    kept = os.open(tmp_path / "kept", os.O_RDWR | os.O_CREAT)
    sys.stdout = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    with put_in_place_of(OUTPUT, kept):
        make_fit()
        print("± 5 %")
        leave_nothing()
    os.close(kept)
    assert (tmp_path / "kept").read_bytes() == b"\\xb1 5 %\n"


def test_what_waits_to_be_printed_where_nobody_reads_does_no_harm(own):
    with put_in_place_of(OUTPUT, without_reader()), put_in_place_of(ERRORS, full()):
        make_fit()
        print("waits")
        leave_nothing()
        leave_nothing()


def test_nothing_is_where_writes_go_afterwards():
    reader, writer = os.pipe()
    streams.to_nowhere(writer)
    assert os.write(writer, b"gone") == 4 and os.read(reader, 9) == b""
    os.close(writer)
    os.close(reader)
