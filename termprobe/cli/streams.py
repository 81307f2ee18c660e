"""The standard streams of this program, fit for use whatever the user has done with them."""

from __future__ import annotations

import contextlib
import errno
import io
import os
import sys
from typing import TYPE_CHECKING, TextIO

from termprobe.errors import FileError

if TYPE_CHECKING:
    from _typeshed import ReadableBuffer

INPUT, OUTPUT, ERRORS = range(3)
"""Their descriptors."""


class ClosedInput(io.TextIOWrapper):
    """Stands for a standard input that was closed: nothing comes of it."""


class Printed(io.BufferedWriter):
    """A stream that is printed to; whatever is printed once it has failed goes nowhere.

    Where reader or room are gone, BrokenPipeError or FileError is raised if what is printed must be
    read. A console that was closed takes all in silence.
    """

    def __init__(self, descriptor: int, must_be_read: bool) -> None:
        super().__init__(io.FileIO(descriptor, "w", closefd=False))
        self._must_be_read = must_be_read

    def write(self, data: ReadableBuffer) -> int:
        """Take `data`; return how many bytes it has."""
        try:
            return super().write(data)
        except OSError as error:
            self._fail(error)
            return memoryview(data).nbytes

    def flush(self) -> None:
        """Print whatever waits."""
        try:
            super().flush()
        except OSError as error:
            self._fail(error)

    def _fail(self, error: OSError) -> None:
        to_nowhere(self.fileno())
        if isinstance(error, BrokenPipeError):
            raise error
        if self._must_be_read and error.errno != errno.EIO:
            raise FileError([_refusal(error)]) from None


def _refusal(error: OSError) -> str:
    return (
        f"standard output must take what is printed, but it does not ({error.strerror}); "
        "make room, or print it elsewhere"
    )


def to_nowhere(descriptor: int) -> None:
    """Let whatever is written to the `descriptor` from now on go nowhere."""
    nowhere = os.open(os.devnull, os.O_RDWR)
    os.dup2(nowhere, descriptor)
    os.close(nowhere)


def make_fit() -> None:
    """Have standard input, output and errors, closed ones as well, that no character can break.

    What is typed into a closed one is nothing; what is printed on one goes nowhere.
    """
    if sys.stdin is None:
        sys.stdin = ClosedInput(io.FileIO(_opened(INPUT), closefd=False), encoding="utf-8")
    sys.stdout = _fit(sys.stdout, OUTPUT)
    sys.stderr = _fit(sys.stderr, ERRORS)


def _opened(descriptor: int) -> int:
    """Return the `descriptor`, which was closed, opened on nothing."""
    os.dup2(os.open(os.devnull, os.O_RDWR), descriptor)
    return descriptor


def _fit(stream: TextIO | None, descriptor: int) -> TextIO:
    """Return the stream that prints to `descriptor`, as `stream` does, which is None if closed.

    A character that its encoding does not have is printed as an escape.
    """
    encoding = "utf-8"
    if stream is None:
        _opened(descriptor)
    else:
        stream.flush()
        encoding = stream.encoding
    binary = Printed(descriptor, must_be_read=descriptor == OUTPUT)
    is_by_lines = descriptor == ERRORS or os.isatty(descriptor)
    return io.TextIOWrapper(
        binary, encoding=encoding, errors="backslashreplace", line_buffering=is_by_lines
    )


def leave_nothing() -> None:
    """Print what waits to be, so that nothing is left that could fail when the program has ended.

    That nobody reads it, or there is no room for it, has been told by now or is nothing to tell.
    """
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(BrokenPipeError, FileError):
            stream.flush()
